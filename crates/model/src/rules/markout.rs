//! Shape of `rules/markout/*.toml`: how a cut is laid around a hole.

use serde::Deserialize;

use super::Sourced;

/// How a cut is laid around a hole. Lengths in metres.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkOutRules {
    /// Name of the rule set.
    pub name: String,
    /// One sentence on what the rule set is for.
    pub about: String,
    /// Least distance from the hole to the cut, in sound pavement, m.
    pub margin_m: Sourced<f64>,
    /// No part of the cut should lie further from the hole than this, m.
    pub far_limit_m: Sourced<f64>,
    /// Two cuts nearer to each other than this become one, m.
    pub merge_gap_m: Sourced<f64>,
    /// A strip between cut and pavement edge narrower than this is cut out too, m.
    pub edge_gap_m: Sourced<f64>,
    /// No side of a cut is shorter than this, so that a compactor fits in, m.
    pub smallest_side_m: Sourced<f64>,
    /// A cut squarer to the road is preferred where it costs at most this part more area; 0.02 is two per cent.
    pub square_tolerance: Sourced<f64>,
}

impl MarkOutRules {
    /// Numbers that are below zero, not finite or beyond all belief (common practice, no source), each with its field.
    /// Empty when the set can be used.
    pub fn faults(&self) -> Vec<String> {
        [
            ("margin_m", self.margin_m.value, 1.0),
            ("far_limit_m", self.far_limit_m.value, 10.0),
            ("merge_gap_m", self.merge_gap_m.value, 10.0),
            ("edge_gap_m", self.edge_gap_m.value, 5.0),
            ("smallest_side_m", self.smallest_side_m.value, 5.0),
            ("square_tolerance", self.square_tolerance.value, 1.0),
        ]
        .into_iter()
        .filter(|(_, value, most)| !(0.0..=*most).contains(value))
        .map(|(field, value, most)| format!("{field} is {value}; a number from 0 to {most} is believed"))
        .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::Source;

    fn rules() -> MarkOutRules {
        let value = |value| Sourced { value, source: Source::common_practice() };
        MarkOutRules {
            name: "test".into(),
            about: String::new(),
            margin_m: value(0.025),
            far_limit_m: value(0.1),
            merge_gap_m: value(0.3),
            edge_gap_m: value(0.15),
            smallest_side_m: value(0.2),
            square_tolerance: value(0.02),
        }
    }

    #[test]
    fn faults_name_the_field() {
        assert_eq!(rules().faults(), Vec::<String>::new());
        for bad in [f64::NAN, f64::INFINITY, -0.1, 11.0] {
            let mut wrong = rules();
            (wrong.merge_gap_m.value, wrong.margin_m.value) = (bad, bad);
            let faults = wrong.faults();
            assert!(faults.len() == 2 && faults[0].contains("margin_m") && faults[1].contains("merge_gap_m"), "{bad}");
        }
    }
}
