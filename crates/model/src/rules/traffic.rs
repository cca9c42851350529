//! Shape of `rules/traffic/*.toml`.
