//! Water for a batch, drying by the weather, moisture by the hand.

use model::district::BaseMaterial;
use model::moisture::{BatchSize, BatchWater, HandFeel, KnownMoisture, Weather};
use model::quantity::{
    InArea, InMass, InRatio, cubic_metres, fraction, hours, kilograms, kilograms_per_cubic_metre, kilometres_per_hour,
    litres, minutes, percent, square_metres,
};
use model::rules::repair::MoistureRules;
use proptest::prelude::*;
use repair::moisture::{batch_water, drying_loss, evaporation_rate};
use repair::{Drawn, Part, RepairInput, at_quantile, repair};
use serde::Deserialize;
use testkit::worked_examples;

use crate::support::{Example, near, rules};

fn moisture_rules() -> MoistureRules {
    rules().moisture
}

fn without_allowance() -> MoistureRules {
    let mut rules = moisture_rules();
    rules.drying_allowance.value = 0.0;
    rules
}

fn base(optimum_percent: f64) -> BaseMaterial {
    let mut base = Example::worked().base;
    base.optimum_moisture = percent(optimum_percent);
    base.loose_density = kilograms_per_cubic_metre(1600.0);
    base
}

fn measured(moisture_percent: f64) -> KnownMoisture {
    KnownMoisture { measured: Some(percent(moisture_percent)), hand: None }
}

fn by_hand(feel: HandFeel) -> KnownMoisture {
    KnownMoisture { measured: None, hand: Some(feel) }
}

fn calm() -> Weather {
    Weather {
        air_temperature_c: 25.0,
        humidity: Some(percent(50.0)),
        wind: kilometres_per_hour(10.0),
        covered: false,
        open: Some(hours(1.0)),
    }
}

fn batch(kilogram: f64, known: KnownMoisture, weather: Option<Weather>, optimum: f64) -> BatchWater {
    let size = BatchSize::MoistMass(kilograms(kilogram));
    batch_water(size, known, weather, &base(optimum), &without_allowance()).unwrap()
}

#[derive(Deserialize)]
struct Batch {
    moist_kg: f64,
    moisture_percent: f64,
    optimum_percent: f64,
    water_kg: f64,
}

#[derive(Deserialize)]
struct Evaporation {
    air_temperature_c: f64,
    humidity_percent: f64,
    wind_km_per_h: f64,
    kg_per_m2_h: f64,
}

#[derive(Deserialize)]
struct Hand {
    feel: HandFeel,
    moist_kg: f64,
    optimum_percent: f64,
    moisture_percent: f64,
    moisture_p10_percent: f64,
    moisture_p90_percent: f64,
    water_kg: f64,
    water_p10_kg: f64,
    water_p90_kg: f64,
}

#[test]
fn worked_batches() {
    for case in worked_examples::<Batch>("water", "batch") {
        let found = batch(case.moist_kg, measured(case.moisture_percent), None, case.optimum_percent);
        near(found.water_to_add.value.in_kilograms() + 1.0, case.water_kg + 1.0, 1e-5);
        assert!(found.water_to_add.spread.is_none() && found.drying_loss.is_none() && found.open_surface.is_none());
    }
}

#[test]
fn worked_evaporation() {
    for case in worked_examples::<Evaporation>("water", "evaporation") {
        let weather = Weather {
            air_temperature_c: case.air_temperature_c,
            humidity: Some(percent(case.humidity_percent)),
            wind: kilometres_per_hour(case.wind_km_per_h),
            ..calm()
        };
        near(evaporation_rate(&weather, &moisture_rules().drying), case.kg_per_m2_h, 1e-5);
    }
}

#[test]
fn worked_hands() {
    for case in worked_examples::<Hand>("water", "hand") {
        let found = batch(case.moist_kg, by_hand(case.feel), None, case.optimum_percent);
        let moisture = found.moisture.spread.unwrap();
        near(found.moisture.value.in_percent(), case.moisture_percent, 1e-9);
        near(moisture.p10.in_percent(), case.moisture_p10_percent, 1e-9);
        near(moisture.p90.in_percent(), case.moisture_p90_percent, 1e-9);
        let water = found.water_to_add.spread.unwrap();
        near(found.water_to_add.value.in_kilograms(), case.water_kg, 1e-4);
        near(water.p10.in_kilograms() + 1.0, case.water_p10_kg + 1.0, 1e-5);
        near(water.p50.in_kilograms(), case.water_kg, 1e-4);
        near(water.p90.in_kilograms(), case.water_p90_kg, 1e-4);
        assert_eq!(found.remarks.len(), 1, "the hand is said to be rough");
    }
}

#[test]
fn a_measured_moisture_wins_and_a_contradicting_hand_is_told() {
    // Optimum 6.5 %: keeps its shape goes with 5.525 to 7.15 %.
    let both = |feel| KnownMoisture { measured: Some(percent(7.0)), hand: Some(feel) };
    let agreeing = batch(100.0, both(HandFeel::KeepsShape), None, 6.5);
    near(agreeing.moisture.value.in_percent(), 7.0, 1e-12);
    assert!(agreeing.moisture.spread.is_none() && agreeing.remarks.is_empty());
    let other = batch(100.0, both(HandFeel::FallsApart), None, 6.5);
    near(other.moisture.value.in_percent(), 7.0, 1e-12);
    assert!(
        other.remarks.len() == 1 && other.remarks[0].starts_with("in the hand it falls apart"),
        "{:?}",
        other.remarks
    );
    let size = BatchSize::MoistMass(kilograms(100.0));
    assert_eq!(batch_water(size, KnownMoisture::default(), None, &base(6.5), &moisture_rules()), None);
}

#[test]
fn an_oozing_batch_is_to_dry_out() {
    // Optimum 6.5 %, s 1.25: 8.125 %. 100 / 1.08125 * 0.01625 = 1.50289.
    let found = batch(100.0, by_hand(HandFeel::Oozes), None, 6.5);
    assert_eq!(found.water_to_add.value.in_kilograms(), 0.0);
    near(found.water_to_dry.value.in_kilograms(), 1.50289, 1e-5);
    let spread = found.water_to_dry.spread.unwrap();
    assert!(spread.p10 < spread.p50 && spread.p50 < spread.p90);
    assert_eq!(HandFeel::Oozes.words(), "oozes");
}

#[test]
fn a_batch_by_volume_is_moist_as_it_lies() {
    let size = BatchSize::LooseVolume(cubic_metres(0.06));
    let found = batch_water(size, measured(4.0), None, &base(6.5), &moisture_rules()).unwrap();
    near(found.moist_mass.value.in_kilograms(), 96.0, 1e-9);
    near(found.dry_mass.value.in_kilograms(), 92.307692, 1e-7);
    // With the plain allowance of 10 %: 92.3077 * 0.025 * 1.1.
    near(found.water_to_add.value.in_kilograms(), 2.538462, 1e-6);
}

#[test]
fn the_weather_takes_the_place_of_the_plain_allowance() {
    // 96 kg is 0.06 m3 loose, 0.402 m2 open; 0.4243646 kg/m2/h for an hour: 0.170594 kg.
    let size = BatchSize::MoistMass(kilograms(96.0));
    let found = batch_water(size, measured(4.0), Some(calm()), &base(6.5), &moisture_rules()).unwrap();
    near(found.open_surface.unwrap().value.in_square_metres(), 0.402, 1e-9);
    near(found.drying_loss.unwrap().value.in_kilograms(), 0.170594, 1e-4);
    near(found.water_to_add.value.in_kilograms(), 92.307692 * 0.025 + 0.170594, 1e-4);
    // At the optimum what dries off is added all the same; a little over it dries off by itself.
    let at = |w: f64| batch_water(size, measured(w), Some(calm()), &base(6.5), &moisture_rules()).unwrap();
    near(at(6.5).water_to_add.value.in_kilograms(), 0.170594, 1e-4);
    let over = at(6.6);
    // 96 / 1.066 * 0.001 = 0.0900563 of the 0.170594 is there already.
    near(over.water_to_add.value.in_kilograms(), 0.0805377, 1e-4);
    assert_eq!(over.water_to_dry.value.in_kilograms(), 0.0);
    // 96 / 1.08 * 0.015 = 1.33333, less what dries off by itself.
    near(at(8.0).water_to_dry.value.in_kilograms(), 1.3333333 - 0.170594, 1e-4);
}

#[test]
fn drying_goes_by_sheet_time_and_humidity() {
    let rules = moisture_rules().drying;
    let loss = |weather: Weather| drying_loss(&weather, square_metres(2.0), &rules).in_kilograms();
    near(loss(calm()), 2.0 * 0.4243646, 1e-6);
    near(loss(Weather { covered: true, ..calm() }), 0.2 * loss(calm()), 1e-12);
    near(loss(Weather { open: Some(minutes(15.0)), ..calm() }), 0.25 * loss(calm()), 1e-12);
    // Not told: 30 minutes, 50 per cent.
    near(loss(Weather { open: None, humidity: None, ..calm() }), 0.5 * loss(calm()), 1e-12);
    assert_eq!(loss(Weather { humidity: Some(percent(100.0)), ..calm() }), 0.0);
    assert_eq!(loss(Weather { air_temperature_c: -18.0, ..calm() }), 0.0);
    assert_eq!(loss(Weather { air_temperature_c: -40.0, ..calm() }), 0.0);
}

#[test]
fn a_repair_counts_each_layer_open_once() {
    let example = Example::worked();
    let rules = rules();
    let plain = repair(&example.input(), &rules);
    let told = repair(&RepairInput { weather: Some(calm()), ..example.input() }, &rules);
    // 1.2 x 0.9 m in two layers.
    assert_eq!(plain.layer_count.value, 2);
    let loss = 0.4243646 * 1.08 * 2.0;
    let exact = plain.water_to_add.value.in_kilograms() / 1.1;
    near(told.water_to_add.value.in_kilograms(), exact + loss, 1e-5);
    assert!(told.water_to_add.why.rule.contains("loss"));
    assert!(
        told.water_to_add
            .why
            .inputs
            .iter()
            .any(|(name, value)| name == "A, each layer once" && value.starts_with("2.16"))
    );
    // The rows for a deeper hole follow.
    let row = told.deeper.iter().zip(&plain.deeper).next().unwrap();
    let layers = f64::from(row.0.layer_count);
    near(row.0.water_to_add.in_kilograms(), row.1.water_to_add.in_kilograms() / 1.1 + 0.4243646 * 1.08 * layers, 1e-5);
    // Everything else stays as it was.
    assert_eq!(told.fill_dry_mass, plain.fill_dry_mass);
    assert_eq!(told.loose_volume, plain.loose_volume);
}

#[test]
fn weather_that_is_none_is_refused() {
    let example = Example::worked();
    let wrong = |weather| RepairInput { weather: Some(weather), ..example.input() }.check().unwrap_err().len();
    assert!(RepairInput { weather: Some(calm()), ..example.input() }.check().is_ok());
    assert_eq!(wrong(Weather { air_temperature_c: f64::NAN, ..calm() }), 1);
    assert_eq!(wrong(Weather { air_temperature_c: 61.0, wind: kilometres_per_hour(-1.0), ..calm() }), 2);
    assert_eq!(wrong(Weather { humidity: Some(fraction(1.1)), open: Some(hours(25.0)), ..calm() }), 2);
}

#[test]
fn ranges_of_the_hand_that_run_backwards_are_refused() {
    let mut wrong = rules();
    wrong.moisture.feel.oozes.value = [1.4, 1.1];
    wrong.moisture.drying.covered_share.value = 1.5;
    let faults = repair::check_rules(&wrong).unwrap_err();
    let fields: Vec<&str> = faults.iter().map(|f| f.what.as_str()).collect();
    assert_eq!(fields, ["moisture.drying.covered_share", "moisture.feel.oozes, from"]);
}

proptest! {
    /// Water balance: what is in the batch and what is added is the optimum on its dry mass, and dry mass is kept.
    #[test]
    fn water_balances(moist in 1.0..5000.0_f64, now in 0.0..20.0_f64, optimum in 2.0..20.0_f64) {
        let found = batch(moist, measured(now), None, optimum);
        let (dry, added) = (found.dry_mass.value.in_kilograms(), found.water_to_add.value.in_kilograms());
        let dried = found.water_to_dry.value.in_kilograms();
        let water = moist - dry + added - dried;
        prop_assert!((water - dry * optimum / 100.0).abs() < 1e-9 * moist);
        prop_assert!((dry * (1.0 + now / 100.0) - moist).abs() < 1e-9 * moist);
        prop_assert!(added == 0.0 || dried == 0.0);
        // Never the common error, which is more.
        prop_assert!(now == 0.0 || added == 0.0 || added < moist * (optimum - now) / 100.0);
    }

    /// With the loss the balance holds when the batch is compacted: added less lost.
    #[test]
    fn water_balances_when_it_is_compacted(moist in 10.0..500.0_f64, now in 0.0..8.0_f64, warm in 0.0..45.0_f64, wind in 0.0..60.0_f64) {
        let weather = Weather { air_temperature_c: warm, wind: kilometres_per_hour(wind), ..calm() };
        let found = batch(moist, measured(now), Some(weather), 7.0);
        let lost = found.drying_loss.unwrap().value.in_kilograms();
        let dry = found.dry_mass.value.in_kilograms();
        let water = moist - dry + found.water_to_add.value.in_kilograms() - found.water_to_dry.value.in_kilograms() - lost;
        prop_assert!((water - 0.07 * dry).abs() < 1e-9 * moist, "{} {}", water, 0.07 * dry);
    }

    /// Quantiles are in order, whatever the state and the optimum.
    #[test]
    fn quantiles_are_in_order(optimum in 2.0..20.0_f64, feel in prop::sample::select(vec![HandFeel::FallsApart, HandFeel::KeepsShape, HandFeel::Oozes])) {
        let found = batch(100.0, by_hand(feel), Some(calm()), optimum);
        for figure in [&found.dry_mass, &found.water_to_add, &found.water_to_dry] {
            let spread = figure.spread.unwrap();
            prop_assert!(spread.p10 <= spread.p50 && spread.p50 <= spread.p90);
        }
    }
}

/// A stock that is too wet and dries by itself: the deeper the cut, the more water there is to lose and the less is to be
/// added. Quantiles by four million draws of numpy (`reference/water_that_falls.py`).
#[test]
fn water_that_falls_as_the_cut_grows_has_quantiles_of_its_own() {
    let rules = rules();
    let mut example = Example::worked();
    example.base.stock_moisture = percent(7.6);
    let weather = Weather {
        air_temperature_c: 38.0,
        humidity: Some(fraction(0.10)),
        wind: kilometres_per_hour(30.0),
        covered: false,
        open: Some(hours(1.0)),
    };
    let input = RepairInput { weather: Some(weather), ..example.input() };
    let water = repair(&input, &rules).water_to_add;
    let spread = water.spread.expect("a spread");
    for (found, expected) in [(spread.p10, 0.596), (spread.p50, 1.660), (spread.p90, 2.737)] {
        // Half a per cent of chance either way.
        assert!((found.in_kilograms() - expected).abs() < 0.06, "{} {expected}", found.in_kilograms());
    }
    assert!(water.why.to_string().contains("it may fall while the cut grows"));
    // The load is that of nine in ten, alone and as a group of one.
    assert_eq!(at_quantile(&input, &rules, 0.9).water_volume, litres(spread.p90.in_kilograms()));
    let parts = [Part { road: 0, input }];
    let drawn = Drawn::new(&parts, &rules, 1);
    assert_eq!(drawn.totals(&[0]).water_volume.p90(), litres(spread.p90.in_kilograms()));
    let load = drawn.load(&[0], 0.9);
    let chance = drawn.chance(&[0], &load);
    assert!((0.895..0.91).contains(&chance), "{chance}");
    // At the optimum, and where the weather is not told, water rises with the cut as all else does.
    example.base.stock_moisture = example.base.optimum_moisture;
    let at_optimum = RepairInput { weather: Some(weather), ..example.input() };
    let found = repair(&at_optimum, &rules).water_to_add;
    assert!(!found.why.to_string().contains("it may fall"));
    example.base.stock_moisture = percent(7.6);
    let found = repair(&example.input(), &rules).water_to_dry;
    assert!(!found.why.to_string().contains("it may fall"));
}
