//! Two invented years of the invented district: what two crews, a patrol and a storekeeper would have told. Same seed, same events.
//!
//! Nothing here happened. Rates of holes, lives of repairs and amounts are made up so that a report has something to tell: a few
//! roads that are past patching, two of which get a new surface, wet places where repairs last badly, one crew that seals on wet
//! surfaces more often than the other, cold and rainy days, a second kind of base.

use std::collections::VecDeque;
use std::fs;

use jiff::Timestamp;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use serde_json::{Value, json};

use crate::in_repository;

const SEED: u64 = 20_260_701;
/// Midnight of 1 July 2024, universal time.
const BEGIN_S: i64 = 1_719_792_000;
const DAYS: i64 = 730;
const DEPOT: &str = "Tern Yard";
const CREWS: [&str; 2] = ["Crew Fulmar", "Crew Petrel"];
const DEGREE_M: f64 = 111_200.0;
/// Roads that get far more holes than the rest, by their place among the surface-treated ones.
const WORN: [(usize, f64); 9] =
    [(3, 9.0), (8, 14.0), (11, 6.0), (17, 20.0), (24, 11.0), (30, 7.0), (38, 16.0), (45, 5.0), (52, 12.0)];
/// Worn roads that get a new surface where they are worn: road, day, what is done, part of the new holes that is left.
const RESURFACED: [(usize, i64, &str, f64); 2] = [(17, 440, "reseal", 0.35), (38, 500, "new_base_and_seal", 0.05)];
/// From when on the second crew loads another base.
const GRAVEL_FROM_DAY: i64 = 360;
/// New holes of a kilometre of road in a year, elsewhere.
const HOLES_A_KM_YEAR: f64 = 0.25;

/// The events, as they are written; the same every time.
///
/// # Panics
///
/// Where the invented district's roads can't be read.
pub fn invented_record() -> Vec<Value> {
    let text = fs::read_to_string(in_repository("demo/roads.geojson")).unwrap();
    let file: Value = serde_json::from_str(&text).unwrap();
    let features = file["features"].as_array().unwrap();
    let kept_up = features.iter().filter(|feature| feature["properties"]["surface"] == "chipseal");
    let roads: Vec<Road> = kept_up.enumerate().map(|(at, feature)| Road::of(at, feature)).collect();
    let days = weather(&mut Pcg64Mcg::seed_from_u64(SEED + 1));
    let mut story = Story { chance: Pcg64Mcg::seed_from_u64(SEED), events: Vec::new(), numbers: 0, roads, days };
    story.tell();
    story.events.sort_by(|a, b| {
        (a["device_time"].as_str(), a["id"].as_str()).cmp(&(b["device_time"].as_str(), b["id"].as_str()))
    });
    story.events
}

/// A day's weather, as a crew tells it.
#[derive(Clone, Copy)]
struct Day {
    air_c: f64,
    word: &'static str,
}

/// Weather of all days: warm in July, cold in January, with more rain then.
fn weather(chance: &mut Pcg64Mcg) -> Vec<Day> {
    let of_day = |day: i64| {
        let turn = std::f64::consts::TAU * (day - 20) as f64 / 365.25;
        let air_c = (15.0 + 8.0 * turn.cos() + chance.random_range(-5.0..5.0)).round();
        let rain = if turn.cos() < 0.0 { 0.3 } else { 0.12 };
        let word = match chance.random::<f64>() {
            _ if air_c < 4.0 => "frost",
            draw if draw < rain => "rain_within_a_day",
            draw if draw < rain + 0.15 => "damp",
            _ => "dry",
        };
        Day { air_c, word }
    };
    (0..DAYS).map(of_day).collect()
}

struct Road {
    name: String,
    points: Vec<(f64, f64)>,
    length_m: f64,
    holes_a_year: f64,
    wet: bool,
    worn: bool,
    drainage: &'static str,
}

impl Road {
    fn of(at: usize, feature: &Value) -> Self {
        let word = |key: &str| feature["properties"][key].as_str().unwrap_or_default().to_owned();
        let (number, name) = (word("ref"), word("name"));
        let name = if number.is_empty() { name } else { format!("{number} {name}") };
        let points: Vec<(f64, f64)> = feature["geometry"]["coordinates"]
            .as_array()
            .unwrap()
            .iter()
            .map(|point| (point[0].as_f64().unwrap(), point[1].as_f64().unwrap()))
            .collect();
        let length_m: f64 = points.windows(2).map(|pair| apart_m(pair[0], pair[1])).sum();
        let worn = WORN.iter().find(|(road, _)| *road == at).map(|(_, holes)| *holes);
        let holes_a_year = worn.unwrap_or(HOLES_A_KM_YEAR * length_m / 1000.0);
        let wet = worn.is_some() && at.is_multiple_of(2) || at.is_multiple_of(5);
        let drainage = match (wet, at % 3) {
            (true, 0) => "ditch_blocked",
            (true, 1) => "high_verge",
            (true, _) => "no_drainage",
            (false, _) if at.is_multiple_of(7) => "kerb_and_gully",
            (false, _) => "ditch_works",
        };
        Road { name, points, length_m, holes_a_year, wet, worn: worn.is_some(), drainage }
    }

    /// Where a worn road is worn, m along it.
    fn worn_m(&self) -> (f64, f64) {
        let from = 0.4 * self.length_m;
        (from, from + 300.0_f64.min(0.5 * self.length_m))
    }

    /// The place so far along, and so far to the right of the line.
    fn at(&self, along_m: f64, right_m: f64) -> (f64, f64) {
        let mut left = along_m;
        for pair in self.points.windows(2) {
            let (a, b) = (pair[0], pair[1]);
            let length = apart_m(a, b);
            if left <= length && length > 0.0 {
                let part = left / length;
                let shrink = a.1.to_radians().cos();
                let (east, north) = ((b.0 - a.0) * shrink / length, (b.1 - a.1) / length);
                return (
                    a.0 + (b.0 - a.0) * part + right_m * north / shrink,
                    a.1 + (b.1 - a.1) * part - right_m * east,
                );
            }
            left -= length;
        }
        self.points[self.points.len() - 1]
    }
}

#[derive(Clone)]
struct Hole {
    number: String,
    road: usize,
    along_m: f64,
    right_m: f64,
    size_mm: [f64; 3],
    wet: bool,
    told_s: i64,
}

struct Story {
    chance: Pcg64Mcg,
    events: Vec<Value>,
    numbers: u64,
    roads: Vec<Road>,
    days: Vec<Day>,
}

impl Story {
    fn tell(&mut self) {
        let mut to_come: Vec<Hole> = Vec::new();
        for road in 0..self.roads.len() {
            for month in 0..24 {
                // more holes while it is wet, November to March
                let season = if [4, 5, 6, 7, 8].contains(&(month % 12)) { 1.6 } else { 0.6 };
                let expected = self.roads[road].holes_a_year / 12.0 * season;
                for _ in 0..self.poisson(expected) {
                    let day = month * 30 + self.chance.random_range(0..30);
                    let second = self.chance.random_range(25_000..60_000);
                    let hole = self.new_hole(road, None, BEGIN_S + day * 86_400 + second);
                    to_come.push(hole);
                }
            }
        }
        to_come.sort_by_key(|hole| hole.told_s);
        let mut to_come = VecDeque::from(to_come);
        let mut waiting: Vec<Hole> = Vec::new();
        for day in 0..DAYS {
            let midnight = BEGIN_S + day * 86_400;
            while to_come.front().is_some_and(|hole| hole.told_s < midnight + 86_400) {
                let hole = to_come.pop_front().unwrap();
                self.report(&hole);
                waiting.push(hole);
            }
            for (road, _, work, left) in RESURFACED.into_iter().filter(|(_, on, ..)| *on == day) {
                let (gone, stay) = waiting.drain(..).partition(|hole| self.is_under(road, hole));
                waiting = stay;
                self.resurface(road, midnight, work, &gone);
                to_come.retain(|hole| !self.is_under(road, hole) || self.chance.random::<f64>() < left);
            }
            if day % 30 == 0 {
                self.deliveries(midnight + 7 * 3600);
            }
            // Fulmar is out on Tuesdays and Thursdays, Petrel on Wednesdays; the first day is a Monday
            let crew = match day % 7 {
                1 | 3 => 0,
                2 => 1,
                _ => continue,
            };
            let most = if crew == 0 { 2 } else { 1 };
            let ready = waiting.iter().take_while(|hole| hole.told_s < midnight - 3 * 86_400).count().min(most);
            let of_round: Vec<Hole> = waiting.drain(..ready).collect();
            for hole in self.round(crew, midnight, &of_round) {
                let at = to_come.partition_point(|other| other.told_s <= hole.told_s);
                to_come.insert(at, hole);
            }
        }
    }

    /// Whether a hole lies where its road gets a new surface.
    fn is_under(&self, road: usize, hole: &Hole) -> bool {
        let (from, to) = self.roads[road].worn_m();
        hole.road == road && (from - 10.0..=to + 10.0).contains(&hole.along_m)
    }

    /// A contractor gives a road a new surface where it is worn; the office tells it, and which holes are gone.
    fn resurface(&mut self, road: usize, midnight: i64, work: &str, gone: &[Hole]) {
        let (from, to) = self.roads[road].worn_m();
        let [from, to] = [from - 15.0, to + 15.0].map(|along| {
            let (lon, lat) = self.roads[road].at(along, 0.0);
            json!({"lon": lon, "lat": lat})
        });
        let (name, number) = (self.roads[road].name.clone(), self.number(midnight));
        let holes: Vec<&String> = gone.iter().map(|hole| &hole.number).collect();
        self.event(midnight + 17 * 3600, "office", json!({"kind": "road_resurfaced", "resurfacing": number, "date": day_of(midnight), "from": from, "to": to, "road": name, "work": work, "holes": holes, "note": "by the contractor"}));
    }

    fn new_hole(&mut self, road: usize, at: Option<(f64, f64)>, told_s: i64) -> Hole {
        let length = self.roads[road].length_m;
        let side = if self.chance.random::<f64>() < 0.5 { 1.0 } else { -1.0 };
        // worn roads are worn in one place
        let worn = self.roads[road].worn && self.chance.random::<f64>() < 0.8;
        let along = if worn {
            let (from, to) = self.roads[road].worn_m();
            self.chance.random_range(from..to)
        } else {
            self.chance.random_range(0.02..0.98) * length
        };
        let new = (along, side * self.chance.random_range(0.8..2.4));
        let (along_m, right_m) = at.unwrap_or(new);
        let round = |mm: f64| (mm / 10.0).round() * 10.0;
        let size_mm = [
            round(250.0 + 900.0 * self.chance.random::<f64>().powi(2)),
            round(200.0 + 600.0 * self.chance.random::<f64>().powi(2)),
            round(40.0 + 110.0 * self.chance.random::<f64>()),
        ];
        let wet = self.chance.random::<f64>() < if self.roads[road].wet { 0.7 } else { 0.15 };
        Hole { number: self.number(told_s), road, along_m, right_m, size_mm, wet, told_s }
    }

    fn report(&mut self, hole: &Hole) {
        let (lon, lat) = self.roads[hole.road].at(hole.along_m, hole.right_m);
        let [length, width, depth] = hole.size_mm;
        let public = self.chance.random::<f64>() < 0.3;
        let size = if public {
            json!({})
        } else {
            json!({"length_mm": length, "width_mm": width, "depth_mm": depth, "wetness": if hole.wet { "wet" } else { "dry" }})
        };
        let source = if public { "public" } else { "patrol" };
        let happened = json!({"kind": "hole_reported", "hole": hole.number, "position": {"lon": lon, "lat": lat}, "size": size, "source": source});
        self.event(hole.told_s, source, happened);
        if public && self.chance.random::<f64>() < 0.85 {
            let size = json!({"length_mm": length, "width_mm": width, "depth_mm": depth, "wetness": if hole.wet { "wet" } else { "dry" }});
            self.event(
                hole.told_s + 86_400,
                "patrol",
                json!({"kind": "hole_measured", "hole": hole.number, "size": size}),
            );
        }
    }

    /// A crew's day; gives the holes that come where its repairs fail.
    fn round(&mut self, crew: usize, midnight: i64, holes: &[Hole]) -> Vec<Hole> {
        if holes.is_empty() {
            return Vec::new();
        }
        let name = CREWS[crew];
        let day = midnight + 9 * 3600;
        let round = self.number(midnight);
        let repairs: Vec<Repair> = holes.iter().map(|hole| self.repair_of(hole, midnight)).collect();
        let planned: Vec<Value> =
            repairs.iter().zip(holes).map(|(repair, hole)| repair.planned(hole, &self.roads)).collect();
        let date = day_of(midnight);
        self.event(
            day - 20 * 3600,
            "office",
            json!({"kind": "round_planned", "round": round, "date": date, "crew": name, "repairs": planned}),
        );
        let extra = if crew == 0 { 1.08 } else { 1.22 };
        let mut failing = Vec::new();
        for (at, (repair, hole)) in (0_i64..).zip(repairs.iter().zip(holes)) {
            let base = three(repair.base_m3 * extra * self.chance.random_range(0.9..1.15));
            let binder = one(repair.binder_l * self.chance.random_range(0.95..1.2));
            let stone = three(repair.stone_m3 * self.chance.random_range(0.9..1.2));
            let start = day + at * 9_000;
            let kind = if loads_gravel(crew, midnight) { "gravel" } else { "base" };
            self.load(name, start - 1_800, [(kind, base), ("binder", binder), ("cover_stone", stone)]);
            self.draw_water(name, start - 1_800, base);
            failing.extend(self.mend(crew, start, &round, repair, hole, [base, binder, stone]));
            let minutes = repair.minutes * self.chance.random_range(0.9..1.35);
            self.book(crew, start + 4_200, json!({"repair": repair.number}), minutes);
        }
        // loading, driving, tipping
        let minutes = 60.0 + 25.0 * holes.len() as f64;
        self.book(crew, day + 7 * 3600, json!({"round": round}), minutes);
        failing
    }

    #[expect(clippy::needless_pass_by_value, reason = "made where it is told")]
    fn book(&mut self, crew: usize, at: i64, on: Value, minutes: f64) {
        let (name, people) = (CREWS[crew], if crew == 0 { 5.0 } else { 4.0 });
        let (labour, plant) = (text(one(minutes * people)), text(one(minutes)));
        self.event(
            at,
            name,
            json!({"kind": "time_booked", "on": on, "crew": name, "labour_min": labour, "plant_min": plant}),
        );
    }

    fn repair_of(&mut self, hole: &Hole, midnight: i64) -> Repair {
        let [length, width, depth] = hole.size_mm.map(|mm| mm / 1000.0);
        let area = (length + 0.3) * (width + 0.3);
        let deep = depth + if hole.wet { 0.1 } else { 0.04 };
        Repair {
            number: self.number(midnight),
            area_m2: three(area),
            depth_m: deep,
            base_m3: three(area * deep * 1.35),
            binder_l: one(area * 2.1),
            stone_m3: three(area * 0.012),
            minutes: one(18.0 + 14.0 * area + 60.0 * deep),
        }
    }

    fn mend(
        &mut self,
        crew: usize,
        start: i64,
        round: &str,
        repair: &Repair,
        hole: &Hole,
        [base, binder, stone]: [f64; 3],
    ) -> Option<Hole> {
        let (name, number) = (CREWS[crew], &repair.number);
        let (lon, lat) = self.roads[hole.road].at(hole.along_m, hole.right_m);
        let road = self.roads[hole.road].name.clone();
        let zone = self.number(start);
        self.event(start, name, json!({"kind": "zone_opened", "zone": zone, "round": round, "holes": [hole.number], "position": {"lon": lon, "lat": lat}, "road": road, "devices_out": 14}));
        let depth_mm = (repair.depth_m * 1000.0).round();
        let wet_below = hole.wet;
        self.event(start + 600, name, json!({"kind": "hole_cut", "repair": number, "holes": [hole.number], "zone": zone, "area_m2": repair.area_m2, "depths_mm": [depth_mm], "bottom_firm": true, "sides_upright": true, "wetness": if wet_below { "wet" } else { "dry" }, "drainage": self.roads[hole.road].drainage}));
        let layers = if repair.depth_m > 0.15 { 2 } else { 1 };
        let gravel = loads_gravel(crew, start);
        let named = item(if gravel { "gravel" } else { "base" })["which"].clone();
        let oozes = wet_below && self.chance.random::<f64>() < 0.35;
        for layer in 1..=layers {
            let moisture = if oozes && layer == 1 { "oozes" } else { "keeps_shape" };
            let part = three(base / f64::from(layers));
            self.event(start + 1_200 + 300 * i64::from(layer), name, json!({"kind": "layer_placed", "repair": number, "layer": layer, "thickness_mm": (depth_mm / f64::from(layers)).round(), "base_loose_m3": text(part), "base": named, "water_l": text(one(part * 40.0)), "moisture": moisture, "passes_still": 2, "passes_vibrating": if crew == 0 { 8 } else { 6 }}));
        }
        let dry = self.chance.random::<f64>() > if crew == 0 { 0.06 } else { 0.25 };
        let Day { air_c, word } = self.days[((start - BEGIN_S) / 86_400) as usize];
        let mut sealed = json!({"kind": "sealed", "repair": number, "binder_l": text(binder), "binder": "CRS-2", "cover_stone_m3": text(stone), "area_m2": repair.area_m2, "dry": dry});
        // not every day does somebody tell it
        if self.chance.random::<f64>() < 0.85 {
            sealed["weather"] = json!(word);
            sealed["air_temperature_c"] = json!(air_c);
        }
        self.event(start + 2_700, name, sealed);
        self.event(start + 3_300, name, json!({"kind": "opened_to_traffic", "repair": number}));
        self.event(start + 3_900, name, json!({"kind": "zone_closed", "zone": zone, "devices_in": 14}));
        let mut years = 14.0;
        let (cold, rain) = (air_c < 10.0, word == "rain_within_a_day");
        for (so, part) in [(wet_below, 0.35), (!dry, 0.4), (oozes, 0.7), (cold, 0.6), (rain, 0.6), (gravel, 0.8)] {
            if so {
                years *= part;
            }
        }
        // Weibull with shape 1.3
        let life_s = (years * 365.25 * 86_400.0 * (-(1.0 - self.chance.random::<f64>()).ln()).powf(1.0 / 1.3)) as i64;
        self.afterwards(start + 3_300, life_s, repair, hole)
    }

    /// Looks, and the failure: told at a look, told with the new hole, or only seen as a new hole.
    fn afterwards(&mut self, opened: i64, life_s: i64, repair: &Repair, hole: &Hole) -> Option<Hole> {
        // under a new surface nobody sees it fail
        let under =
            RESURFACED.iter().find(|(road, ..)| self.is_under(*road, hole)).map(|(_, day, ..)| BEGIN_S + day * 86_400);
        let last = under.filter(|at| opened < *at).unwrap_or(BEGIN_S + DAYS * 86_400);
        for look_day in [30, 180, 365] {
            let at = opened + look_day * 86_400 + 10_000;
            if at >= last || self.chance.random::<f64>() < 0.5 {
                continue;
            }
            if at > opened + life_s {
                self.event(at, "inspector", json!({"kind": "inspected", "repair": repair.number, "found": "failed"}));
                return Some(self.new_hole(hole.road, Some((hole.along_m + 0.4, hole.right_m)), at + 600));
            }
            let worn = at > opened + life_s * 3 / 4;
            self.event(
                at,
                "inspector",
                json!({"kind": "inspected", "repair": repair.number, "found": if worn { "worn" } else { "holds" }}),
            );
        }
        let seen = opened + life_s + 5 * 86_400;
        if seen >= last {
            return None;
        }
        let along = (hole.along_m + self.chance.random_range(-1.5..1.5)).max(0.5);
        let new = self.new_hole(hole.road, Some((along, hole.right_m)), seen);
        if self.chance.random::<f64>() < 0.5 {
            let told = json!({"kind": "failed", "repair": repair.number, "hole": new.number, "how": "base pumped out"});
            self.event(seen + 3_600, "patrol", told);
        }
        Some(new)
    }

    fn load(&mut self, crew: &str, at: i64, amounts: [(&str, f64); 3]) {
        for (what, amount) in amounts {
            let (from, to) = (json!({"at": "depot", "name": DEPOT}), json!({"at": "truck", "crew": crew}));
            self.event(
                at,
                "storekeeper",
                json!({"kind": "stock_moved", "from": from, "to": to, "item": item(what), "amount": text(amount)}),
            );
        }
    }

    /// Water is drawn in the yard before each repair.
    fn draw_water(&mut self, crew: &str, at: i64, base_m3: f64) {
        let (from, to) =
            (json!({"at": "supplier", "name": "hydrant in the yard"}), json!({"at": "truck", "crew": crew}));
        let item = json!({"what": "water"});
        self.event(at, "storekeeper", json!({"kind": "stock_moved", "from": from, "to": to, "item": item, "amount": text(one(base_m3 * 40.0) + 1.0)}));
    }

    fn deliveries(&mut self, at: i64) {
        let month = (at - BEGIN_S) / (30 * 86_400);
        // the first delivery is larger, and prices rise a little
        let rise = 1.0 + 0.004 * month as f64;
        let goods = [("base", 3.2, 42.0), ("binder", 32.0, 1.9), ("cover_stone", 0.18, 58.0), ("gravel", 1.2, 29.0)];
        let gravel = month >= GRAVEL_FROM_DAY / 30;
        for (what, amount, price) in goods.into_iter().filter(|(what, ..)| gravel || *what != "gravel") {
            let amount = if gravel && what == "base" { amount - 1.2 } else { amount };
            let amount = if month == 0 { amount * 2.0 } else { amount };
            let price = (price * rise * 100.0).round() / 100.0;
            let (from, to) =
                (json!({"at": "supplier", "name": "Gannet pit and stores"}), json!({"at": "depot", "name": DEPOT}));
            self.event(at, "storekeeper", json!({"kind": "stock_moved", "from": from, "to": to, "item": item(what), "amount": text(amount), "unit_price": text(price)}));
        }
    }

    #[expect(clippy::needless_pass_by_value, reason = "made where it is told")]
    fn event(&mut self, at_s: i64, by: &str, happened: Value) {
        if at_s >= BEGIN_S + DAYS * 86_400 {
            return;
        }
        let id = self.number(at_s);
        let actor = by.to_lowercase().replace(' ', "-");
        let time = Timestamp::from_second(at_s).unwrap().to_string();
        self.events.push(json!({"id": id, "schema": 1, "actor": actor, "device": format!("{actor}-1"), "device_time": time, "happened": happened}));
    }

    /// A number of version 7: time, then a count.
    fn number(&mut self, at_s: i64) -> String {
        self.numbers += 1;
        let ms = (at_s * 1000).max(0);
        format!("{:08x}-{:04x}-7000-8000-{:012x}", ms >> 16, ms & 0xffff, self.numbers)
    }

    /// Knuth's product of chances, good for the small means here (from memory).
    fn poisson(&mut self, mean: f64) -> usize {
        let (limit, mut product, mut count) = ((-mean).exp(), self.chance.random::<f64>(), 0);
        while product > limit {
            product *= self.chance.random::<f64>();
            count += 1;
        }
        count
    }
}

struct Repair {
    number: String,
    area_m2: f64,
    depth_m: f64,
    base_m3: f64,
    binder_l: f64,
    stone_m3: f64,
    minutes: f64,
}

impl Repair {
    fn planned(&self, hole: &Hole, roads: &[Road]) -> Value {
        json!({"repair": self.number, "holes": [hole.number], "road": roads[hole.road].name, "area_m2": self.area_m2, "base_loose_m3": text(self.base_m3), "water_l": text(one(self.base_m3 * 40.0)), "binder_l": text(self.binder_l), "cover_stone_m3": text(self.stone_m3), "minutes": text(self.minutes)})
    }
}

/// Whether a crew loads gravel then.
fn loads_gravel(crew: usize, at_s: i64) -> bool {
    crew == 1 && at_s >= BEGIN_S + GRAVEL_FROM_DAY * 86_400
}

fn item(what: &str) -> Value {
    match what {
        "base" => json!({"what": "base", "which": "crushed rock 0/20, Gannet pit"}),
        "gravel" => json!({"what": "base", "which": "river gravel 0/32, Skua bank"}),
        "binder" => json!({"what": "binder", "which": "CRS-2"}),
        what => json!({"what": what, "which": "chippings 10 mm, Gannet pit"}),
    }
}

fn three(number: f64) -> f64 {
    (number * 1000.0).round() / 1000.0
}

fn one(number: f64) -> f64 {
    (number * 10.0).round() / 10.0
}

fn text(number: f64) -> String {
    format!("{number:.3}")
}

fn apart_m(a: (f64, f64), b: (f64, f64)) -> f64 {
    ((b.0 - a.0) * a.1.to_radians().cos()).hypot(b.1 - a.1) * DEGREE_M
}

/// The day of a moment, universal time.
fn day_of(at_s: i64) -> String {
    Timestamp::from_second(at_s).unwrap().strftime("%F").to_string()
}
