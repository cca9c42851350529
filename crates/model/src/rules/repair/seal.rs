//! Binder and cover stone rates, one stone thick.

use serde::Deserialize;

use crate::rules::Sourced;

/// Binder and cover stone rates, one stone thick.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SealRules {
    /// The published method the rates are worked out by.
    pub method: Sourced<SealMethod>,
    /// Overlap onto the sound pavement on each side, metres.
    pub overlap_m: Sourced<f64>,
    /// Greatest nominal size of cover stone, metres.
    pub greatest_stone_m: Sourced<f64>,
    /// Median size as a fraction of the nominal size, where neither median nor least dimension was measured.
    pub median_of_nominal: Sourced<f64>,
    /// `a` and `b` of the average least dimension `H = M / (a + b * FI)`, flakiness index FI in per cent.
    pub least_dimension: Sourced<[f64; 2]>,
    /// Traffic taken where the count is not known, vehicles a day.
    pub unknown_traffic_vehicles_per_day: Sourced<f64>,
    /// The old seal under the overlap.
    pub old_surface: Sourced<OldSurface>,
    /// The fresh granular base.
    pub fresh_base: FreshBaseRules,
    /// Constants of the method after McLeod.
    pub mcleod: McLeodRules,
    /// Constants of the method of Austroads.
    pub austroads: AustroadsRules,
}

/// Published methods for binder and cover stone rates.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SealMethod {
    /// N. W. McLeod, as in the Minnesota Seal Coat Handbook.
    #[serde(rename = "mcleod")]
    McLeod,
    /// Austroads, Guide to Pavement Technology Part 4K.
    Austroads,
}

/// How porous an old seal is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OldSurface {
    /// Black, binder standing over the stone.
    Flushed,
    /// Smooth, not porous.
    Smooth,
    /// Slightly porous, oxidized.
    SlightlyPorous,
    /// Slightly pocked, porous, oxidized.
    SlightlyPocked,
    /// Badly pocked, porous, oxidized.
    BadlyPocked,
}

/// How open a finished granular base is to binder.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BaseCondition {
    /// Primed some days before.
    Primed,
    /// Fine, closed surface.
    Tight,
    /// Between tight and open.
    Medium,
    /// Coarse, open surface.
    Open,
}

/// The fresh granular base.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FreshBaseRules {
    /// Its condition when it is sealed.
    pub condition: Sourced<BaseCondition>,
    /// What soaks in by condition, litres per square metre of residual binder.
    pub soak_l_per_m2: Sourced<SoakByCondition>,
    /// Allowance for stone that is pressed into the base, litres per square metre of residual binder: zero or less.
    pub embedment_l_per_m2: Sourced<f64>,
}

/// What soaks into a base, litres per square metre of residual binder.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct SoakByCondition {
    pub primed: f64,
    pub tight: f64,
    pub medium: f64,
    pub open: f64,
}

/// Constants of the method after McLeod.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct McLeodRules {
    /// `k` of the stone rate `C = (1 - k * V) * H * G * E` and of the binder rate `B = (k * H * T * V + ...) / R`.
    pub void_share: Sourced<f64>,
    /// Factor for stone lost to traffic and uneven spreading, `E`.
    pub waste_factor: Sourced<f64>,
    /// Binder the stone itself takes up, litres per square metre of residual binder, `A`.
    pub absorption_l_per_m2: Sourced<f64>,
    /// Correction for the old seal, litres per square metre of residual binder, `S`.
    pub surface_l_per_m2: Sourced<CorrectionBySurface>,
    /// Share of the voids to fill, by traffic, `T`. The first row that holds the count is taken.
    pub traffic_factors: Sourced<Vec<TrafficFactor>>,
}

/// Correction for the old seal, litres per square metre of residual binder.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct CorrectionBySurface {
    pub flushed: f64,
    pub smooth: f64,
    pub slightly_porous: f64,
    pub slightly_pocked: f64,
    pub badly_pocked: f64,
}

/// One row of the traffic factors.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TrafficFactor {
    /// Upper limit in vehicles a day; none in the last row.
    pub limit: Option<f64>,
    /// Whether a count exactly on the limit still belongs to this row.
    #[serde(default)]
    pub limit_included: bool,
    /// Share of the voids to fill.
    pub factor: f64,
}

/// Constants of the method of Austroads. What the guide gives as charts, and what depends on the site, is the agency's to
/// enter.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AustroadsRules {
    /// Lanes that share the count, which is of both ways.
    pub lanes: Sourced<u32>,
    /// Greatest counts of the bands very low, low and medium, vehicles a lane and day; more is high.
    pub band_limits: Sourced<[f64; 3]>,
    /// Basic voids factor `Vf` by band, litres per square metre and millimetre: read off the guide's charts by the agency.
    pub void_factor: Option<Sourced<VoidFactorByBand>>,
    /// Adjustment for the stone's shape, `Va`.
    pub shape_adjustment: Sourced<f64>,
    /// Adjustment for traffic effects, `Vt`.
    pub traffic_adjustment: Sourced<f64>,
    /// Binder factor `BF`: more than one for modified binders and emulsions where the guide says so.
    pub binder_factor: Sourced<f64>,
    /// Allowance for the texture of the old seal, litres per square metre of residual binder.
    pub texture_l_per_m2: Sourced<f64>,
    /// Allowance for binder that the stone takes up, litres per square metre of residual binder.
    pub absorption_l_per_m2: Sourced<f64>,
    /// `c` of the area that a cubic metre of loose stone covers, `c / ALD` square metres, ALD in millimetres.
    pub spread: Sourced<f64>,
}

/// Basic voids factor by traffic band, litres per square metre and millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the words are the definition
pub struct VoidFactorByBand {
    pub very_low: f64,
    pub low: f64,
    pub medium: f64,
    pub high: f64,
}

impl SealMethod {
    /// Name for the reader.
    pub fn words(self) -> &'static str {
        match self {
            SealMethod::McLeod => "McLeod",
            SealMethod::Austroads => "Austroads",
        }
    }
}

impl OldSurface {
    /// Name for the reader.
    pub fn words(self) -> &'static str {
        match self {
            OldSurface::Flushed => "black, flushed",
            OldSurface::Smooth => "smooth, not porous",
            OldSurface::SlightlyPorous => "slightly porous, oxidized",
            OldSurface::SlightlyPocked => "slightly pocked, porous, oxidized",
            OldSurface::BadlyPocked => "badly pocked, porous, oxidized",
        }
    }
}

impl BaseCondition {
    /// Name for the reader.
    pub fn words(self) -> &'static str {
        match self {
            BaseCondition::Primed => "primed",
            BaseCondition::Tight => "tight",
            BaseCondition::Medium => "medium",
            BaseCondition::Open => "open",
        }
    }
}

impl SoakByCondition {
    /// The value for one condition.
    pub fn of(&self, condition: BaseCondition) -> f64 {
        match condition {
            BaseCondition::Primed => self.primed,
            BaseCondition::Tight => self.tight,
            BaseCondition::Medium => self.medium,
            BaseCondition::Open => self.open,
        }
    }
}

impl CorrectionBySurface {
    /// The value for one surface.
    pub fn of(&self, surface: OldSurface) -> f64 {
        match surface {
            OldSurface::Flushed => self.flushed,
            OldSurface::Smooth => self.smooth,
            OldSurface::SlightlyPorous => self.slightly_porous,
            OldSurface::SlightlyPocked => self.slightly_pocked,
            OldSurface::BadlyPocked => self.badly_pocked,
        }
    }
}
