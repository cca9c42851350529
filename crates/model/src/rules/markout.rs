//! Shape of `rules/markout/*.toml`: how a cut is laid around a hole.

use serde::Deserialize;

use super::{Sourced, not_believed};

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
    /// Two cuts nearer to each other than this become one, m. Nor is a strip narrower than this left between two arms of
    /// one cut.
    pub merge_gap_m: Sourced<f64>,
    /// A strip between cut and pavement edge narrower than this is cut out too, m.
    pub edge_gap_m: Sourced<f64>,
    /// No side or arm of a cut is narrower than this, so that a compactor fits in, m.
    pub smallest_side_m: Sourced<f64>,
    /// A cut squarer to the road is preferred where it costs at most this part more; 0.02 is two per cent.
    pub square_tolerance: Sourced<f64>,
    /// Corners a cut may have: 4, 6 or 8.
    pub most_corners: Sourced<u32>,
    /// What each corner beyond four costs, as the area that it must save, m².
    pub corner_price_m2: Sourced<f64>,
    /// What each metre of edge to saw or pick costs, as the area that it must save, m² per m.
    pub edge_price_m2_per_m: Sourced<f64>,
    /// No side of a notch is shorter than this: sawing it would not be worth its corners, m.
    pub smallest_notch_m: Sourced<f64>,
    /// Where wheels run, and whether joints stay out of there.
    pub wheel_path: WheelPathRules,
}

/// The strips that wheels run on. A joint along the road there is hit by every vehicle.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WheelPathRules {
    /// Whether cut edges along the road are kept out of the strips.
    pub keep_clear: Sourced<bool>,
    /// From the middle of the lane to the middle of a wheel path, m.
    pub offset_m: Sourced<f64>,
    /// Width of the strip, m.
    pub strip_m: Sourced<f64>,
    /// An edge is moved out of a strip by at most this; where that is not enough, it stays and is remarked, m.
    pub greatest_shift_m: Sourced<f64>,
}

impl MarkOutRules {
    /// Numbers that are below zero, not finite or beyond all belief (common practice, no source), each with its field.
    /// Empty when the set can be used.
    pub fn faults(&self) -> Vec<String> {
        let numbers = [
            ("margin_m", self.margin_m.value, 1.0),
            ("far_limit_m", self.far_limit_m.value, 10.0),
            ("merge_gap_m", self.merge_gap_m.value, 10.0),
            ("edge_gap_m", self.edge_gap_m.value, 5.0),
            ("smallest_side_m", self.smallest_side_m.value, 5.0),
            ("square_tolerance", self.square_tolerance.value, 1.0),
            ("corner_price_m2", self.corner_price_m2.value, 10.0),
            ("edge_price_m2_per_m", self.edge_price_m2_per_m.value, 10.0),
            ("smallest_notch_m", self.smallest_notch_m.value, 5.0),
            ("wheel_path.offset_m", self.wheel_path.offset_m.value, 3.0),
            ("wheel_path.strip_m", self.wheel_path.strip_m.value, 3.0),
            ("wheel_path.greatest_shift_m", self.wheel_path.greatest_shift_m.value, 3.0),
        ]
        .map(|(field, value, most)| (field, value, 0.0, most));
        let mut faults = not_believed(numbers);
        if !matches!(self.most_corners.value, 4 | 6 | 8) {
            faults.push(format!("most_corners is {}; 4, 6 or 8 is possible", self.most_corners.value));
        }
        faults
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::figure::Source;

    fn sourced<T>(value: T) -> Sourced<T> {
        Sourced { value, source: Source::common_practice() }
    }

    fn rules() -> MarkOutRules {
        MarkOutRules {
            name: "test".into(),
            about: String::new(),
            margin_m: sourced(0.025),
            far_limit_m: sourced(0.1),
            merge_gap_m: sourced(0.3),
            edge_gap_m: sourced(0.15),
            smallest_side_m: sourced(0.2),
            square_tolerance: sourced(0.02),
            most_corners: sourced(8),
            corner_price_m2: sourced(0.025),
            edge_price_m2_per_m: sourced(0.01),
            smallest_notch_m: sourced(0.15),
            wheel_path: WheelPathRules {
                keep_clear: sourced(false),
                offset_m: sourced(0.9),
                strip_m: sourced(0.6),
                greatest_shift_m: sourced(0.3),
            },
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

    #[test]
    fn a_cut_has_four_six_or_eight_corners() {
        for corners in 0..12 {
            let mut rules = rules();
            rules.most_corners.value = corners;
            assert_eq!(rules.faults().is_empty(), [4, 6, 8].contains(&corners), "{corners}");
        }
    }
}
