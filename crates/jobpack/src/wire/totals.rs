//! The `totals` block: what the round takes, by road, by trip and in the day.

use model::quantity::{InMass, InTime, InVolume};
use model::total::{DayTotals, Totals};
use schemars::JsonSchema;
use serde::Serialize;

use super::figures::{FigureJson, SiteCountJson, figure, site_count};

/// What the round takes. The spread is that of the sum: holes of one road grow alike, others less so.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DayTotals")]
pub struct DayTotalsJson {
    /// The whole day; null when nothing is done.
    day: Option<TotalsJson>,
    /// Each trip, in order.
    trips: Vec<TotalsJson>,
    /// Each road, in the order of the round.
    roads: Vec<RoadTotalsJson>,
}

/// Sums of one road.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "RoadTotals")]
struct RoadTotalsJson {
    road: String,
    totals: TotalsJson,
}

/// Sums over several cuts.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Totals")]
struct TotalsJson {
    /// Cuts summed.
    cuts: usize,
    /// Loose base.
    base_volume_m3: FigureJson,
    /// That base as it comes from the stock.
    base_mass_kg: FigureJson,
    /// Water to add.
    water_volume_l: FigureJson,
    /// Binder at spraying temperature.
    binder_volume_hot_l: FigureJson,
    /// Cover stone, loose.
    cover_volume_m3: FigureJson,
    /// Cover stone.
    cover_mass_kg: FigureJson,
    /// Loose spoil.
    spoil_volume_m3: FigureJson,
    /// Spoil.
    spoil_mass_kg: FigureJson,
    /// The materials as the crew counts them.
    site_counts: Vec<SiteCountJson>,
    /// Work at the holes, traffic control not included.
    duration_s: FigureJson,
}

impl From<&DayTotals> for DayTotalsJson {
    fn from(totals: &DayTotals) -> Self {
        DayTotalsJson {
            day: totals.day.as_ref().map(TotalsJson::from),
            trips: totals.trips.iter().map(TotalsJson::from).collect(),
            roads: totals
                .roads
                .iter()
                .map(|road| RoadTotalsJson { road: road.road.clone(), totals: TotalsJson::from(&road.totals) })
                .collect(),
        }
    }
}

impl From<&Totals> for TotalsJson {
    fn from(totals: &Totals) -> Self {
        TotalsJson {
            cuts: totals.cuts,
            base_volume_m3: figure(&totals.base_volume, InVolume::in_cubic_metres),
            base_mass_kg: figure(&totals.base_mass, InMass::in_kilograms),
            water_volume_l: figure(&totals.water_volume, InVolume::in_litres),
            binder_volume_hot_l: figure(&totals.binder_volume, InVolume::in_litres),
            cover_volume_m3: figure(&totals.cover_volume, InVolume::in_cubic_metres),
            cover_mass_kg: figure(&totals.cover_mass, InMass::in_kilograms),
            spoil_volume_m3: figure(&totals.spoil_volume, InVolume::in_cubic_metres),
            spoil_mass_kg: figure(&totals.spoil_mass, InMass::in_kilograms),
            site_counts: totals.site_counts.iter().map(site_count).collect(),
            duration_s: figure(&totals.duration, InTime::in_seconds),
        }
    }
}
