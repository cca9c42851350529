//! The method of Austroads, Guide to Pavement Technology Part 4K (AGPT04K), checked against the worked examples of its
//! Appendix C.
//!
//! The basic voids factor comes from the guide's charts and is entered by the agency, never derived.

use model::district::CoverStone;
use model::figure::{Figure, Standing, Why};
use model::quantity::{InLength, InMassDensity, KilogramsPerSquareMetre, Length, LitresPerSquareMetre, MassDensity};
use model::rules::Sourced;
use model::rules::repair::{AustroadsRules, SealRules, VoidFactorByBand};

use super::{ResidualRates, Traffic};
use crate::show;

/// How much traffic one lane carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the words are the definition
pub enum TrafficBand {
    VeryLow,
    Low,
    Medium,
    High,
}

/// What the binder rate is worked out from.
#[derive(Debug, Clone, PartialEq)]
pub struct Binder {
    /// `VF = Vf + Va + Vt`, L/m2 per mm.
    pub void_factor: f64,
    /// `ALD`.
    pub least_dimension: Length,
    /// `BF`.
    pub binder_factor: f64,
    /// Each L/m2 of residual binder, to the nearest 0.1.
    pub allowances: Vec<f64>,
}

/// Residual binder step by step, rounded as the guide prints it; L/m2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// Basic rate `Bb = VF * ALD`, to 0.01.
    pub basic: f64,
    /// Modified rate `Bbm = VF * ALD * BF`, to 0.01.
    pub modified: f64,
    /// Design rate `Bd = Bbm` and the allowances.
    pub design: f64,
    /// Rate adopted: the design rate to 0.1, never below zero.
    pub adopted: f64,
}

impl Binder {
    /// Residual binder, step by step.
    ///
    /// `Bbm` is taken from the product before it is rounded to `Bb`: two of the guide's rows (14 mm, outside and median
    /// lane) print 1.04 and 1.51, where the rounded `Bb` would give 1.05 and 1.52.
    pub fn steps(&self) -> Steps {
        let product = self.void_factor * self.least_dimension.in_millimetres();
        let modified = to_hundredths(product * self.binder_factor);
        let allowances: f64 = self.allowances.iter().map(|&allowance| to_tenths(allowance)).sum();
        let design = to_hundredths(modified + allowances);
        Steps { basic: to_hundredths(product), modified, design, adopted: to_tenths(design).max(0.0) }
    }
}

/// Band of the traffic in one lane, vehicles a day; `limits` are the greatest of all bands but the last.
pub fn band(vehicles_per_lane: f64, limits: [f64; 3]) -> TrafficBand {
    let [very_low, low, medium] = limits;
    match vehicles_per_lane {
        count if count <= very_low => TrafficBand::VeryLow,
        count if count <= low => TrafficBand::Low,
        count if count <= medium => TrafficBand::Medium,
        _ => TrafficBand::High,
    }
}

/// Area that a cubic metre of loose stone covers, m2: `c / ALD`, ALD in mm.
pub fn cover_m2_per_m3(spread: f64, least_dimension: Length) -> f64 {
    spread / least_dimension.in_millimetres()
}

/// The same as a mass on each square metre: loose density over the area covered.
pub fn stone_rate(spread: f64, least_dimension: Length, loose: MassDensity) -> KilogramsPerSquareMetre {
    KilogramsPerSquareMetre(loose.in_kilograms_per_cubic_metre() / cover_m2_per_m3(spread, least_dimension))
}

/// Residual binder and stone for one stone and one traffic.
pub fn rates(
    stone: &CoverStone,
    least_dimension: &Figure<Length>,
    traffic: Traffic,
    rules: &SealRules,
) -> ResidualRates {
    let austroads = &rules.austroads;
    let site = Site::new(least_dimension.value, traffic, austroads);
    let base = &rules.fresh_base;
    let condition = base.condition.value;
    let stone_takes = Allowance::new("taken up by stone", &austroads.absorption_l_per_m2);
    let on_base = [
        Allowance {
            name: format!("soak into {} base", condition.words()),
            l_per_m2: base.soak_l_per_m2.value.of(condition),
            rests_on: base.soak_l_per_m2.source.standing,
        },
        Allowance::new("embedment", &base.embedment_l_per_m2),
        stone_takes.clone(),
    ];
    let on_overlap = [Allowance::new("texture of old seal", &austroads.texture_l_per_m2), stone_takes];
    ResidualRates {
        on_base: site.binder(&on_base),
        on_overlap: site.binder(&on_overlap),
        stone: site.stone(stone.loose_density),
    }
}

/// What is added to the modified rate.
#[derive(Debug, Clone)]
struct Allowance {
    name: String,
    l_per_m2: f64,
    rests_on: Standing,
}

impl Allowance {
    fn new(name: &str, rule: &Sourced<f64>) -> Self {
        Allowance { name: name.into(), l_per_m2: rule.value, rests_on: rule.source.standing }
    }
}

/// Height of the stone and traffic, with the rules that go with them.
struct Site<'a> {
    least_dimension: Length,
    traffic: Traffic,
    rules: &'a AustroadsRules,
}

impl<'a> Site<'a> {
    fn new(least_dimension: Length, traffic: Traffic, rules: &'a AustroadsRules) -> Self {
        Site { least_dimension, traffic, rules }
    }

    /// Residual binder with these allowances.
    fn binder(&self, allowances: &[Allowance]) -> Figure<LitresPerSquareMetre> {
        let rules = self.rules;
        let per_lane = self.traffic.vehicles_per_day / f64::from(rules.lanes.value.max(1));
        let band = band(per_lane, rules.band_limits.value);
        // Rules without the agency's factor do not pass `check_rules`.
        let basic = rules.void_factor.as_ref().map_or(0.0, |factor| band.of(&factor.value));
        let binder = Binder {
            void_factor: basic + rules.shape_adjustment.value + rules.traffic_adjustment.value,
            least_dimension: self.least_dimension,
            binder_factor: rules.binder_factor.value,
            allowances: allowances.iter().map(|allowance| allowance.l_per_m2).collect(),
        };
        let steps = binder.steps();
        let entered = rules.void_factor.as_ref().map_or("not entered".into(), |factor| factor.source.to_string());
        let mut why = Why::new(
            "Austroads: VF = Vf + Va + Vt; Bb = VF * ALD; Bbm = VF * ALD * BF; B_r = Bbm + allowances, to 0.1 L/m2",
            rules.band_limits.source.clone(),
        )
        .with("ALD", show::mm(self.least_dimension))
        .with("Vf", format!("{basic} ({}, {per_lane:.0} vehicles a lane and day; {entered})", band.words()))
        .with("Va", rules.shape_adjustment.value)
        .with("Vt", rules.traffic_adjustment.value)
        .with("Bb", format!("{:.2} L/m2", steps.basic))
        .with("BF", rules.binder_factor.value)
        .with("Bbm", format!("{:.2} L/m2", steps.modified));
        for Allowance { name, l_per_m2, rests_on } in allowances {
            why = why.with(name, format!("{:+.1} L/m2 ({})", to_tenths(*l_per_m2), rests_on.words()));
        }
        Figure::exact(LitresPerSquareMetre(steps.adopted), why.with("Bd", format!("{:.2} L/m2", steps.design)))
    }

    fn stone(&self, loose: MassDensity) -> Figure<KilogramsPerSquareMetre> {
        let spread = &self.rules.spread;
        let why = Why::new("Austroads: C = W / (c / ALD)", spread.source.clone())
            .with("W", show::density(loose))
            .with("c", spread.value)
            .with("ALD", show::mm(self.least_dimension))
            .with("c / ALD", format!("{:.1} m2/m3", cover_m2_per_m3(spread.value, self.least_dimension)));
        Figure::exact(stone_rate(spread.value, self.least_dimension, loose), why)
    }
}

impl TrafficBand {
    /// The band's void factor.
    pub fn of(self, factors: &VoidFactorByBand) -> f64 {
        match self {
            TrafficBand::VeryLow => factors.very_low,
            TrafficBand::Low => factors.low,
            TrafficBand::Medium => factors.medium,
            TrafficBand::High => factors.high,
        }
    }

    /// Name for the reader.
    pub fn words(self) -> &'static str {
        match self {
            TrafficBand::VeryLow => "very low traffic",
            TrafficBand::Low => "low traffic",
            TrafficBand::Medium => "medium traffic",
            TrafficBand::High => "high traffic",
        }
    }
}

fn to_hundredths(rate: f64) -> f64 {
    rounded(rate, 100.0)
}

fn to_tenths(rate: f64) -> f64 {
    rounded(rate, 10.0)
}

/// Halves go away from zero, as by hand; the hair is for halves that a binary fraction misses (0.15 * 8.9).
fn rounded(rate: f64, parts: f64) -> f64 {
    (rate * parts + 1e-9 * rate.signum()).round() / parts
}
