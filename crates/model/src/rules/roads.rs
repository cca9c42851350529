//! Shape of `rules/roads/*.toml`.
