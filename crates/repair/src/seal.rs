//! Binder and cover stone rates of a seal one stone thick.
//!
//! Method: N. W. McLeod, as the Minnesota Seal Coat Handbook (MN/RC-2006-34), chapter 4, gives it (from memory).

use model::district::{Binder, CoverStone};
use model::quantity::{
    InLength, InMassDensity, InRatio, KilogramsPerSquareMetre, Length, LitresPerSquareMetre, MassDensity, metres,
};
use model::rules::repair::{SealRules, TrafficFactor};

/// Rates for one repair, and what they were worked out from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SealRates {
    /// Average least dimension, measured or computed.
    pub least_dimension: Length,
    /// Voids in the loose stone, `V`.
    pub voids: f64,
    /// Share of the voids to fill, `T`.
    pub traffic_factor: f64,
    /// Vehicles a day it was taken for.
    pub vehicles_per_day: f64,
    /// Binder product on the fresh base, soak included.
    pub binder_on_base: LitresPerSquareMetre,
    /// Binder product on the old seal under the overlap.
    pub binder_on_overlap: LitresPerSquareMetre,
    /// Cover stone.
    pub stone: KilogramsPerSquareMetre,
}

/// The rates for one stone, one binder and one traffic.
pub fn rates(stone: &CoverStone, binder: &Binder, vehicles_per_day: Option<f64>, rules: &SealRules) -> SealRates {
    let least_dimension = least_dimension(stone, rules);
    let voids = loose_voids(stone.loose_density, stone.particle_density);
    let vehicles_per_day = vehicles_per_day.unwrap_or(rules.unknown_traffic_vehicles_per_day.value);
    let traffic_factor = traffic_factor(vehicles_per_day, &rules.traffic_factors.value);
    let binder_rate = |surface: f64| {
        BinderRate {
            void_share: rules.void_share.value,
            least_dimension,
            traffic_factor,
            voids,
            surface,
            absorption: rules.absorption_l_per_m2.value,
            residue: binder.residue.in_fraction(),
        }
        .product()
    };
    SealRates {
        least_dimension,
        voids,
        traffic_factor,
        vehicles_per_day,
        binder_on_base: binder_rate(rules.soak_l_per_m2.value),
        binder_on_overlap: binder_rate(rules.old_seal_correction_l_per_m2.value),
        stone: stone_rate(
            rules.void_share.value,
            voids,
            least_dimension,
            stone.particle_density,
            rules.waste_factor.value,
        ),
    }
}

/// Average least dimension: as measured, else from the median size and the flakiness index; the median, where it was
/// not measured, from the nominal size.
pub fn least_dimension(stone: &CoverStone, rules: &SealRules) -> Length {
    stone.average_least_dimension.unwrap_or_else(|| {
        least_dimension_of(median_size(stone, rules), stone.flakiness.in_percent(), rules.least_dimension.value)
    })
}

/// Median size: as measured, else a set fraction of the nominal size.
pub fn median_size(stone: &CoverStone, rules: &SealRules) -> Length {
    stone.median_size.unwrap_or(stone.nominal_size * rules.median_of_nominal.value)
}

/// `H = M / (a + b * FI)`, FI in per cent.
pub fn least_dimension_of(median: Length, flakiness_percent: f64, [a, b]: [f64; 2]) -> Length {
    median / (a + b * flakiness_percent)
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

/// What the binder rate is worked out from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BinderRate {
    /// `k`.
    pub void_share: f64,
    /// `H`.
    pub least_dimension: Length,
    /// `T`.
    pub traffic_factor: f64,
    /// `V`.
    pub voids: f64,
    /// `S`: correction for the surface, or the soak into fresh base; L/m2 of residual binder.
    pub surface: f64,
    /// `A`: taken up by the stone; L/m2 of residual binder.
    pub absorption: f64,
    /// `R`: residual part of the product, by volume.
    pub residue: f64,
}

impl BinderRate {
    /// Binder product: `B = (k * H * T * V + S + A) / R`, H in mm, never below zero (a flushed surface may correct the
    /// need away).
    pub fn product(&self) -> LitresPerSquareMetre {
        let height_mm = metres(1.0).in_millimetres() * self.least_dimension.in_metres();
        let in_voids = self.void_share * height_mm * self.traffic_factor * self.voids;
        LitresPerSquareMetre(((in_voids + self.surface + self.absorption) / self.residue).max(0.0))
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
