//! The shipped rules can be worked with; broken ones are told.

use soil::{check_gradation_rules, check_soil_rules};

use crate::support::{iowa, m147, soil_rules};

#[test]
fn the_shipped_rules_have_no_faults() {
    assert_eq!(check_soil_rules(&soil_rules()), Vec::<String>::new());
    for family in [m147(), iowa()] {
        assert_eq!(check_gradation_rules(&family, &soil_rules().sieving), Vec::<String>::new());
    }
}

#[test]
fn a_number_out_of_belief_is_named() {
    for bad in [f64::NAN, f64::INFINITY, 1.9, 4.1] {
        let mut rules = soil_rules();
        rules.compaction.specific_gravity.value = bad;
        let faults = check_soil_rules(&rules);
        assert_eq!(faults, [format!("compaction.specific_gravity is {bad}; a number from 2 to 4 is believed")]);
    }
    let mut rules = soil_rules();
    rules.sieving.modulus_sieves.value[1] = "No. 41".into();
    rules.compaction.part_saturation.value.push(0.0);
    rules.compaction.cubic_from_points.value = 3;
    rules.sieving.sieves.value[0].opening_mm = f64::NAN;
    assert_eq!(check_soil_rules(&rules).len(), 4);
}

#[test]
fn a_grading_that_cannot_be_is_named() {
    let sieving = soil_rules().sieving;
    let faults = |change: &dyn Fn(&mut model::rules::gradation::GradationRules)| {
        let mut family = m147();
        change(&mut family);
        check_gradation_rules(&family, &sieving)
    };
    let a = |f: &mut model::rules::gradation::GradationRules, row: usize, least: f64, most: f64| {
        let row = &mut f.grading.get_mut("M147-A").unwrap().limits.value[row];
        (row.least_percent, row.most_percent) = (least, most);
    };
    assert_eq!(faults(&|f| a(f, 1, 70.0, 65.0)), ["grading.M147-A: 70 to 65 % on 3/8 in can't be"]);
    assert_eq!(faults(&|f| a(f, 1, 30.0, 100.5)).len(), 1);
    assert_eq!(faults(&|f| a(f, 1, f64::NAN, 50.0)).len(), 1);
    assert_eq!(faults(&|f| f.grading.get_mut("M147-A").unwrap().limits.value.clear()).len(), 1);
    let swapped = faults(&|f| f.grading.get_mut("M147-A").unwrap().limits.value.swap(0, 1));
    assert_eq!(swapped, ["grading.M147-A.limits must go from coarse to fine, each sieve once"]);
    let unknown = faults(&|f| f.grading.get_mut("M147-A").unwrap().limits.value[0].sieve = "2 ft".into());
    assert_eq!(unknown, ["grading.M147-A.limits: sieving.sieves has no `2 ft`"]);
    assert_eq!(faults(&|f| f.fines.as_mut().unwrap().value.most_share = 1.5).len(), 1);
    assert_eq!(faults(&|f| f.fines.as_mut().unwrap().value.of_sieve = "No. 0".into()).len(), 1);
}
