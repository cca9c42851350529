//! What the compaction test refuses, chooses and says.

use model::problem::{Locator, ProblemSeverity};
use model::quantity::{InMassDensity, InRatio, cubic_metres, fraction, kilograms, kilograms_per_cubic_metre, percent};
use model::soil::{CompactionReading, CompactionTest, DensityReading, FitDegree, PointFate};
use proptest::prelude::*;
use soil::{DegreeChoice, compaction_test};

use crate::support::{near, soil_rules, specimens};

fn test(points: &[(f64, f64)]) -> CompactionTest {
    compaction_test(&specimens(points), Some(2.70), DegreeChoice::WhicheverServes, &soil_rules().compaction).0
}

fn parabola(w: f64) -> f64 {
    2100.0 - 12.0 * (w - 7.0) * (w - 7.0)
}

fn on_parabola(moistures: &[f64]) -> Vec<(f64, f64)> {
    moistures.iter().map(|w| (*w, parabola(*w))).collect()
}

#[test]
fn four_specimens_take_the_parabola_and_say_that_the_spread_is_wide() {
    let fit = test(&on_parabola(&[4.0, 6.0, 8.0, 9.0])).fit.unwrap();
    assert_eq!(fit.degree, FitDegree::Parabola);
    assert_eq!(fit.degree_reason, "4 specimens; a cubic takes 5 or more");
    assert_eq!(fit.degrees_of_freedom, 1);
    near(fit.maximum_dry_density.value.in_kilograms_per_cubic_metre(), 2100.0, 1e-9);
    near(fit.optimum_moisture.value.in_percent(), 7.0, 1e-9);
    assert!(fit.remarks.iter().any(|r| r.contains("leave one to spare")), "{:?}", fit.remarks);
    assert!(fit.maximum_dry_density.spread.is_some());
}

#[test]
fn three_specimens_have_no_spread() {
    let fit = test(&on_parabola(&[5.0, 7.0, 9.0])).fit.unwrap();
    assert_eq!((fit.degrees_of_freedom, fit.scatter), (0, None));
    assert!(fit.maximum_dry_density.spread.is_none() && fit.optimum_moisture.spread.is_none());
    assert!(fit.remarks.iter().any(|r| r.contains("none to spare")), "{:?}", fit.remarks);
}

#[test]
fn five_specimens_take_the_cubic_where_its_peak_is_among_them() {
    let cubic = |w: f64| parabola(w) - 1.0 * (w - 7.0).powi(3);
    let points: Vec<(f64, f64)> = [4.0, 5.5, 7.0, 8.5, 10.0].map(|w| (w, cubic(w))).into();
    let fit = test(&points).fit.unwrap();
    assert_eq!(fit.degree, FitDegree::Cubic);
    assert_eq!(fit.degree_reason, "5 specimens, and the cubic's peak lies among them");
    near(fit.optimum_moisture.value.in_percent(), 7.0, 1e-9);
    near(fit.maximum_dry_density.value.in_kilograms_per_cubic_metre(), 2100.0, 1e-8);
    let only = DegreeChoice::Only(FitDegree::Parabola);
    let forced = compaction_test(&specimens(&points), Some(2.7), only, &soil_rules().compaction).0.fit.unwrap();
    assert_eq!((forced.degree, forced.degree_reason.as_str()), (FitDegree::Parabola, "as asked for"));
}

#[test]
fn a_cubic_that_rises_again_gives_way_to_the_parabola() {
    // The last specimen turns the cubic up behind its peak, to 2069.5 over the peak's 2062.7.
    let points =
        [(3.0, 1900.0), (4.0, 2000.0), (5.0, 2060.0), (6.0, 2070.0), (7.0, 2045.0), (8.0, 2000.0), (9.0, 2080.0)];
    let fit = test(&points).fit.unwrap();
    assert_eq!(fit.degree, FitDegree::Parabola);
    assert!(fit.degree_reason.starts_with("the cubic does not serve: the cubic rises"), "{}", fit.degree_reason);
    near(fit.optimum_moisture.value.in_percent(), 7.1331, 1e-4);
    let only = DegreeChoice::Only(FitDegree::Cubic);
    let why = compaction_test(&specimens(&points), Some(2.7), only, &soil_rules().compaction).0.fit.unwrap_err();
    assert_eq!(why, "the cubic rises above its peak at the ends: test specimens wetter than the wettest");
}

#[test]
fn a_peak_outside_the_moistures_is_not_found() {
    let wet = test(&on_parabola(&[2.0, 3.0, 4.0, 5.0])).fit.unwrap_err();
    assert!(wet.contains("peaks at 7.00 %, outside the moistures tested (2.00 % to 5.00 %)"), "{wet}");
    assert!(wet.ends_with("test specimens wetter than the wettest"), "{wet}");
    let dry = test(&on_parabola(&[8.0, 9.0, 10.0, 11.0])).fit.unwrap_err();
    assert!(dry.ends_with("test specimens drier than the driest"), "{dry}");
    // Hollow, so without any peak; rising towards the wet.
    let hollow = test(&[(4.0, 1900.0), (6.0, 1850.0), (8.0, 1950.0)]).fit.unwrap_err();
    assert_eq!(hollow, "the parabola has no peak: test specimens wetter than the wettest");
    let falling = test(&[(4.0, 1950.0), (6.0, 1850.0), (8.0, 1900.0)]).fit.unwrap_err();
    assert_eq!(falling, "the parabola has no peak: test specimens drier than the driest");
}

#[test]
fn a_specimen_above_the_zero_air_voids_line_is_refused_and_the_rest_goes_on() {
    let mut points = on_parabola(&[4.0, 6.0, 8.0, 9.0]);
    points.push((10.0, 2200.0));
    let rules = soil_rules().compaction;
    let (worked, problems) = compaction_test(&specimens(&points), None, DegreeChoice::WhicheverServes, &rules);
    assert_eq!(problems.len(), 1);
    let problem = &problems[0];
    assert_eq!((problem.code, problem.severity), ("proctor.point.above_zero_air_voids", ProblemSeverity::Refused));
    assert_eq!(problem.at, Locator { file: "specimens.csv".into(), line: 6, column: 1 });
    // 2.70 * 1000 / (1 + 0.1 * 2.70) = 2125.98.
    assert_eq!(
        problem.wrong,
        "dry density 2200.0 kg/m3 is above the zero air voids line, 2126.0 kg/m3 at that moisture for specific gravity 2.7"
    );
    assert!(problem.right.ends_with("or give the measured specific gravity if it is higher"));
    let fates: Vec<PointFate> = worked.points.iter().map(|p| p.fate).collect();
    assert_eq!(fates.iter().filter(|fate| **fate == PointFate::Used).count(), 4);
    assert_eq!(fates[4], PointFate::AboveZeroAirVoids);
    near(worked.fit.unwrap().optimum_moisture.value.in_percent(), 7.0, 1e-9);
    // On the line itself is possible.
    let on_line = specimens(&[(10.0, 2.70 * 1000.0 / 1.27)]);
    assert!(compaction_test(&on_line, Some(2.7), DegreeChoice::WhicheverServes, &rules).1.is_empty());
}

#[test]
fn a_peak_above_the_line_is_told() {
    // Each specimen lies below the line; the curve between the two wettest does not.
    let points = [(4.0, 1800.0), (6.0, 2300.0), (8.0, 2210.0)];
    let fit = test(&points).fit.unwrap();
    let limit = 2.70 * 1000.0 / (1.0 + 2.70 * fit.optimum_moisture.value.in_fraction());
    assert!(fit.maximum_dry_density.value.in_kilograms_per_cubic_metre() > limit);
    assert!(
        fit.remarks.iter().any(|r| r.starts_with("the peak lies above the zero air voids line")),
        "{:?}",
        fit.remarks
    );
    assert!(fit.saturation.value.in_fraction() > 1.0);
}

#[test]
fn remarks_tell_a_lonely_side_a_blunt_curve_and_an_assumed_gravity() {
    let rules = soil_rules().compaction;
    let said = |points: &[(f64, f64)], gravity| {
        let test = compaction_test(&specimens(points), gravity, DegreeChoice::WhicheverServes, &rules).0;
        test.fit.unwrap().remarks.join("\n")
    };
    let all_but_one_dry = on_parabola(&[3.0, 4.0, 5.0, 6.0, 9.0]);
    assert!(said(&all_but_one_dry, Some(2.7)).contains("only 1 specimen on the wet side"));
    assert!(!said(&all_but_one_dry, Some(2.7)).contains("dry side"));
    assert!(!said(&all_but_one_dry, Some(2.7)).contains("specific gravity was not measured"));
    assert!(said(&all_but_one_dry, None).contains("the specific gravity was not measured; 2.7 is taken"));
    let spike = [(4.0, 1700.0), (5.5, 1700.0), (7.0, 2050.0), (8.5, 1700.0), (10.0, 1700.0)];
    assert!(said(&spike, Some(2.7)).contains("too blunt"));
    assert!(!said(&on_parabola(&[4.0, 6.0, 8.0, 10.0]), Some(2.7)).contains("too blunt"));
}

#[test]
fn wet_density_and_mould_come_to_the_same_dry_density() {
    let reading = |density| CompactionReading { moisture: percent(8.0), density, from: Locator::default() };
    let readings = [
        reading(DensityReading::Dry(kilograms_per_cubic_metre(2000.0))),
        reading(DensityReading::Wet(kilograms_per_cubic_metre(2160.0))),
        reading(DensityReading::Mould { full: kilograms(6.16), empty: kilograms(4.0), volume: cubic_metres(0.001) }),
    ];
    let rules = soil_rules().compaction;
    let (test, problems) = compaction_test(&readings, None, DegreeChoice::WhicheverServes, &rules);
    assert!(problems.is_empty());
    assert_eq!(test.points.len(), 3);
    for point in &test.points {
        near(point.dry_density.in_kilograms_per_cubic_metre(), 2000.0, 1e-9);
    }
    // One moisture is no curve, however often.
    assert!(test.fit.unwrap_err().starts_with("1 moistures can be used and 3 are the least"));
}

#[test]
fn impossible_readings_are_refused_each_with_its_place() {
    let reading = |moisture, density| CompactionReading {
        moisture: fraction(moisture),
        density: DensityReading::Dry(kilograms_per_cubic_metre(density)),
        from: Locator { file: "f".into(), line: 7, column: 2 },
    };
    let rules = soil_rules().compaction;
    for bad in [reading(-0.01, 2000.0), reading(f64::NAN, 2000.0), reading(0.05, 0.0), reading(0.05, f64::INFINITY)] {
        let (test, problems) = compaction_test(&[bad], None, DegreeChoice::WhicheverServes, &rules);
        assert!(test.points.is_empty());
        assert_eq!(problems.len(), 1);
        assert_eq!((problems[0].code, problems[0].at.line), ("proctor.point.impossible", 7));
    }
    let dry = reading(0.0, 2000.0);
    assert_eq!(compaction_test(&[dry], None, DegreeChoice::WhicheverServes, &rules).0.points.len(), 1);
}

#[test]
fn lines_of_saturation_are_drawn_a_little_beyond_the_specimens() {
    let worked = test(&on_parabola(&[5.0, 7.0, 9.0]));
    let line = &worked.zero_air_voids.points;
    // 12 % of the range of 4 points on either side.
    near(line.first().unwrap().0.in_percent(), 4.52, 1e-9);
    near(line.last().unwrap().0.in_percent(), 9.48, 1e-9);
    near(line.last().unwrap().1.in_kilograms_per_cubic_metre(), 2700.0 / (1.0 + 0.0948 * 2.7), 1e-9);
    let shares: Vec<f64> = worked.part_saturation.iter().map(|c| c.saturation.unwrap().in_fraction()).collect();
    assert_eq!(shares, [0.8, 0.9]);
    let fit = worked.fit.unwrap();
    near(fit.curve.points.first().unwrap().0.in_percent(), 5.0, 1e-9);
    near(fit.curve.points.last().unwrap().0.in_percent(), 9.0, 1e-9);
    assert_eq!(fit.curve.points.len(), 61);
}

proptest! {
    /// Specimens on a parabola give it back, in any order.
    #[test]
    fn a_parabola_is_found_again(top in 1600.0..2100.0_f64, at in 5.0..9.0_f64, bend in 2.0..15.0_f64, turn in 0..4usize) {
        let mut points: Vec<(f64, f64)> =
            [at - 3.0, at - 1.5, at + 0.5, at + 2.0].map(|w| (w, top - bend * (w - at) * (w - at))).into();
        points.rotate_left(turn);
        let rules = soil_rules().compaction;
        let (test, problems) = compaction_test(&specimens(&points), Some(3.5), DegreeChoice::WhicheverServes, &rules);
        prop_assert!(problems.is_empty());
        let fit = test.fit.unwrap();
        prop_assert!((fit.maximum_dry_density.value.in_kilograms_per_cubic_metre() - top).abs() < 1e-6);
        prop_assert!((fit.optimum_moisture.value.in_percent() - at).abs() < 1e-6);
    }

    /// Any readings give an answer: every specimen is used, refused or impossible, and a peak lies among those used.
    #[test]
    fn nothing_is_lost_and_nothing_panics(points in prop::collection::vec((-1.0..40.0_f64, -10.0..3500.0_f64), 0..9)) {
        let rules = soil_rules().compaction;
        let (test, problems) = compaction_test(&specimens(&points), None, DegreeChoice::WhicheverServes, &rules);
        let used = test.points.iter().filter(|p| p.fate == PointFate::Used);
        prop_assert_eq!(used.clone().count() + problems.len(), points.len());
        if let Ok(fit) = test.fit {
            let at = fit.optimum_moisture.value.in_fraction();
            prop_assert!(used.clone().any(|p| p.moisture.in_fraction() <= at));
            prop_assert!(used.clone().any(|p| p.moisture.in_fraction() >= at));
            prop_assert!(fit.maximum_dry_density.value.in_kilograms_per_cubic_metre().is_finite());
        }
    }
}
