//! Laws of the seal, for both methods.

use model::district::{BinderKind, Container, Residue};
use model::quantity::{InRatio, InVolume, fraction, kilograms_per_cubic_metre, litres};
use model::rules::repair::RepairRules;
use proptest::prelude::*;
use repair::binder_volume::{hot_volume, volume_factor};
use repair::seal::containers::fill;
use repair::seal::design;

use crate::seal::{areas, austroads, of};
use crate::support::{Example, mm, rules};

/// The shipped rules by either method.
fn both() -> Vec<RepairRules> {
    vec![rules(), austroads()]
}

prop_compose! {
    fn any_stone()(
        median in 3.0..19.0_f64,
        flakiness in 0.0..0.6_f64,
        particle in 2200.0..3000.0_f64,
        packed in 0.4..0.7_f64,
        vehicles in 0.0..20_000.0_f64,
    ) -> Example {
        let mut example = Example::worked();
        example.cover_stone.median_size = Some(mm(median));
        example.cover_stone.flakiness = fraction(flakiness);
        example.cover_stone.particle_density = kilograms_per_cubic_metre(particle);
        example.cover_stone.loose_density = kilograms_per_cubic_metre(particle * packed);
        example.vehicles_per_day = Some(vehicles);
        example
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn stone_does_not_depend_on_traffic_surface_absorption_or_residue(
        example in any_stone(),
        vehicles in 0.0..20_000.0_f64,
        correction in -0.3..0.5_f64,
        absorption in 0.0..0.2_f64,
        residue in 0.3..1.0_f64,
    ) {
        for base in both() {
            let mut changed = base.clone();
            changed.seal.mcleod.surface_l_per_m2.value.slightly_porous = correction;
            changed.seal.mcleod.absorption_l_per_m2.value = absorption;
            changed.seal.austroads.absorption_l_per_m2.value = absorption;
            let mut other = example.clone();
            other.vehicles_per_day = Some(vehicles);
            other.binder.residue = Some(Residue::ByVolume(fraction(residue)));
            prop_assert_eq!(of(&example, &base).residual.stone.value, of(&other, &changed).residual.stone.value);
        }
    }

    #[test]
    fn voids_are_a_share_and_flaky_stone_lies_lower(example in any_stone(), more in 0.01..0.3_f64) {
        let stone = &example.cover_stone;
        let voids = repair::seal::mcleod::loose_voids(stone.loose_density, stone.particle_density);
        prop_assert!(voids > 0.0 && voids < 1.0);
        let mut flaky = example.clone();
        flaky.cover_stone.flakiness = fraction(stone.flakiness.in_fraction() + more);
        for rules in both() {
            let (before, after) = (of(&example, &rules), of(&flaky, &rules));
            prop_assert!(after.least_dimension.value < before.least_dimension.value);
            prop_assert!(after.residual.stone.value < before.residual.stone.value);
            prop_assert!(after.residual.on_base.value <= before.residual.on_base.value);
        }
    }

    #[test]
    fn more_traffic_never_takes_more_binder(example in any_stone(), more in 0.0..20_000.0_f64) {
        let mut busier = example.clone();
        busier.vehicles_per_day = example.vehicles_per_day.map(|count| count + more);
        for rules in both() {
            let (quiet, busy) = (of(&example, &rules), of(&busier, &rules));
            prop_assert!(busy.binder_on_base.value <= quiet.binder_on_base.value);
            prop_assert!(busy.binder_on_overlap.value <= quiet.binder_on_overlap.value);
        }
    }

    #[test]
    fn less_residue_takes_more_product_for_the_same_residual(example in any_stone(), residue in 0.3..0.6_f64) {
        let mut thin = example.clone();
        thin.binder.residue = Some(Residue::ByVolume(fraction(residue)));
        for rules in both() {
            let (thick, thin) = (of(&example, &rules), of(&thin, &rules));
            prop_assert_eq!(thick.residual.on_base.value, thin.residual.on_base.value);
            prop_assert!(thin.binder_on_base.value > thick.binder_on_base.value);
            let stays = thin.binder_on_base.value.0 * residue;
            prop_assert!((stays - thin.residual.on_base.value.0).abs() < 1e-12 * stays.max(1.0));
        }
    }

    #[test]
    fn twice_the_area_takes_twice_of_all(example in any_stone(), base in 0.1..50.0_f64, overlap in 0.0..9.0_f64) {
        let Example { cover_stone, binder, plant, vehicles_per_day, .. } = &example;
        for rules in both() {
            let of = |factor: f64| {
                design(cover_stone, binder, plant, areas(factor * base, factor * overlap), *vehicles_per_day, None, &rules)
            };
            let (once, twice) = (of(1.0).unwrap(), of(2.0).unwrap());
            let ratio = |pick: fn(&repair::seal::SealDesign) -> f64| pick(&twice) / pick(&once);
            prop_assert!((ratio(|d| d.binder_volume_hot.value.in_litres()) - 2.0).abs() < 1e-9);
            prop_assert!((ratio(|d| d.cover_volume.value.in_litres()) - 2.0).abs() < 1e-9);
        }
    }

    /// The wrong direction would show here: hot binder takes more room, the hotter the more.
    #[test]
    fn hot_is_more_than_cold(cold in 0.1..500.0_f64, celsius in 15.5..200.0_f64, density in 900.0..1050.0_f64) {
        for kind in [BinderKind::Cutback, BinderKind::Emulsion] {
            let mut binder = Example::worked().binder;
            binder.kind = kind;
            binder.density = kilograms_per_cubic_metre(density);
            let at = |celsius: f64| {
                let mut binder = binder.clone();
                binder.spray_temperature_c = celsius;
                hot_volume(litres(cold), volume_factor(&binder, &rules().binder_volume).factor).in_litres()
            };
            prop_assert!(at(celsius) > cold, "{kind:?}: {} of {cold}", at(celsius));
            prop_assert!(at(celsius + 1.0) > at(celsius));
        }
    }

    #[test]
    fn containers_never_hold_less_than_is_needed(
        needed in 0.0..400.0_f64,
        sizes in proptest::collection::vec(0.5..60.0_f64, 1..5),
    ) {
        let list: Vec<Container> =
            sizes.iter().map(|&size| Container { name: "can".into(), volume: litres(size) }).collect();
        let found = fill(litres(needed), &list);
        let held: f64 = found.counts.iter().map(|count| f64::from(count.count) * count.volume.in_litres()).sum();
        prop_assert!(held >= needed * (1.0 - 1e-6));
        prop_assert!((held - needed - found.left_over.in_litres()).abs() < 1e-6 * needed.max(1.0));
        // Taking the smallest used away would leave too little.
        let smallest = found.counts.iter().map(|count| count.volume.in_litres()).fold(f64::INFINITY, f64::min);
        prop_assert!(needed == 0.0 || held - smallest < needed);
        let largest = sizes.iter().copied().fold(0.0, f64::max);
        let filled: u32 = found.counts.iter().map(|count| count.count).sum();
        prop_assert_eq!(f64::from(filled), (needed / largest - 1e-9).ceil().max(0.0));
    }

    #[test]
    fn a_warmer_surface_never_waits_longer(cold in -5.0..50.0_f64, warmer in 0.0..20.0_f64) {
        let rules = rules().opening;
        for kind in [BinderKind::Cutback, BinderKind::Emulsion] {
            let at = |surface| repair::seal::opening::opening(kind, surface, &rules).open_after.value;
            prop_assert!(at(cold + warmer) <= at(cold));
        }
    }
}
