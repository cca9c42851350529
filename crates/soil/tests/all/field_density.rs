//! What the field test refuses and says.

use model::quantity::{InRatio, fraction, kilograms, kilograms_per_cubic_metre, percent};
use model::soil::{FieldDensityReading, Verdict};
use proptest::prelude::*;
use soil::field_density::{faults, field_density};

use crate::support::{near, soil_rules};

fn reading() -> FieldDensityReading {
    FieldDensityReading {
        sand_before: kilograms(7.5),
        sand_after: kilograms(3.35),
        sand_in_cone: kilograms(1.55),
        sand_density: kilograms_per_cubic_metre(1450.0),
        soil: kilograms(3.87),
        moisture: percent(6.2),
        maximum_dry_density: kilograms_per_cubic_metre(2150.0),
        required: percent(95.0),
    }
}

fn verdict(required: f64) -> Verdict {
    field_density(&FieldDensityReading { required: percent(required), ..reading() }, &soil_rules()).verdict
}

#[test]
fn the_verdict_goes_by_the_value_and_says_when_it_is_narrow() {
    // 94.524 %, P10 to P90 93.782 to 95.267.
    assert_eq!(verdict(95.30), Verdict::Fails);
    assert_eq!(verdict(95.00), Verdict::FailsNarrowly);
    assert_eq!(verdict(94.50), Verdict::PassesNarrowly);
    assert_eq!(verdict(93.70), Verdict::Passes);
    let exactly = field_density(&reading(), &soil_rules()).degree_of_compaction.value;
    assert!(verdict(exactly.in_percent()).is_pass());
    assert!(Verdict::Passes.is_pass() && !Verdict::Fails.is_pass() && !Verdict::FailsNarrowly.is_pass());
    assert_eq!(Verdict::PassesNarrowly.words(), "passes, within the reading errors");
    assert_eq!(Verdict::Fails.words(), "fails");
}

#[test]
fn what_cannot_be_is_told_value_by_value() {
    assert!(faults(&reading()).is_empty());
    let bad = FieldDensityReading {
        soil: kilograms(0.0),
        moisture: fraction(-0.01),
        sand_density: kilograms_per_cubic_metre(f64::NAN),
        ..reading()
    };
    let words = faults(&bad);
    assert_eq!(words.len(), 3, "{words:?}");
    assert!(words[0].starts_with("sand density is NaN") && words[1].starts_with("soil from the hole is 0;"));
    assert_eq!(words[2], "moisture is -0.01; a number of zero or more is needed");
    let none_left = FieldDensityReading { sand_after: kilograms(5.95), ..reading() };
    let words = faults(&none_left);
    assert_eq!(words.len(), 1);
    assert!(words[0].ends_with("g of sand are left for the hole; more must have run out than fills the cone"));
    let none_in_cone = FieldDensityReading { sand_in_cone: kilograms(0.0), moisture: fraction(0.0), ..reading() };
    assert!(faults(&none_in_cone).is_empty());
}

#[test]
fn a_small_hole_and_an_impossible_density_are_told() {
    assert!(field_density(&reading(), &soil_rules()).remarks.is_empty());
    // 1.0 kg of sand: 690 cm3, and soil to match.
    let small = FieldDensityReading { sand_after: kilograms(4.95), soil: kilograms(1.49), ..reading() };
    let remarks = field_density(&small, &soil_rules()).remarks;
    assert_eq!(remarks.len(), 1, "{remarks:?}");
    assert_eq!(remarks[0], "the hole holds 690 cm3; under 1400 cm3 its errors weigh too much: dig a larger one");
    for soil in [4.6, 5.5] {
        let remarks = field_density(&FieldDensityReading { soil: kilograms(soil), ..reading() }, &soil_rules()).remarks;
        assert!(remarks.len() == 1 && remarks[0].starts_with("denser than can be"), "{remarks:?}");
    }
}

proptest! {
    /// Mass balance: the dry density times the volume, with its water, is the soil that was dug.
    #[test]
    fn soil_is_kept(soil in 2.0..6.0_f64, moisture in 0.0..0.2_f64, left in 2.0..4.5_f64) {
        let reading = FieldDensityReading {
            soil: kilograms(soil), moisture: fraction(moisture), sand_after: kilograms(left), ..reading()
        };
        let found = field_density(&reading, &soil_rules());
        let again = (found.dry_density.value * found.hole_volume.value) * fraction(1.0 + moisture);
        prop_assert!(((again / kilograms(soil)).in_fraction() - 1.0).abs() < 1e-12);
        let spread = found.degree_of_compaction.spread.unwrap();
        prop_assert!(spread.p10 < spread.p50 && spread.p50 < spread.p90);
        near(spread.p50.in_fraction(), found.degree_of_compaction.value.in_fraction(), 1e-12);
    }
}
