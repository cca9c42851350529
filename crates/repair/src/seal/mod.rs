//! Binder and cover stone rates of a seal one stone thick, by the published method the agency chose.
//!
//! Each method gives residual binder on the fresh base and on the old seal under the overlap, and the stone; what follows
//! is common to both: residual binder to product ([`product`]), hot litres ([`crate::binder_volume`]), whole
//! [`containers`], [`opening`] to traffic.

pub mod austroads;
pub(crate) mod check;
pub mod containers;
mod design;
pub mod least_dimension;
pub mod mcleod;
pub mod opening;
pub mod product;
pub(crate) mod why;

pub use design::{SealAreas, SealDesign, design};

use model::district::{Binder, CoverStone};
use model::figure::{Figure, Why};
use model::quantity::{Area, InRatio, KilogramsPerSquareMetre, Length, LitresPerSquareMetre, Ratio, Volume};
use model::rules::repair::{RepairRules, SealMethod, SealRules};

use crate::show;

/// Rates for one repair.
#[derive(Debug, Clone, PartialEq)]
pub struct SealRates {
    /// By which method.
    pub method: SealMethod,
    /// Average least dimension, measured or computed.
    pub least_dimension: Figure<Length>,
    /// Residual binder and stone, as the method gives them.
    pub residual: ResidualRates,
    /// Residual part of the product, by volume.
    pub residue: Figure<Ratio>,
    /// Binder product on the fresh base, soak included.
    pub binder_on_base: Figure<LitresPerSquareMetre>,
    /// Binder product on the old seal under the overlap.
    pub binder_on_overlap: Figure<LitresPerSquareMetre>,
}

/// What a method gives: residual binder at 15 °C, and stone.
#[derive(Debug, Clone, PartialEq)]
pub struct ResidualRates {
    /// Residual binder on the fresh base.
    pub on_base: Figure<LitresPerSquareMetre>,
    /// Residual binder on the old seal.
    pub on_overlap: Figure<LitresPerSquareMetre>,
    /// Cover stone.
    pub stone: Figure<KilogramsPerSquareMetre>,
}

/// Traffic as the methods take it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Traffic {
    /// Vehicles a day, both ways.
    pub vehicles_per_day: f64,
    /// Whether somebody counted them.
    pub is_counted: bool,
}

/// The rates for one stone, one binder and one traffic (vehicles a day, both ways; `None`: not known).
pub fn rates(stone: &CoverStone, binder: &Binder, vehicles_per_day: Option<f64>, all_rules: &RepairRules) -> SealRates {
    let rules = &all_rules.seal;
    let least_dimension = least_dimension::least_dimension(stone, rules);
    let traffic = Traffic::new(vehicles_per_day, rules);
    let residual = match rules.method.value {
        SealMethod::McLeod => mcleod::rates(stone, &least_dimension, traffic, rules),
        SealMethod::Austroads => austroads::rates(stone, &least_dimension, traffic, rules),
    };
    let residue = product::residue(binder, all_rules);
    SealRates {
        method: rules.method.value,
        binder_on_base: product_rate(&residual.on_base, &residue),
        binder_on_overlap: product_rate(&residual.on_overlap, &residue),
        least_dimension,
        residual,
        residue,
    }
}

impl SealRates {
    /// Binder product at 15 °C for so much fresh base and so much old seal.
    pub fn binder(&self, base: Area, overlap: Area) -> Volume {
        self.binder_on_base.value * base + self.binder_on_overlap.value * overlap
    }
}

impl Traffic {
    /// The count, or what the rules take where there is none.
    pub fn new(vehicles_per_day: Option<f64>, rules: &SealRules) -> Self {
        Traffic {
            vehicles_per_day: vehicles_per_day.unwrap_or(rules.unknown_traffic_vehicles_per_day.value),
            is_counted: vehicles_per_day.is_some(),
        }
    }

    fn words(self) -> String {
        let origin = if self.is_counted { "" } else { ", count not known" };
        format!("{:.0} vehicles a day{origin}", self.vehicles_per_day)
    }
}

/// `B = B_r / R`, with the working of the residual rate.
fn product_rate(residual: &Figure<LitresPerSquareMetre>, residue: &Figure<Ratio>) -> Figure<LitresPerSquareMetre> {
    let why = &residual.why;
    let product = LitresPerSquareMetre(residual.value.0 / residue.value.in_fraction());
    let mut combined = Why::new(format!("{}; B = B_r / R", why.rule), why.source.clone());
    combined.inputs.clone_from(&why.inputs);
    let combined = combined
        .with("B_r", format!("{:.3} L/m2", residual.value.0))
        .with("residue R", format!("{} by volume", show::percent(residue.value)));
    Figure::exact(product, combined)
}
