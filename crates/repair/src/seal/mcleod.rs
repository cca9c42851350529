//! N. W. McLeod's method, as the Minnesota Seal Coat Handbook (MN/RC-2006-34), chapter 4, gives it (from memory).

use model::district::CoverStone;
use model::figure::{Figure, Source, Why};
use model::quantity::{
    InLength, InMassDensity, InRatio, KilogramsPerSquareMetre, Length, LitresPerSquareMetre, MassDensity,
};
use model::rules::repair::{SealRules, TrafficFactor};

use super::{ResidualRates, Traffic};
use crate::show;

/// Residual binder and stone for one stone and one traffic.
pub fn rates(
    stone: &CoverStone,
    least_dimension: &Figure<Length>,
    traffic: Traffic,
    rules: &SealRules,
) -> ResidualRates {
    let mcleod = &rules.mcleod;
    let voids = loose_voids(stone.loose_density, stone.particle_density);
    let share = traffic_factor(traffic.vehicles_per_day, &mcleod.traffic_factors.value);
    let rate = |surface: f64| {
        Residual {
            void_share: mcleod.void_share.value,
            least_dimension: least_dimension.value,
            traffic_factor: share,
            voids,
            surface,
            absorption: mcleod.absorption_l_per_m2.value,
        }
        .rate()
    };
    let why = |rule: &str, source: &Source| {
        Why::new(format!("McLeod: {rule}"), source.clone())
            .with("H", show::mm(least_dimension.value))
            .with("k", mcleod.void_share.value)
            .with("V", format!("{voids:.3}"))
    };
    let binder_why = |rule: &str| {
        why(rule, &mcleod.void_share.source)
            .with("T", format!("{share} ({})", traffic.words()))
            .with("stone takes up A", show::litres_per_m2(mcleod.absorption_l_per_m2.value))
    };
    let base = &rules.fresh_base;
    let condition = base.condition.value;
    let soak = base.soak_l_per_m2.value.of(condition);
    let soak_rests_on = base.soak_l_per_m2.source.standing.words();
    let embedment = base.embedment_l_per_m2.value;
    let old = rules.old_surface.value;
    let correction = mcleod.surface_l_per_m2.value.of(old);
    let factor = mcleod.waste_factor.value;
    let particle = stone.particle_density;
    let on_base = binder_why("B_r = k * H * T * V + s + e + A")
        .with(
            "soak into fresh base s",
            format!("{} ({}; {soak_rests_on})", show::litres_per_m2(soak), condition.words()),
        )
        .with("embedment e", show::litres_per_m2(embedment));
    let on_overlap = binder_why("B_r = k * H * T * V + S + A")
        .with("old seal S", format!("{} ({})", show::litres_per_m2(correction), old.words()));
    let stone_why = why("C = (1 - k * V) * H * G * E", &mcleod.void_share.source)
        .with("G", format!("{:.3}", particle.in_kilograms_per_cubic_metre() / 1000.0))
        .with("waste factor E", factor);
    ResidualRates {
        on_base: Figure::exact(rate(soak + embedment), on_base),
        on_overlap: Figure::exact(rate(correction), on_overlap),
        stone: Figure::exact(
            stone_rate(mcleod.void_share.value, voids, least_dimension.value, particle, factor),
            stone_why,
        ),
    }
}

/// Voids in the loose stone: `V = 1 - W / (1000 * G)`, which is one less the ratio of the two densities.
pub fn loose_voids(loose: MassDensity, particle: MassDensity) -> f64 {
    1.0 - (loose / particle).in_fraction()
}

/// Stone rate: `C = (1 - k * V) * H * G * E`, H in mm, G the particles' relative density.
pub fn stone_rate(
    void_share: f64,
    voids: f64,
    least_dimension: Length,
    particle: MassDensity,
    waste_factor: f64,
) -> KilogramsPerSquareMetre {
    let height = least_dimension.in_metres();
    KilogramsPerSquareMetre(
        (1.0 - void_share * voids) * height * particle.in_kilograms_per_cubic_metre() * waste_factor,
    )
}

/// What the residual binder rate is worked out from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residual {
    /// `k`.
    pub void_share: f64,
    /// `H`.
    pub least_dimension: Length,
    /// `T`.
    pub traffic_factor: f64,
    /// `V`.
    pub voids: f64,
    /// `S`: correction for the surface, or the soak into fresh base and the embedment; L/m2 of residual binder.
    pub surface: f64,
    /// `A`: taken up by the stone; L/m2 of residual binder.
    pub absorption: f64,
}

impl Residual {
    /// Residual binder: `B_r = k * H * T * V + S + A`, H in mm, never below zero (a flushed surface may correct the need
    /// away).
    pub fn rate(&self) -> LitresPerSquareMetre {
        let in_voids = self.void_share * self.least_dimension.in_millimetres() * self.traffic_factor * self.voids;
        LitresPerSquareMetre((in_voids + self.surface + self.absorption).max(0.0))
    }
}

/// Share of the voids to fill: the first row that holds the count.
pub fn traffic_factor(vehicles_per_day: f64, rows: &[TrafficFactor]) -> f64 {
    let holds = |row: &&TrafficFactor| match row.limit {
        None => true,
        Some(limit) if row.limit_included => vehicles_per_day <= limit,
        Some(limit) => vehicles_per_day < limit,
    };
    rows.iter().find(holds).or(rows.last()).map_or(0.0, |row| row.factor)
}
