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

/// Whether a value, in the limit's own unit, is believed; what is given at the command line is held against the same table as
/// what a file says.
///
/// # Errors
/// What is wrong with it, and what would be right; `what` names it.
pub fn believed(table: &str, name: &str, what: &str, value: f64) -> Result<(), String> {
    let limit = of(table, name);
    debug_assert!(limit.is_some(), "limits.toml lacks {table}.{name}");
    match limit.filter(|limit| !limit.holds(value)) {
        None => Ok(()),
        Some(limit) => Err(format!("{what}: {} is out of range; {} ({})", rounded(value), limit.words(), limit.source)),
    }
}

/// Without the digits that a change of unit adds: 140, not 140.00000000000001.
fn rounded(value: f64) -> String {
    let text = format!("{value:.9}");
    if value.abs() < 1e9 && text.parse::<f64>().is_ok_and(|short| short != 0.0) {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        value.to_string()
    }
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
    fn a_value_that_nobody_believes_is_named_with_what_would_be_right() {
        assert_eq!(believed("binder", "residue", "residue", 65.0), Ok(()));
        let wrong = "residue: 0.65 is out of range; between 30 and 100 percent (common practice, no source)";
        assert_eq!(believed("binder", "residue", "residue", 0.65), Err(wrong.to_owned()));
        for value in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300] {
            let said = believed("binder", "residue", "residue", value).unwrap_err();
            assert!(said.starts_with(&format!("residue: {value} is out of range")), "{said}");
        }
        let said = believed("binder", "residue", "residue", 1.4 * 100.0 + 1e-14).unwrap_err();
        assert!(said.starts_with("residue: 140 is"), "{said}");
    }

    #[test]
    fn every_limit_is_a_range() {
        for (table, limits) in LIMITS.iter() {
            for (name, limit) in limits {
                assert!(limit.value[0] < limit.value[1], "{table}.{name}");
            }
        }
    }
}
