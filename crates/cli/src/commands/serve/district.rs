//! What the server shows of its district: read once at the start, from the district file in the data folder.

use std::path::Path;
use std::sync::Arc;

use feeds::{Extent, Feature, RoadTiles, road_features};
use jiff::tz::TimeZone;
use ledger::ReorderRule;
use model::district::{District, UnitSystem};
use model::problem::Problem;
use model::record::known::TimePrices;
use model::record::stock::StockKind;
use model::road::RoadNetwork;
use model::rules::matching::MatchingRules;
use rust_decimal::Decimal;
use serde::Deserialize;
use server::{CrewShown, DistrictFile, YardKind, YardShown};

use crate::input;
use crate::progress::Progress;

/// When to order what: `ordering.toml` beside the district file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Ordering {
    /// Each rule.
    rules: Vec<ReorderRule>,
}

/// A district with the rules for reports of it.
pub(crate) struct Shown {
    pub district: server::District,
    pub matching: MatchingRules,
    pub units: UnitSystem,
    /// Its roads; `None` where there is no file.
    pub network: Option<RoadNetwork>,
}

/// Degrees around the roads in which reports are taken: some two kilometres. Common practice, no source.
const AROUND_DEG: f64 = 0.02;

/// Where the district lies: the box around its roads and a little more.
pub(crate) fn district_bounds(district: &server::District) -> Option<[f64; 4]> {
    let around = district.road_extent.bounds?;
    Some([
        around.west - AROUND_DEG,
        (around.south - AROUND_DEG).max(-90.0),
        around.east + AROUND_DEG,
        (around.north + AROUND_DEG).min(90.0),
    ])
}

/// Reads the district of a data folder; without a file, one of which nothing is known.
pub(crate) fn shown(folder: &Path) -> Result<Shown, String> {
    read(folder).map_err(|problems| {
        crate::report::print(&problems);
        "the district can't be read".to_owned()
    })
}

fn read(folder: &Path) -> Result<Shown, Vec<Problem>> {
    let file = folder.join("district.toml");
    if !file.exists() {
        let reports = server::ReportSettings::default();
        let district = server::District::default();
        return Ok(Shown { district, matching: reports.matching, units: reports.units, network: None });
    }
    let setting = input::setting(&file)?;
    let (matching, units) = (setting.rules.matching.clone(), setting.district.units);
    let roads = input::roads(&setting, None, &mut Progress::new())?;
    let features: Vec<Feature> = road_features(&roads.network).collect();
    let district = setting.district;
    let file = of_file(&district);
    let district = server::District {
        name: district.name.clone(),
        middle: Some(district.depot.position),
        road_extent: Extent::of(&features),
        roads: features,
        road_attribution: roads.attribution,
        books: book_settings(&district, folder)?,
        tiles: Some(Arc::new(RoadTiles::new(&roads.network))),
        file: Some(file),
    };
    Ok(Shown { district, matching, units, network: Some(roads.network) })
}

/// What the books of a district need; the period is that of each request.
pub(crate) fn book_settings(district: &District, folder: &Path) -> Result<ledger::Settings, Vec<Problem>> {
    let crews = (0..district.crew_count()).map(|index| district.of_crew(index));
    Ok(ledger::Settings {
        time_zone: TimeZone::get(&district.time_zone).unwrap_or(TimeZone::UTC),
        currency: district.prices.currency.clone(),
        // the price of a crew's hour has truck and plant in it
        prices: TimePrices {
            labour_per_h: money(district.prices.crew_hour / f64::from(district.crew.people.max(1))),
            plant_per_h: Decimal::ZERO,
        },
        usual: [
            (StockKind::Base, district.base.name.clone()),
            (StockKind::CoverStone, district.cover_stone.name.clone()),
            (StockKind::Binder, district.binder.grade.clone()),
        ]
        .into(),
        crew_depots: crews.map(|own| (own.crew.name, own.depot.name)).collect(),
        depot: district.depot.name.clone(),
        reorder_rules: ordering(folder)?,
        ..server::District::default().books
    })
}

/// What the district file says that people are shown.
fn of_file(district: &District) -> DistrictFile {
    let crew = |own: District| CrewShown {
        name: own.crew.name,
        people: own.crew.people,
        shift_start: own.shift.start.strftime("%H:%M").to_string(),
        shift_end: own.shift.end.strftime("%H:%M").to_string(),
        truck: own.truck.name,
        depot: own.depot.name,
    };
    let depots = std::iter::once(&district.depot).chain(&district.further_depots);
    let depots =
        depots.map(|depot| YardShown { name: depot.name.clone(), position: depot.position, kind: YardKind::Depot });
    let supply = district.supply_places.iter().map(|place| YardShown {
        name: place.name.clone(),
        position: place.position,
        kind: if place.gives.is_empty() { YardKind::Tip } else { YardKind::Stockpile },
    });
    DistrictFile {
        language: district.language.clone(),
        units: district.units,
        driving_side: district.driving_side,
        crews: (0..district.crew_count()).map(|index| crew(district.of_crew(index))).collect(),
        yards: depots.chain(supply).collect(),
        binders: vec![district.binder.grade.clone()],
    }
}

fn ordering(folder: &Path) -> Result<Vec<ReorderRule>, Vec<Problem>> {
    let file = folder.join("ordering.toml");
    let Ok(text) = std::fs::read_to_string(&file) else { return Ok(Vec::new()) };
    match toml::from_str::<Ordering>(&text) {
        Ok(ordering) => Ok(ordering.rules),
        Err(error) => Err(vec![super::super::plan::failed(
            &file,
            "ordering.file",
            error.message(),
            "[[rules]] with depot, item = { what, which }, lead_time_days, safety_stock, source",
        )]),
    }
}

/// To the hundredth.
fn money(value: f64) -> Decimal {
    Decimal::try_from(value).unwrap_or_default().round_dp(2)
}
