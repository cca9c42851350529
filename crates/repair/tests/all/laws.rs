//! Laws that hold for every repair.

use crate::support::{Example, rectangle, rules};
use model::district::{Compactor, CompactorKind, Residue};
use model::figure::Figure;
use model::moisture::Weather;
use model::quantity::{
    InArea, InLength, InMass, InMassDensity, InRatio, InTime, InVolume, fraction, kilograms_per_cubic_metre,
    kilometres_per_hour, metres, minutes,
};
use model::repair::{Layer, Repair};
use proptest::prelude::*;
use repair::compaction::{Ground, choose};
use repair::{Pavement, RepairInput, at_quantile, repair};

prop_compose! {
    /// Any repair that a crew could meet, and some it would not.
    fn any_example()(
        length in 0.15..8.0_f64,
        narrow in 0.1..1.0_f64,
        depth in 0.02..0.8_f64,
        hole_share in proptest::option::of(0.0..1.0_f64),
        vehicles_per_day in proptest::option::of(0.0..20_000.0_f64),
        owned in any::<[bool; 7]>(),
        optimum in 0.03..0.14_f64,
        stock in 0.0..0.16_f64,
        density in 1700.0..2400.0_f64,
        loose in 1200.0..1800.0_f64,
        flakiness in 0.0..0.6_f64,
        residue in 0.45..1.0_f64,
        celsius in 5.0..180.0_f64,
    ) -> Example {
        let width = (length * narrow).max(0.1).min(length);
        let mut example = Example::sized(length, width, depth);
        example.hole_volume = hole_share.map(|share| share * length * width * depth);
        example.vehicles_per_day = vehicles_per_day;
        example.plant.compactors = CompactorKind::ALL
            .into_iter()
            .zip(owned)
            .filter(|(_, owned)| *owned)
            .map(|(kind, _)| Compactor { kind, width: None, speed: None })
            .collect();
        example.base.optimum_moisture = fraction(optimum);
        example.base.stock_moisture = fraction(stock);
        example.base.maximum_dry_density = kilograms_per_cubic_metre(density);
        example.base.loose_density = kilograms_per_cubic_metre(loose);
        example.cover_stone.flakiness = fraction(flakiness);
        example.binder.residue = Some(Residue::ByVolume(fraction(residue)));
        example.binder.spray_temperature_c = celsius;
        example
    }
}

prop_compose! {
    /// Weather that may dry more than the base is too wet by, or not told.
    fn any_weather()(told in proptest::option::of((0.0..45.0_f64, 0.0..60.0_f64, 0.0..1.0_f64))) -> Option<Weather> {
        told.map(|(air_temperature_c, wind, humidity)| Weather {
            air_temperature_c,
            humidity: Some(fraction(humidity)),
            wind: kilometres_per_hour(wind),
            covered: false,
            open: Some(minutes(60.0)),
        })
    }
}

/// Every figure of a repair as bare numbers, with its name: value, and quantiles where it has them.
fn numbers(r: Repair) -> Vec<(&'static str, f64, Option<[f64; 3]>)> {
    fn flat(Figure { value, spread, .. }: Figure<f64>) -> (f64, Option<[f64; 3]>) {
        (value, spread.map(|s| [s.p10, s.p50, s.p90]))
    }
    let mut all = vec![
        ("depth", flat(r.depth.map(InLength::in_metres))),
        ("cut area", flat(r.cut_area.map(InArea::in_square_metres))),
        ("layers", flat(r.layer_count.map(f64::from))),
        ("layer", flat(r.layer_thickness.map(InLength::in_metres))),
        ("loose layer", flat(r.loose_layer_thickness.map(InLength::in_metres))),
        ("fill", flat(r.fill_volume.map(InVolume::in_cubic_metres))),
        ("dry", flat(r.fill_dry_mass.map(InMass::in_kilograms))),
        ("wet", flat(r.fill_wet_mass.map(InMass::in_kilograms))),
        ("water", flat(r.water_to_add.map(InMass::in_kilograms))),
        ("water to dry", flat(r.water_to_dry.map(InMass::in_kilograms))),
        ("loose", flat(r.loose_volume.map(InVolume::in_cubic_metres))),
        ("seal", flat(r.seal_area.map(InArea::in_square_metres))),
        ("binder rate", flat(r.binder_rate.map(|rate| rate.0))),
        ("binder", flat(r.binder_volume.map(InVolume::in_litres))),
        ("hot binder", flat(r.binder_volume_hot.map(InVolume::in_litres))),
        ("stone rate", flat(r.cover_rate.map(|rate| rate.0))),
        ("stone", flat(r.cover_mass.map(InMass::in_kilograms))),
        ("loose stone", flat(r.cover_volume.map(InVolume::in_litres))),
        ("spoil", flat(r.spoil_volume.map(InVolume::in_cubic_metres))),
        ("spoil mass", flat(r.spoil_mass.map(InMass::in_kilograms))),
        ("static passes", flat(r.static_passes.map(f64::from))),
        ("vibrating passes", flat(r.vibrating_passes.map(f64::from))),
        ("lanes", flat(r.lanes_across.map(f64::from))),
        ("rolling", flat(r.rolling_time.map(InTime::in_seconds))),
        ("duration", flat(r.duration.map(InTime::in_seconds))),
    ];
    all.extend(r.stages.into_iter().map(|stage| (stage.stage.words(), flat(stage.time.map(InTime::in_seconds)))));
    all.into_iter().map(|(name, (value, quantiles))| (name, value, quantiles)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn nothing_is_negative_or_not_a_number_and_quantiles_are_in_order(
        example in any_example(),
        edge in proptest::option::of(0.0..2.0_f64),
        weather in any_weather(),
    ) {
        let mut input = RepairInput { weather, ..example.input() };
        let half = example.width / 2.0;
        input.pavement = edge.map(|edge| Pavement { left: metres(-half - 5.0), right: metres(half + edge) });
        prop_assert!(input.check().is_ok());
        let rules = rules();
        for (name, value, quantiles) in numbers(repair(&input, &rules)) {
            prop_assert!(value.is_finite() && value >= 0.0, "{} is {}", name, value);
            if let Some([p10, p50, p90]) = quantiles {
                prop_assert!(p10.is_finite() && p10 >= 0.0, "{name} at P10 is {p10}");
                // The sealed area comes from a fine integer grid.
                let slack = 1e-6 * p90;
                prop_assert!(p10 <= p50 + slack && p50 <= p90 + slack, "{name}: {p10} {p50} {p90}");
            }
        }
    }

    #[test]
    fn mass_balances(example in any_example()) {
        let rules = rules();
        let found = repair(&example.input(), &rules);
        let (dry, wet) = (found.fill_dry_mass.value.in_kilograms(), found.fill_wet_mass.value.in_kilograms());
        let stock = example.base.stock_moisture.in_fraction();
        prop_assert!((wet - dry * (1.0 + stock)).abs() < 1e-9 * wet);
        // Without what dries off, the added water brings the stock to the optimum exactly.
        let added = found.water_to_add.value.in_kilograms() / (1.0 + rules.moisture.drying_allowance.value);
        let dried = found.water_to_dry.value.in_kilograms();
        let optimum = dry * (1.0 + example.base.optimum_moisture.in_fraction());
        prop_assert!((wet + added - dried - optimum).abs() < 1e-9 * wet);
        prop_assert!(added == 0.0 || dried == 0.0);
        // What is loaded loose weighs what is delivered.
        let loaded = found.loose_volume.value.in_cubic_metres()
            * example.base.loose_density.in_kilograms_per_cubic_metre();
        prop_assert!((loaded - wet).abs() < 1e-9 * wet);
    }

    #[test]
    fn layers_are_thin_enough_and_fill_the_depth(example in any_example()) {
        let rules = rules();
        let input = example.input();
        let found = repair(&input, &rules);
        let ground = Ground::new(input.corners, input.length, input.width);
        let greatest = choose(&example.plant, &ground, input.depth, &rules.compactor).in_cut.greatest_layer().in_metres();
        let (count, thickness) = (f64::from(found.layer_count.value), found.layer_thickness.value.in_metres());
        prop_assert!(thickness <= greatest * (1.0 + 1e-8));
        prop_assert!((count * thickness - example.depth).abs() < 1e-12);
        // They hold all that is placed, crown included.
        prop_assert_eq!(found.layers.len(), found.layer_count.value as usize);
        let sum = |volume: fn(&Layer) -> f64| found.layers.iter().map(volume).sum::<f64>();
        let solid = found.fill_volume.value.in_cubic_metres();
        prop_assert!((sum(|layer| layer.volume.in_cubic_metres()) - solid).abs() < 1e-9 * solid);
        let loose = found.loose_volume.value.in_cubic_metres();
        prop_assert!((sum(|layer| layer.loose_volume.in_cubic_metres()) - loose).abs() < 1e-9 * loose);
        let rolling = found.rolling_time.value.in_seconds();
        prop_assert!((sum(|layer| layer.time.in_seconds()) - rolling).abs() < 1e-9 * rolling);
        // One layer fewer would be too thick.
        prop_assert!(count == 1.0 || example.depth / (count - 1.0) > greatest);
    }

    #[test]
    fn deeper_or_larger_never_needs_less(example in any_example(), factor in 1.0..2.0_f64) {
        let rules = rules();
        let mut deeper = example.clone();
        deeper.depth *= factor;
        let mut longer = example.clone();
        longer.length *= factor;
        longer.corners = rectangle(longer.length, longer.width);
        let first = repair(&example.input(), &rules);
        let kind = first.compactor.split(" (").next().map(str::to_owned);
        let before = numbers(first);
        let thickness = ["layer", "loose layer"];
        for grown in [deeper, longer] {
            let after = repair(&grown.input(), &rules);
            // A longer cut may have room for a stronger machine, which needs fewer layers; a second layer may be another's.
            if after.compactor.split(" (").next() != kind.as_deref() {
                continue;
            }
            let after = numbers(after);
            for ((name, less, _), (_, more, _)) in before.iter().zip(&after) {
                prop_assert!(thickness.contains(name) || *more >= less * (1.0 - 1e-6), "{name}: {less} then {more}");
            }
        }
    }

    #[test]
    fn a_surer_load_is_never_smaller(example in any_example(), p in 0.01..0.98_f64, weather in any_weather()) {
        let rules = rules();
        let input = RepairInput { weather, ..example.input() };
        let (less, more) = (at_quantile(&input, &rules, p), at_quantile(&input, &rules, p + 0.01));
        prop_assert!(less.base_volume < more.base_volume && less.base_mass < more.base_mass);
        prop_assert!(less.binder_volume < more.binder_volume && less.cover_mass < more.cover_mass);
        prop_assert!(less.water_volume <= more.water_volume && less.spoil_volume <= more.spoil_volume);
    }

    #[test]
    fn the_same_input_gives_the_same_repair(example in any_example()) {
        let rules = rules();
        prop_assert_eq!(repair(&example.input(), &rules), repair(&example.input(), &rules));
    }

    #[test]
    fn hot_emulsion_takes_more_room_than_cold(example in any_example()) {
        let found = repair(&example.input(), &rules());
        let (cold, hot) = (found.binder_volume.value.in_litres(), found.binder_volume_hot.value.in_litres());
        prop_assert_eq!(hot > cold, example.binder.spray_temperature_c > 15.0);
    }

    #[test]
    fn flaky_stone_lies_lower_and_takes_less(example in any_example(), more in 0.01..0.3_f64) {
        let rules = rules();
        let mut flaky = example.clone();
        flaky.cover_stone.flakiness = fraction(example.cover_stone.flakiness.in_fraction() + more);
        let (cubic, flaky) = (repair(&example.input(), &rules), repair(&flaky.input(), &rules));
        prop_assert!(flaky.cover_rate.value.0 < cubic.cover_rate.value.0);
        prop_assert!(flaky.binder_rate.value.0 < cubic.binder_rate.value.0);
    }
}
