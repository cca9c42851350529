//! Shape of `rules/repair/*.toml`.
