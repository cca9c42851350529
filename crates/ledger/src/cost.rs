//! What repairs, roads, crews and months cost.

use std::collections::BTreeMap;

use jiff::civil::Date;
use model::record::happened::{Happened, Subject};
use model::record::in_force::InForce;
use model::record::stock::{Money, StockKind};
use rust_decimal::Decimal;
use schemars::JsonSchema;
use serde::Serialize;
use uuid::Uuid;

use crate::amount;
use crate::facts::Facts;
use crate::finding::{Finding, FindingKind};
use crate::settings::Settings;

/// One thing that cost money: what all tables of cost are added up from.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct CostEntry {
    /// Day.
    #[schemars(with = "String", extend("format" = "date"))]
    pub day: Date,
    /// The repair, where it is of one.
    pub repair: Option<Uuid>,
    /// The repair's road; empty where not known.
    pub road: String,
    /// The crew; empty where not known.
    pub crew: String,
    /// What for.
    pub part: CostPart,
    /// How much; below nothing: something was gained or given back.
    pub money: Money,
}

/// What money went for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CostPart {
    /// Time of people.
    Labour,
    /// Time of trucks and plant.
    Plant,
    /// Material in a repair.
    Material(StockKind),
    /// Thrown away, spilt, gone off, lost.
    Wasted,
    /// Missed by count; found is below nothing.
    CountDifference,
    /// By how much stock that was overdrawn cost more when it came than it was taken out at.
    PriceDifference,
}

/// Costs by what they are for. The total is the sum of the others, exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, JsonSchema)]
pub struct CostSums {
    /// Time of people.
    pub labour: Money,
    /// Time of trucks and plant.
    pub plant: Money,
    /// Base in repairs.
    pub base: Money,
    /// Cover stone in repairs.
    pub cover_stone: Money,
    /// Binder in repairs.
    pub binder: Money,
    /// Water in repairs.
    pub water: Money,
    /// Whatever else went into repairs.
    pub other_material: Money,
    /// Thrown away, spilt, gone off, lost.
    pub wasted: Money,
    /// Missed by count, less what was found.
    pub count_difference: Money,
    /// By how much stock that was overdrawn cost more when it came than it was taken out at.
    pub price_difference: Money,
    /// All.
    pub total: Money,
}

/// Costs of one repair, road, crew or month.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Costs<K> {
    /// Of which.
    pub of: K,
    /// How much.
    pub costs: CostSums,
}

/// The costs of a period, added up in four ways that each come to the same total.
#[derive(Debug, Clone, PartialEq, Default, Serialize, JsonSchema)]
pub struct CostBook {
    /// By repair; absent: of no single repair.
    pub repairs: Vec<Costs<Option<Uuid>>>,
    /// By road; empty: not known, or of no road.
    pub roads: Vec<Costs<String>>,
    /// By crew; empty: not known, or of no crew.
    pub crews: Vec<Costs<String>>,
    /// By month, as `2031-06`.
    pub months: Vec<Costs<String>>,
    /// All.
    pub total: CostSums,
}

impl CostBook {
    /// Adds entries up.
    pub fn of(entries: &[CostEntry]) -> Self {
        let mut total = CostSums::default();
        for entry in entries {
            total.add(entry);
        }
        total = total.plain();
        Self {
            repairs: by(entries, |entry| entry.repair),
            roads: by(entries, |entry| entry.road.clone()),
            crews: by(entries, |entry| entry.crew.clone()),
            months: by(entries, |entry| month(entry.day)),
            total,
        }
    }
}

impl CostSums {
    /// Adds an entry to its part and to the total.
    pub fn add(&mut self, entry: &CostEntry) {
        let part = match entry.part {
            CostPart::Labour => &mut self.labour,
            CostPart::Plant => &mut self.plant,
            CostPart::Material(StockKind::Base) => &mut self.base,
            CostPart::Material(StockKind::CoverStone) => &mut self.cover_stone,
            CostPart::Material(StockKind::Binder) => &mut self.binder,
            CostPart::Material(StockKind::Water) => &mut self.water,
            CostPart::Material(_) => &mut self.other_material,
            CostPart::Wasted => &mut self.wasted,
            CostPart::CountDifference => &mut self.count_difference,
            CostPart::PriceDifference => &mut self.price_difference,
        };
        *part += entry.money;
        self.total += entry.money;
    }

    /// Without noughts that say nothing: the same numbers are always written the same.
    fn plain(self) -> Self {
        Self {
            labour: self.labour.normalize(),
            plant: self.plant.normalize(),
            base: self.base.normalize(),
            cover_stone: self.cover_stone.normalize(),
            binder: self.binder.normalize(),
            water: self.water.normalize(),
            other_material: self.other_material.normalize(),
            wasted: self.wasted.normalize(),
            count_difference: self.count_difference.normalize(),
            price_difference: self.price_difference.normalize(),
            total: self.total.normalize(),
        }
    }

    /// Its parts with their headings, without the total.
    pub fn parts(&self) -> [(&'static str, Money); 10] {
        [
            ("labour", self.labour),
            ("plant", self.plant),
            ("base", self.base),
            ("cover_stone", self.cover_stone),
            ("binder", self.binder),
            ("water", self.water),
            ("other_material", self.other_material),
            ("wasted", self.wasted),
            ("count_difference", self.count_difference),
            ("price_difference", self.price_difference),
        ]
    }
}

/// A month as it stands in tables.
pub fn month(day: Date) -> String {
    format!("{:04}-{:02}", day.year(), day.month())
}

/// What time cost in the period. Time booked on a round, a zone or a hole is shared among its repairs that were begun, as the
/// minutes planned for them; where none is planned, evenly; where none was begun, it is of no repair.
pub fn of_time(events: &[InForce<'_>], facts: &Facts<'_>, settings: &Settings) -> (Vec<CostEntry>, Vec<Finding>) {
    let (from, _) = settings.bounds();
    let (mut entries, mut findings) = (Vec::new(), Vec::new());
    for stands in events {
        let Happened::TimeBooked { on, crew, labour_min, plant_min } = stands.happened else { continue };
        let at = stands.event.happened_at();
        if at < from {
            continue;
        }
        let day = settings.day(at);
        let prices = &settings.prices;
        let booked = [
            (CostPart::Labour, *labour_min, prices.labour_per_h, "people"),
            (CostPart::Plant, *plant_min, prices.plant_per_h, "plant"),
        ];
        let shares = shares(*on, facts);
        for (part, minutes, price, of) in booked {
            match amount::counted(minutes) {
                Ok(minutes) => {
                    let money = amount::of_time(minutes, price);
                    entries.extend(shared(money, &shares, facts, crew, day, part, *on));
                }
                Err(why) => findings.push(Finding {
                    kind: FindingKind::NotCounted,
                    place: None,
                    item: None,
                    event: Some(stands.event.id),
                    day,
                    amount: Some(minutes),
                    words: format!("{minutes} minutes of {of} booked by {crew}: {why}; not counted"),
                }),
            }
        }
    }
    (entries, findings)
}

/// The repairs that time on something is shared among, with the weight of each.
fn shares(on: Subject, facts: &Facts<'_>) -> Vec<(Uuid, Decimal)> {
    let repairs = facts.repairs_begun(on);
    let planned = |repair: &Uuid| {
        let (_, planned) = facts.repairs.get(repair)?.planned?;
        amount::counted(planned.minutes).ok()
    };
    let weights: Vec<Decimal> = repairs.iter().map(|repair| planned(repair).unwrap_or_default()).collect();
    let none_planned = weights.iter().all(Decimal::is_zero);
    let weights = weights.into_iter().map(|weight| if none_planned { Decimal::ONE } else { weight });
    repairs.into_iter().zip(weights).collect()
}

fn shared<'a>(
    money: Money,
    shares: &'a [(Uuid, Decimal)],
    facts: &'a Facts<'_>,
    crew: &'a str,
    day: Date,
    part: CostPart,
    on: Subject,
) -> impl Iterator<Item = CostEntry> + 'a {
    let crew_of_round = match on {
        Subject::Round(round) => facts.rounds.get(&round).map_or("", |round| round.crew),
        _ => "",
    };
    let entry = move |repair: Option<Uuid>, money: Money| {
        let of_repair = repair.and_then(|repair| facts.crew_of(repair)).unwrap_or(crew_of_round);
        let crew = if crew.is_empty() { of_repair } else { crew }.to_owned();
        let road = repair.map_or("", |repair| facts.road_of(repair)).to_owned();
        CostEntry { day, repair, road, crew, part, money: money.normalize() }
    };
    let weights: Vec<Decimal> = shares.iter().map(|(_, weight)| *weight).collect();
    let of_none = shares.is_empty().then_some((None, money));
    let of_repairs =
        shares.iter().zip(amount::divide(money, &weights)).map(|((repair, _), money)| (Some(*repair), money));
    of_repairs.chain(of_none).filter(|(_, money)| !money.is_zero()).map(move |(repair, money)| entry(repair, money))
}

fn by<K: Ord>(entries: &[CostEntry], key: impl Fn(&CostEntry) -> K) -> Vec<Costs<K>> {
    let mut sums: BTreeMap<K, CostSums> = BTreeMap::new();
    for entry in entries {
        sums.entry(key(entry)).or_default().add(entry);
    }
    sums.into_iter().map(|(of, costs)| Costs { of, costs: costs.plain() }).collect()
}
