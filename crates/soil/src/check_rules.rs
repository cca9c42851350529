//! Rules an agency wrote that can't be worked with, or that nobody believes.

use model::rules::gradation::GradationRules;
use model::rules::not_believed;
use model::rules::soil::{SievingRules, SoilRules};

use crate::grading::opening_of_sieve;

/// Everything wrong with the soil rules, each in words with its field; empty when they can be used. Ranges are common
/// practice, no source: wide enough for any agency, narrow enough to catch a slipped decimal point.
pub fn check_soil_rules(rules: &SoilRules) -> Vec<String> {
    let (compaction, field, sieving) = (&rules.compaction, &rules.field_density, &rules.sieving);
    let mut believed = vec![
        ("compaction.specific_gravity", compaction.specific_gravity.value, 2.0, 4.0),
        ("compaction.water_density_kg_per_m3", compaction.water_density_kg_per_m3.value, 950.0, 1050.0),
        ("compaction.cubic_from_points", f64::from(compaction.cubic_from_points.value), 4.0, 100.0),
        ("compaction.blunt_share", compaction.blunt_share.value, 0.0, 1.0),
        ("field_density.weighing_kg", field.weighing_kg.value, 0.0, 0.5),
        ("field_density.moisture_points", field.moisture_points.value, 0.0, 10.0),
        ("field_density.sand_density_share", field.sand_density_share.value, 0.0, 0.2),
        ("field_density.smallest_hole_m3", field.smallest_hole_m3.value, 0.0, 0.1),
        ("sieving.loss_most", sieving.loss_most.value, 0.0, 0.1),
        ("sieving.same_sieve_share", sieving.same_sieve_share.value, 0.0, 0.05),
    ];
    believed.extend(compaction.part_saturation.value.iter().map(|s| ("compaction.part_saturation", *s, 0.01, 1.0)));
    believed.extend(sieving.sieves.value.iter().map(|s| ("opening of sieving.sieves", s.opening_mm, 0.001, 500.0)));
    let mut faults = not_believed(believed);
    for name in &sieving.modulus_sieves.value {
        faults.extend(unknown_sieve("sieving.modulus_sieves", name, sieving));
    }
    faults
}

/// Everything wrong with a family of gradings, held against the soil rules' sieves.
pub fn check_gradation_rules(family: &GradationRules, rules: &SievingRules) -> Vec<String> {
    let mut faults = Vec::new();
    for (name, grading) in &family.grading {
        let limits = &grading.limits.value;
        if limits.is_empty() {
            faults.push(format!("grading.{name}.limits has no sieve"));
        }
        for row in limits {
            faults.extend(unknown_sieve(&format!("grading.{name}.limits"), &row.sieve, rules));
            let (least, most) = (row.least_percent, row.most_percent);
            if !((0.0..=100.0).contains(&least) && (least..=100.0).contains(&most)) {
                faults.push(format!("grading.{name}: {} to {} % on {} can't be", least, most, row.sieve));
            }
        }
        let openings: Vec<f64> = limits.iter().filter_map(|row| opening_of_sieve(&row.sieve, rules)).collect();
        if !openings.is_sorted_by(|a, b| a > b) {
            faults.push(format!("grading.{name}.limits must go from coarse to fine, each sieve once"));
        }
    }
    if let Some(fines) = &family.fines {
        faults.extend(unknown_sieve("fines.fine_sieve", &fines.value.fine_sieve, rules));
        faults.extend(unknown_sieve("fines.of_sieve", &fines.value.of_sieve, rules));
        if !(0.0..=1.0).contains(&fines.value.most_share) {
            faults.push(format!("fines.most_share is {}; a number from 0 to 1 is believed", fines.value.most_share));
        }
    }
    faults
}

fn unknown_sieve(field: &str, name: &str, rules: &SievingRules) -> Option<String> {
    opening_of_sieve(name, rules).is_none().then(|| format!("{field}: sieving.sieves has no `{name}`"))
}
