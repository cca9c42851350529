//! Water for one batch of base: a barrow, a mixer, a heap.
//!
//! Moisture is water over *dry* mass. A moist batch holds `M / (1 + w)` of it; multiplying the moist mass by the
//! difference of two moistures adds too much.

use model::district::BaseMaterial;
use model::figure::{Figure, Source, Spread, Why};
use model::moisture::{BatchSize, BatchWater, HandFeel, KnownMoisture, Weather};
use model::quantity::{
    Area, InMass, InMassDensity, InRatio, InTime, InVelocity, InVolume, Mass, Ratio, cubic_metres, fraction, kilograms,
    square_metres,
};
use model::rules::Sourced;
use model::rules::repair::{DryingRules, MoistureRules};

use super::drying::{drying_loss, evaporation_rate, humidity, sheet, time_open};
use super::{dry_mass, water_short};
use crate::input::{Errors, InputError, check_weather};
use crate::show;

/// What a batch needs; `None` where its moisture is known neither by measure nor by hand.
///
/// The water is exact: `M / (1 + w) * (OMC - w)`, with the drying allowance of the rules on top, or, where the weather is
/// told, the water that dries off before the batch is compacted.
pub fn batch_water(
    size: BatchSize,
    known: KnownMoisture,
    weather: Option<Weather>,
    base: &BaseMaterial,
    rules: &MoistureRules,
) -> Option<BatchWater> {
    let moisture = moisture(known, base, rules)?;
    let batch = Batch { moist: moist_mass(size, base), base, rules, weather };
    Some(BatchWater {
        dry_mass: batch.over(&moisture, Batch::dry, batch.dry_why(&moisture)),
        water_to_add: batch.over(&moisture, Batch::to_add, batch.add_why(&moisture)),
        water_to_dry: batch.over(&moisture, Batch::to_dry, batch.to_dry_why(&moisture)),
        open_surface: weather.map(|_| batch.surface_figure()),
        drying_loss: weather.map(|weather| batch.loss_figure(&weather)),
        remarks: remarks(known, base, rules),
        moist_mass: batch.moist.clone(),
        moisture,
    })
}

/// What makes a batch impossible to work out; empty where it can be.
pub fn batch_faults(
    size: BatchSize,
    known: KnownMoisture,
    weather: Option<Weather>,
    base: &BaseMaterial,
) -> Vec<InputError> {
    let mut errors = Errors::default();
    match size {
        BatchSize::MoistMass(mass) => errors.positive("moist mass of the batch (kg)", mass.in_kilograms()),
        BatchSize::LooseVolume(volume) => errors.positive("loose volume of the batch (m3)", volume.in_cubic_metres()),
    }
    errors.fraction("moisture", known.measured.map_or(0.0, InRatio::in_fraction));
    errors.positive("loose density of the base (kg/m3)", base.loose_density.in_kilograms_per_cubic_metre());
    errors.positive("optimum moisture", base.optimum_moisture.in_fraction());
    errors.fraction("optimum moisture", base.optimum_moisture.in_fraction());
    check_weather(weather, &mut errors);
    errors.into_result().err().unwrap_or_default()
}

/// From and to of a state in the hand, as a share of the optimum.
pub fn feel_range(feel: HandFeel, rules: &MoistureRules) -> &Sourced<[f64; 2]> {
    match feel {
        HandFeel::FallsApart => &rules.feel.falls_apart,
        HandFeel::KeepsShape => &rules.feel.keeps_shape,
        HandFeel::Oozes => &rules.feel.oozes,
    }
}

/// A batch at any moisture.
struct Batch<'a> {
    moist: Figure<Mass>,
    base: &'a BaseMaterial,
    rules: &'a MoistureRules,
    weather: Option<Weather>,
}

/// The moisture as measured, else by the hand: every moisture of the state's range is taken as equally likely.
fn moisture(known: KnownMoisture, base: &BaseMaterial, rules: &MoistureRules) -> Option<Figure<Ratio>> {
    if let Some(measured) = known.measured {
        return Some(Figure::exact(measured, Why::new("w as measured", Source::agency("given"))));
    }
    let feel = known.hand?;
    let range = feel_range(feel, rules);
    let [from, to] = range.value;
    let at = |share: f64| fraction(base.optimum_moisture.in_fraction() * (from + share * (to - from)));
    let why = Why::new("w = OMC * share, any share of the range as likely as any other", range.source.clone())
        .with("in the hand", feel.words())
        .with("shares", format!("{from} to {to}"))
        .with("OMC", show::percent(base.optimum_moisture));
    Some(Figure::spread(at(0.5), Spread { p10: at(0.1), p50: at(0.5), p90: at(0.9) }, why))
}

fn moist_mass(size: BatchSize, base: &BaseMaterial) -> Figure<Mass> {
    match size {
        BatchSize::MoistMass(mass) => Figure::exact(mass, Why::new("M as weighed, moist", Source::agency("given"))),
        BatchSize::LooseVolume(volume) => {
            let why = Why::new("M = V * rho_loose, moist as it lies", Source::definition())
                .with("V", show::m3(volume))
                .with("rho_loose", show::density(base.loose_density));
            Figure::exact(volume * base.loose_density, why)
        }
    }
}

impl Batch<'_> {
    fn dry(&self, moisture: f64) -> Mass {
        dry_mass(self.moist.value, moisture)
    }

    fn short(&self, moisture: f64) -> Mass {
        water_short(self.dry(moisture), self.base.optimum_moisture.in_fraction(), moisture)
    }

    fn to_add(&self, moisture: f64) -> Mass {
        let short = self.short(moisture);
        let needed = match self.weather {
            None => short * (1.0 + self.rules.drying_allowance.value),
            Some(weather) => short + self.loss(&weather),
        };
        needed.max(kilograms(0.0))
    }

    fn to_dry(&self, moisture: f64) -> Mass {
        let lost = self.weather.map_or(kilograms(0.0), |weather| self.loss(&weather));
        (-self.short(moisture) - lost).max(kilograms(0.0))
    }

    fn surface(&self) -> Area {
        let loose = self.moist.value / self.base.loose_density;
        square_metres(loose.in_cubic_metres() * self.drying().batch_surface_m2_per_m3.value)
    }

    fn loss(&self, weather: &Weather) -> Mass {
        drying_loss(weather, self.surface(), self.drying())
    }

    fn drying(&self) -> &DryingRules {
        &self.rules.drying
    }

    /// A figure over the spread of the moisture; what falls with it has its quantiles the other way round.
    fn over(&self, moisture: &Figure<Ratio>, quantity: fn(&Self, f64) -> Mass, why: Why) -> Figure<Mass> {
        let at = |w: Ratio| quantity(self, w.in_fraction());
        let value = at(moisture.value);
        let Some(spread) = moisture.spread else { return Figure::exact(value, why) };
        let (first, middle, last) = (at(spread.p10), at(spread.p50), at(spread.p90));
        let why = why.with("spread", "that of the moisture");
        Figure::spread(value, Spread { p10: first.min(last), p50: middle, p90: first.max(last) }, why)
    }

    fn dry_why(&self, moisture: &Figure<Ratio>) -> Why {
        Why::new("M_d = M / (1 + w)", Source::definition())
            .with("M", show::kg(self.moist.value))
            .with("w", show::percent(moisture.value))
    }

    fn with_moisture(&self, why: Why, moisture: &Figure<Ratio>) -> Why {
        why.with("M_d", show::kg(self.dry(moisture.value.in_fraction())))
            .with("OMC", show::percent(self.base.optimum_moisture))
            .with("w", show::percent(moisture.value))
    }

    fn add_why(&self, moisture: &Figure<Ratio>) -> Why {
        match self.weather {
            None => {
                let allowance = &self.rules.drying_allowance;
                let why = Why::new("max(0, M_d * (OMC - w)) * (1 + a)", allowance.source.clone());
                self.with_moisture(why, moisture).with("drying allowance a", allowance.value)
            }
            Some(weather) => {
                let why = Why::new("max(0, M_d * (OMC - w) + loss)", self.drying().evaporation.source.clone());
                self.with_moisture(why, moisture).with("drying loss", show::kg(self.loss(&weather)))
            }
        }
    }

    fn to_dry_why(&self, moisture: &Figure<Ratio>) -> Why {
        let rule = if self.weather.is_some() { "max(0, M_d * (w - OMC) - loss)" } else { "max(0, M_d * (w - OMC))" };
        self.with_moisture(Why::new(rule, Source::definition()), moisture)
    }

    fn surface_figure(&self) -> Figure<Area> {
        let rule = &self.drying().batch_surface_m2_per_m3;
        let loose = cubic_metres((self.moist.value / self.base.loose_density).in_cubic_metres());
        let why = Why::new("A = V_loose * s", rule.source.clone())
            .with("V_loose", show::m3(loose))
            .with("s", format!("{} m2/m3", rule.value));
        Figure::exact(self.surface(), why)
    }

    fn loss_figure(&self, weather: &Weather) -> Figure<Mass> {
        Figure::exact(self.loss(weather), loss_why(weather, self.drying()).with("A", show::m2(self.surface())))
    }
}

/// How a drying loss is worked out, but for its surface.
pub(crate) fn loss_why(weather: &Weather, rules: &DryingRules) -> Why {
    let formula = rules.evaporation.value;
    let rule = format!(
        "loss = E * cover * A * t, E = {} * (1 - r) * (T + {})^{} * (v + {})",
        formula.factor, formula.temperature_shift_c, formula.power, formula.wind_shift_km_per_h
    );
    Why::new(rule, rules.evaporation.source.clone())
        .with("T", format!("{:.0} °C", weather.air_temperature_c))
        .with("r", format!("{:.2}", humidity(weather, rules)))
        .with("v", format!("{:.0} km/h", weather.wind.in_kilometres_per_hour()))
        .with("E", format!("{:.2} kg/m2/h", evaporation_rate(weather, rules)))
        .with("cover", sheet(weather, rules))
        .with("t", format!("{:.0} min", time_open(weather, rules).in_minutes()))
}

fn remarks(known: KnownMoisture, base: &BaseMaterial, rules: &MoistureRules) -> Vec<String> {
    let mut remarks = Vec::new();
    if let KnownMoisture { measured: Some(measured), hand: Some(feel) } = known {
        let [from, to] = feel_range(feel, rules).value;
        let share = measured.in_fraction() / base.optimum_moisture.in_fraction();
        if !(from..=to).contains(&share) {
            remarks.push(format!(
                "in the hand it {}, which goes with {} to {}; {} was measured and is taken: look at both again",
                feel.words(),
                show::percent(base.optimum_moisture * from),
                show::percent(base.optimum_moisture * to),
                show::percent(measured)
            ));
        }
    }
    if known.measured.is_none() {
        remarks.push("the hand is a rough measure: add the lower amount first, mix, and squeeze again".into());
    }
    remarks
}
