//! Between which values a figure is believed: the table `limits.toml` beside this file, each value with its source.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use model::figure::Source;
use serde::Deserialize;

/// One line of the table.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// Least and greatest value believed, both included.
    value: [f64; 2],
    /// Unit they are in.
    pub unit: String,
    /// Where they are from.
    pub source: Source,
}

/// The limit of a figure, by table and dotted name, e.g. `of("base", "optimum_moisture")`.
pub fn of(table: &str, name: &str) -> Option<&'static Limit> {
    LIMITS.get(table)?.get(name)
}

impl Limit {
    /// Whether a value in the limit's own unit is believed. NaN never is.
    pub fn holds(&self, value: f64) -> bool {
        // A value converted from another unit may miss the bound by a rounding error.
        let slack = 1e-9 * self.value[1].abs();
        (self.value[0] - slack..=self.value[1] + slack).contains(&value)
    }

    /// `between 2 and 25 percent`.
    pub fn words(&self) -> String {
        format!("between {} and {} {}", self.value[0], self.value[1], self.unit)
    }

    /// The greatest value believed.
    pub fn greatest(&self) -> f64 {
        self.value[1]
    }
}

static LIMITS: LazyLock<BTreeMap<String, BTreeMap<String, Limit>>> =
    LazyLock::new(|| toml::from_str(include_str!("limits.toml")).expect("the embedded table is read by the tests"));

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_limit_is_a_range() {
        for (table, limits) in LIMITS.iter() {
            for (name, limit) in limits {
                assert!(limit.value[0] < limit.value[1], "{table}.{name}");
            }
        }
    }
}
