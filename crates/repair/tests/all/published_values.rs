//! Tables of check values. Each says whether its numbers were read in a publication or only follow from the formula;
//! the latter test the arithmetic, not the formula's truth.

use crate::support::{Example, near, rules};
use model::quantity::{
    InLength, InMass, InVolume, cubic_metres, fraction, kilograms, kilograms_per_cubic_metre, metres, square_metres,
};
use repair::layers::{fill_volume, layer_count, layer_thickness};
use repair::moisture::{Drying, dry_mass, fill_mass, loose_factor, water_short};

/// By definition of moisture content; derived numbers.
#[test]
fn water_to_add() {
    // 1 m3 compacted at 2100 kg/m3, 3 % -> 7 %: 84.0 L.
    near(water_short(kilograms(2100.0), 0.07, 0.03).in_kilograms(), 84.0, 1e-9);
    // One tonne moist: divide by 1 + w first; multiplying the wet mass would give 40.0.
    near(water_short(dry_mass(kilograms(1000.0), 0.03), 0.07, 0.03).in_kilograms(), 38.835, 1e-5);
    near(water_short(dry_mass(kilograms(1000.0), 0.05), 0.065, 0.05).in_kilograms(), 14.286, 1e-4);
}

/// Derived: a patch of 1.2 x 0.9 x 0.15 m is 0.162 m3, 348.3 kg dry at 2150 kg/m3, 12.19 L from 3 to 6.5 %, 0.2322 m3
/// loose at 1500 kg/m3 dry loose density; loose over compacted 1.4333.
#[test]
fn patch_mass_water_and_loose_volume() {
    let mut rules = rules().moisture;
    rules.degree_of_compaction.value = 1.0;
    rules.drying_allowance.value = 0.0;
    let mut base = Example::worked().base;
    base.maximum_dry_density = kilograms_per_cubic_metre(2150.0);
    base.optimum_moisture = fraction(0.065);
    base.stock_moisture = fraction(0.03);
    // The loose density here is of the moist stock: 1500 kg/m3 dry is 1545 kg/m3 at 3 %.
    base.loose_density = kilograms_per_cubic_metre(1545.0);
    let volume = fill_volume(square_metres(1.2 * 0.9), metres(0.15), metres(0.0));
    near(volume.in_cubic_metres(), 0.162, 1e-12);
    let mass = fill_mass(volume, &base, Drying::Allowance, &rules);
    near(mass.dry.in_kilograms(), 348.3, 1e-9);
    near(mass.water_to_add.in_kilograms(), 12.19, 1e-4);
    near(mass.loose.in_cubic_metres(), 0.2322, 1e-9);
    near(loose_factor(kilograms_per_cubic_metre(2150.0), &base), 1.4333, 3e-5);
}

/// Published: US Navy training table 10-1 for sand, 100 in place -> 111 loose -> 95 compacted; so 100 compacted needs
/// 116.84 loose. As densities: the loose factor is their ratio.
#[test]
fn loose_over_compacted_is_the_ratio_of_densities() {
    let mut base = Example::worked().base;
    base.stock_moisture = fraction(0.0);
    base.loose_density = kilograms_per_cubic_metre(1000.0 / 1.11);
    near(loose_factor(kilograms_per_cubic_metre(1000.0 / 0.95), &base), 1.1684, 3e-5);
}

/// Derived, the first three rows; the others are the edges where a binary fraction could add a layer.
#[test]
fn layers_are_equal_and_never_too_thick() {
    #[rustfmt::skip]
    let cases = [
        (0.250, 0.100, 3, 0.083_333), (0.150, 0.075, 2, 0.075), (0.301, 0.100, 4, 0.075_25),
        (0.300, 0.150, 2, 0.150), (0.150, 0.150, 1, 0.150), (0.151, 0.150, 2, 0.075_5), (0.450, 0.150, 3, 0.150),
        (0.225, 0.075, 3, 0.075), (0.525, 0.075, 7, 0.075), (0.675, 0.075, 9, 0.075), (0.010, 0.150, 1, 0.010), (0.600, 0.100, 6, 0.100),
    ];
    for (depth, greatest, count, thickness) in cases {
        let found = layer_count(metres(depth), metres(greatest));
        assert_eq!(found, count, "{depth} m in layers of {greatest} m");
        near(layer_thickness(metres(depth), found).in_metres(), thickness, 1e-5);
    }
}

/// By the definition of a paraboloid of revolution and of a parabolic dome over any base: half its prism.
#[test]
fn a_crown_holds_half_its_prism() {
    let crowned = fill_volume(square_metres(2.0), metres(0.1), metres(0.007));
    near((crowned - cubic_metres(0.2)).in_litres(), 7.0, 1e-9);
}
