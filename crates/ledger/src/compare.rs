//! Planned against actual.

use std::collections::{BTreeMap, HashMap};

use jiff::civil::Date;
use model::record::stock::{StockKind, StockPlace};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Serialize;
use uuid::Uuid;

use crate::amount;
use crate::cost::month;
use crate::facts::{Facts, Repair};
use crate::posting::Posted;
use crate::settings::Settings;

/// Planned against actual, by repair and added up.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct PlannedAgainstActual {
    /// Each repair of the period.
    pub repairs: Vec<ComparedRepair>,
    /// By road; empty: not known.
    pub roads: Vec<ComparedTotal>,
    /// By crew; empty: not known.
    pub crews: Vec<ComparedTotal>,
    /// By month, as `2031-06`.
    pub months: Vec<ComparedTotal>,
}

/// A repair as planned and as it came.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ComparedRepair {
    /// Which.
    pub repair: Uuid,
    /// The day of its last stage; of one not begun, the day it was planned for.
    #[schemars(with = "String", extend("format" = "date"))]
    pub day: Date,
    /// Its road.
    pub road: String,
    /// The crew that had it last.
    pub crew: String,
    /// Whether it is sealed or open.
    pub done: bool,
    /// What is compared.
    pub quantities: Quantities<Compared>,
}

/// What of several repairs was planned and what it came to, of those of which both are known.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct ComparedTotal {
    /// Of which road, crew or month.
    pub of: String,
    /// Repairs in all.
    pub repairs: usize,
    /// What is compared.
    pub quantities: Quantities<ComparedSum>,
}

/// The quantities that are compared.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, JsonSchema)]
pub struct Quantities<T> {
    /// Area of the cut, square metres.
    pub area_m2: T,
    /// Base, loose cubic metres.
    pub base_loose_m3: T,
    /// Water, litres.
    pub water_l: T,
    /// Binder, litres.
    pub binder_l: T,
    /// Cover stone, loose cubic metres.
    pub cover_stone_m3: T,
    /// Minutes of the truck with its plant: planned at the zone, booked on the repair.
    pub minutes: T,
}

/// A quantity as planned and as it came.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct Compared {
    /// As planned.
    pub planned: Option<Decimal>,
    /// As it came; absent: nobody said.
    pub actual: Option<Decimal>,
    /// Actual less planned.
    pub difference: Option<Decimal>,
    /// Actual over planned, to four decimals.
    pub ratio: Option<Decimal>,
}

/// A quantity of several repairs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct ComparedSum {
    /// Repairs of which both are known.
    pub repairs: usize,
    /// Sums over these.
    pub compared: Compared,
}

/// Compares the repairs of the period.
pub fn compare(facts: &Facts<'_>, posted: &Posted, settings: &Settings) -> PlannedAgainstActual {
    let materials = materials(posted);
    let within = settings.period.from..=settings.period.to;
    let repairs: Vec<ComparedRepair> = facts
        .repairs
        .iter()
        .filter_map(|(number, repair)| compare_repair(*number, repair, facts, &materials, settings))
        .filter(|compared| within.contains(&compared.day))
        .collect();
    PlannedAgainstActual {
        roads: totals(&repairs, |repair| repair.road.clone()),
        crews: totals(&repairs, |repair| repair.crew.clone()),
        months: totals(&repairs, |repair| month(repair.day)),
        repairs,
    }
}

/// What is in each repair by the books.
fn materials(posted: &Posted) -> HashMap<(Uuid, StockKind), Decimal> {
    let mut materials = HashMap::new();
    for (place, item, row) in &posted.rows {
        if let StockPlace::Repair { repair } = **place {
            *materials.entry((repair, item.what)).or_default() += row.account.quantity();
        }
    }
    materials
}

fn compare_repair(
    number: Uuid,
    repair: &Repair<'_>,
    facts: &Facts<'_>,
    materials: &HashMap<(Uuid, StockKind), Decimal>,
    settings: &Settings,
) -> Option<ComparedRepair> {
    let round = repair.planned.and_then(|(round, _)| facts.rounds.get(&round));
    let day = repair.last_stage.map(|at| settings.day(at)).or(round.map(|round| round.date))?;
    let planned = repair.planned.map(|(_, planned)| planned);
    let of = |planned: Option<Decimal>, kind: StockKind| {
        let planned = planned.and_then(|amount| amount::counted(amount).ok());
        Compared::of(planned, materials.get(&(number, kind)).copied())
    };
    let minutes = planned.and_then(|planned| amount::counted(planned.minutes).ok());
    let quantities = Quantities {
        area_m2: Compared::of(planned.and_then(|planned| amount::area(planned.area_m2)), repair.area_m2),
        base_loose_m3: of(planned.map(|planned| planned.base_loose_m3), StockKind::Base),
        water_l: of(planned.map(|planned| planned.water_l), StockKind::Water),
        binder_l: of(planned.map(|planned| planned.binder_l), StockKind::Binder),
        cover_stone_m3: of(planned.map(|planned| planned.cover_stone_m3), StockKind::CoverStone),
        minutes: Compared::of(minutes, repair.plant_min),
    };
    let (road, crew) = (facts.road_of(number).to_owned(), facts.crew_of(number).unwrap_or("").to_owned());
    Some(ComparedRepair { repair: number, day, road, crew, done: repair.done, quantities })
}

fn totals(repairs: &[ComparedRepair], of: impl Fn(&ComparedRepair) -> String) -> Vec<ComparedTotal> {
    let mut groups: BTreeMap<String, Vec<&ComparedRepair>> = BTreeMap::new();
    for repair in repairs {
        groups.entry(of(repair)).or_default().push(repair);
    }
    let total = |(of, repairs): (String, Vec<&ComparedRepair>)| {
        let sum = |pick: fn(&Quantities<Compared>) -> Compared| {
            ComparedSum::of(repairs.iter().map(|repair| pick(&repair.quantities)))
        };
        let quantities = Quantities {
            area_m2: sum(|all| all.area_m2),
            base_loose_m3: sum(|all| all.base_loose_m3),
            water_l: sum(|all| all.water_l),
            binder_l: sum(|all| all.binder_l),
            cover_stone_m3: sum(|all| all.cover_stone_m3),
            minutes: sum(|all| all.minutes),
        };
        ComparedTotal { of, repairs: repairs.len(), quantities }
    };
    groups.into_iter().map(total).collect()
}

impl Compared {
    /// Compares what is known of both.
    pub fn of(planned: Option<Decimal>, actual: Option<Decimal>) -> Self {
        let (planned, actual) = (planned.map(|amount| amount.normalize()), actual.map(|amount| amount.normalize()));
        let both = planned.zip(actual);
        let ratio =
            both.filter(|(planned, _)| !planned.is_zero()).map(|(planned, actual)| (actual / planned).round_dp(4));
        Self {
            planned,
            actual,
            difference: both.map(|(planned, actual)| (actual - planned).normalize()),
            ratio: ratio.map(|ratio| ratio.normalize()),
        }
    }
}

impl ComparedSum {
    fn of(all: impl Iterator<Item = Compared>) -> Self {
        let both: Vec<(Decimal, Decimal)> = all.filter_map(|compared| compared.planned.zip(compared.actual)).collect();
        let planned = both.iter().map(|(planned, _)| planned).sum();
        let actual = both.iter().map(|(_, actual)| actual).sum();
        let some = |sum: Decimal| (!both.is_empty()).then_some(sum);
        Self { repairs: both.len(), compared: Compared::of(some(planned), some(actual)) }
    }
}

impl<T> Quantities<T> {
    /// Each with its heading.
    pub fn each(&self) -> [(&'static str, &T); 6] {
        [
            ("area_m2", &self.area_m2),
            ("base_loose_m3", &self.base_loose_m3),
            ("water_l", &self.water_l),
            ("binder_l", &self.binder_l),
            ("cover_stone_m3", &self.cover_stone_m3),
            ("minutes", &self.minutes),
        ]
    }
}
