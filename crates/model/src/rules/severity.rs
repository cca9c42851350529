//! Shape of `rules/severity/*.toml`.
