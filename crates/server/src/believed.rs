//! Whether an event can be believed: what is wrong with it, and what would be right.
//!
//! Bounds are wide: what a crew measured is not to be argued with, but a slip of the keyboard must not spoil the books. Common
//! practice, no source.

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};
use model::record::event::{Event, SCHEMA_VERSION};
use model::record::happened::{Happened, HoleSize, Position, Subject};
use model::record::stock::{StockItem, StockPlace};
use model::record::stretch::ZoneStretch;
use rust_decimal::Decimal;

/// Letters of a remark at most.
const MOST_LETTERS: usize = 2_000;

/// Things in a list at most.
const MOST_IN_LIST: usize = 1_000;

/// Corrections inside of corrections.
const DEEPEST: u32 = 4;

/// How far a zone reaches from its place, degrees of latitude: some five kilometres. Common practice, no source.
pub const ZONE_REACH_DEG: f64 = 0.05;

/// How far a resurfaced stretch reaches, degrees of latitude: some fifty kilometres. Common practice, no source.
const RESURFACED_REACH_DEG: f64 = 0.5;

/// Stretches of a zone.
const MOST_STRETCHES: usize = 8;

/// Where the district lies, degrees: west, south, east, north; and how the clock stands.
#[derive(Debug, Clone, Copy)]
pub struct Bounds {
    /// `None`: anywhere on the globe.
    pub district: Option<[f64; 4]>,
    /// The server's time.
    pub now: Timestamp,
    /// How far a device's time may lie ahead of it.
    pub clock_tolerance: SignedDuration,
}

/// What is wrong with an event, in words; `None`: nothing.
pub fn fault(event: &Event, bounds: &Bounds) -> Option<String> {
    let checked = Checked { bounds, depth: 0 };
    checked.cover(event).and_then(|()| checked.happened(&event.happened)).err()
}

struct Checked<'b> {
    bounds: &'b Bounds,
    depth: u32,
}

impl Checked<'_> {
    fn cover(&self, event: &Event) -> Result<(), String> {
        if event.schema != SCHEMA_VERSION {
            return Err(format!("schema {} is not known here; send {SCHEMA_VERSION}", event.schema));
        }
        if event.id.get_version_num() != 7 {
            return Err("id has to be a UUID of version 7".to_owned());
        }
        let latest = self.bounds.now.checked_add(self.bounds.clock_tolerance).unwrap_or(self.bounds.now);
        let at = event.happened_at();
        if at > latest {
            let ahead = at.duration_since(self.bounds.now).as_millis();
            return Err(format!(
                "device_time lies {} s in the future; compare the clock with the server's and send it again with \
                 clock_ahead_ms: {}",
                ahead / 1000,
                i128::from(event.clock_ahead_ms) + ahead
            ));
        }
        if event.device_time < Timestamp::UNIX_EPOCH {
            return Err("device_time lies before 1970".to_owned());
        }
        Ok(())
    }

    fn happened(&self, happened: &Happened) -> Result<(), String> {
        match happened {
            Happened::HoleReported { position, size, note, source, reference, .. } => {
                self.position(position)?;
                size_is_believed(size)?;
                texts(&[("note", note), ("source", source), ("reference", reference)])
            }
            Happened::HoleMeasured { position, size, note, .. } => {
                position.iter().try_for_each(|position| self.position(position))?;
                size_is_believed(size)?;
                texts(&[("note", note)])
            }
            Happened::HolesMerged { into, merged, why } => {
                list("merged", merged.len())?;
                if merged.is_empty() || merged.contains(into) {
                    return Err("merged names one hole or more, and not the one that stays".to_owned());
                }
                texts(&[("why", why)])
            }
            Happened::HoleDismissed { why, .. } => {
                if why.trim().is_empty() {
                    return Err("why has to say why nothing is to be mended".to_owned());
                }
                texts(&[("why", why)])
            }
            Happened::RoundPlanned { crew, repairs, zones, plan, .. } => {
                list("repairs", repairs.len())?;
                list("zones", zones.len())?;
                for zone in zones {
                    list("holes", zone.holes.len())?;
                    texts(&[("road", &zone.road), ("layout", &zone.layout)])?;
                    count("devices", zone.devices, 1_000)?;
                    self.stretches(&zone.stretches, None)?;
                }
                texts(&[("crew", crew), ("plan", plan)])?;
                for repair in repairs {
                    list("holes", repair.holes.len())?;
                    texts(&[("road", &repair.road)])?;
                    number("area_m2", repair.area_m2, 0.0, 10_000.0)?;
                    for (name, amount) in [
                        ("base_loose_m3", repair.base_loose_m3),
                        ("water_l", repair.water_l),
                        ("binder_l", repair.binder_l),
                        ("cover_stone_m3", repair.cover_stone_m3),
                        ("minutes", repair.minutes),
                    ] {
                        amount_is_believed(name, amount)?;
                    }
                }
                Ok(())
            }
            Happened::ZoneOpened { holes, position, road, layout, devices_out, stretches, .. } => {
                self.position(position)?;
                list("holes", holes.len())?;
                count("devices_out", *devices_out, 1_000)?;
                self.stretches(stretches, Some(position))?;
                texts(&[("road", road), ("layout", layout)])
            }
            Happened::ZoneClosed { devices_in, .. } => count("devices_in", *devices_in, 1_000),
            Happened::HoleCut { holes, area_m2, depths_mm, .. } => {
                list("holes", holes.len())?;
                list("depths_mm", depths_mm.len())?;
                depths_mm.iter().try_for_each(|depth| number("depths_mm", *depth, 0.0, 3_000.0))?;
                area_m2.map_or(Ok(()), |area| number("area_m2", area, 0.0, 10_000.0))
            }
            Happened::LayerPlaced {
                layer,
                thickness_mm,
                base_loose_m3,
                base,
                water_l,
                passes_still,
                passes_vibrating,
                ..
            } => {
                count("layer", Some(*layer), 50)?;
                if *layer == 0 {
                    return Err("layer counts from 1 at the bottom".to_owned());
                }
                thickness_mm.map_or(Ok(()), |value| number("thickness_mm", value, 0.0, 1_000.0))?;
                base_loose_m3.map_or(Ok(()), |value| amount_is_believed("base_loose_m3", value))?;
                water_l.map_or(Ok(()), |value| amount_is_believed("water_l", value))?;
                count("passes_still", *passes_still, 500)?;
                count("passes_vibrating", *passes_vibrating, 500)?;
                texts(&[("base", base)])
            }
            Happened::Sealed { binder_l, binder, cover_stone_m3, area_m2, crown_mm, air_temperature_c, .. } => {
                binder_l.map_or(Ok(()), |value| amount_is_believed("binder_l", value))?;
                cover_stone_m3.map_or(Ok(()), |value| amount_is_believed("cover_stone_m3", value))?;
                area_m2.map_or(Ok(()), |value| number("area_m2", value, 0.0, 10_000.0))?;
                crown_mm.map_or(Ok(()), |value| number("crown_mm", value, -200.0, 200.0))?;
                air_temperature_c.map_or(Ok(()), |value| number("air_temperature_c", value, -40.0, 60.0))?;
                texts(&[("binder", binder)])
            }
            Happened::OpenedToTraffic { .. } => Ok(()),
            Happened::Inspected { note, .. } => texts(&[("note", note)]),
            Happened::Failed { how, .. } => texts(&[("how", how)]),
            Happened::RoadResurfaced { date, from, to, road, holes, note, .. } => {
                self.position(from)?;
                self.position(to)?;
                if from == to {
                    return Err(
                        "from and to are the same place; they are where the new surface begins and ends".to_owned()
                    );
                }
                if !is_near(from, to, RESURFACED_REACH_DEG) {
                    return Err(format!(
                        "from and to lie more than {RESURFACED_REACH_DEG} degrees apart; tell a longer stretch in pieces"
                    ));
                }
                // wherever on the globe the road is, it is not yet the day after tomorrow
                let latest = TimeZone::UTC.to_datetime(self.bounds.now).date().tomorrow().unwrap_or(Date::MAX);
                if *date > latest || *date < Date::constant(1970, 1, 1) {
                    return Err(format!("date is {date}; it is the day on which it was done, not one to come"));
                }
                list("holes", holes.len())?;
                texts(&[("road", road), ("note", note)])
            }
            Happened::StockMoved { from, to, item, amount, unit_price, lot } => {
                if from == to {
                    return Err("from and to are the same place".to_owned());
                }
                if *amount <= Decimal::ZERO {
                    return Err("amount has to be more than nothing; to take a move back, correct it".to_owned());
                }
                place(from)?;
                place(to)?;
                item_is_believed(item)?;
                amount_is_believed("amount", *amount)?;
                unit_price.map_or(Ok(()), |price| amount_is_believed("unit_price", price))?;
                lot.as_ref().map_or(Ok(()), |lot| texts(&[("lot number", &lot.number)]))
            }
            Happened::StockCounted { place: at, item, amount } => {
                place(at)?;
                item_is_believed(item)?;
                amount_is_believed("amount", *amount)
            }
            Happened::TimeBooked { on, crew, labour_min, plant_min } => {
                if !matches!(on, Subject::Repair(_) | Subject::Round(_)) {
                    return Err("time is booked on a repair or a round".to_owned());
                }
                amount_is_believed("labour_min", *labour_min)?;
                amount_is_believed("plant_min", *plant_min)?;
                texts(&[("crew", crew)])
            }
            Happened::PhotoTaken { photo, position, note, .. } => {
                if photo.len() != 64 || !photo.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f')) {
                    return Err("photo is the SHA-256 of the file: 64 hexadecimal digits, small letters".to_owned());
                }
                // taken anywhere: a camera is often wrong about where it is
                position.iter().try_for_each(on_the_globe)?;
                texts(&[("note", note)])
            }
            Happened::Corrected { instead, why, .. } => {
                if self.depth >= DEEPEST {
                    return Err("a correction of a correction of a correction is as deep as it goes".to_owned());
                }
                if why.trim().is_empty() {
                    return Err("why has to say what was wrong".to_owned());
                }
                texts(&[("why", why)])?;
                let deeper = Checked { bounds: self.bounds, depth: self.depth + 1 };
                instead.as_ref().map_or(Ok(()), |instead| deeper.happened(instead))
            }
            Happened::Signed { role, note, .. } => texts(&[("role", role), ("note", note)]),
        }
    }

    /// A zone has a stretch for each direction, and perhaps more at a junction.
    fn stretches(&self, stretches: &[ZoneStretch], zone: Option<&Position>) -> Result<(), String> {
        if stretches.len() > MOST_STRETCHES {
            return Err(format!("stretches has {} entries; at most {MOST_STRETCHES}", stretches.len()));
        }
        for stretch in stretches {
            list("line", stretch.line.len())?;
            list("lanes", stretch.lanes.len())?;
            if stretch.line.len() < 2 {
                return Err("line has two places or more".to_owned());
            }
            if stretch.line.iter().all(|place| *place == stretch.line[0]) {
                return Err("line has no length: its places are all the same".to_owned());
            }
            if stretch.lanes.iter().zip(1..).any(|(lane, order)| lane.order != order) {
                return Err("order counts the lanes 1, 2, 3 ... from the left of the traffic, each once".to_owned());
            }
            let from = zone.or(stretch.line.first());
            for place in &stretch.line {
                self.position(place)?;
                if from.is_some_and(|from| !is_near(from, place, ZONE_REACH_DEG)) {
                    return Err(format!(
                        "the stretch reaches more than {ZONE_REACH_DEG} degrees from the zone's place"
                    ));
                }
            }
        }
        Ok(())
    }

    fn position(&self, position: &Position) -> Result<(), String> {
        on_the_globe(position)?;
        let Some([west, south, east, north]) = self.bounds.district else { return Ok(()) };
        let inside = |lon: f64, lat: f64| {
            let across = if west <= east { lon >= west && lon <= east } else { lon >= west || lon <= east };
            across && lat >= south && lat <= north
        };
        if inside(position.lon, position.lat) {
            return Ok(());
        }
        let exchanged = if inside(position.lat, position.lon) { "; lon and lat look exchanged" } else { "" };
        Err(format!("the place {} {} lies outside of the district{exchanged}", position.lon, position.lat))
    }
}

/// Whether two places are so near each other that one zone, or one stretch, can reach from one to the other.
fn is_near(a: &Position, b: &Position, reach_deg: f64) -> bool {
    let east = (b.lon - a.lon + 540.0).rem_euclid(360.0) - 180.0;
    (b.lat - a.lat).abs() <= reach_deg && east.abs() * a.lat.to_radians().cos() <= reach_deg
}

fn on_the_globe(position: &Position) -> Result<(), String> {
    number("lon", position.lon, -180.0, 180.0)?;
    number("lat", position.lat, -90.0, 90.0)
}

fn size_is_believed(size: &HoleSize) -> Result<(), String> {
    for (name, value, most) in [
        ("length_mm", size.length_mm, 50_000.0),
        ("width_mm", size.width_mm, 50_000.0),
        ("depth_mm", size.depth_mm, 3_000.0),
    ] {
        if let Some(value) = value {
            number(name, value, 0.0, most)?;
        }
    }
    Ok(())
}

fn number(name: &str, value: f64, least: f64, most: f64) -> Result<(), String> {
    if value.is_finite() && (least..=most).contains(&value) {
        Ok(())
    } else {
        Err(format!("{name} is {value}; believed is {least} to {most}"))
    }
}

fn amount_is_believed(name: &str, amount: Decimal) -> Result<(), String> {
    let most = Decimal::from(1_000_000);
    if amount.is_sign_negative() && !amount.is_zero() || amount > most {
        return Err(format!("{name} is {amount}; believed is 0 to {most}"));
    }
    if amount.scale() > 6 {
        return Err(format!("{name} is {amount}; six digits behind the point are enough"));
    }
    Ok(())
}

fn count(name: &str, value: Option<u32>, most: u32) -> Result<(), String> {
    match value {
        Some(value) if value > most => Err(format!("{name} is {value}; believed is at most {most}")),
        _ => Ok(()),
    }
}

fn list(name: &str, length: usize) -> Result<(), String> {
    if length > MOST_IN_LIST { Err(format!("{name} has {length} entries; at most {MOST_IN_LIST}")) } else { Ok(()) }
}

fn texts(texts: &[(&str, &String)]) -> Result<(), String> {
    for (name, text) in texts {
        if text.chars().count() > MOST_LETTERS {
            return Err(format!("{name} is longer than {MOST_LETTERS} letters"));
        }
        if text.chars().any(|letter| letter.is_control() && !matches!(letter, '\n' | '\r' | '\t')) {
            return Err(format!("{name} has control characters in it"));
        }
    }
    Ok(())
}

fn place(place: &StockPlace) -> Result<(), String> {
    match place {
        StockPlace::Supplier { name } | StockPlace::Depot { name } => named("name", name),
        StockPlace::Truck { crew } => named("crew", crew),
        StockPlace::Waste { why } => named("why", why),
        StockPlace::Zone { .. } | StockPlace::Repair { .. } => Ok(()),
    }
}

fn named(field: &str, name: &String) -> Result<(), String> {
    if name.trim().is_empty() {
        return Err(format!("{field} of a stock place is empty"));
    }
    texts(&[(field, name)])
}

fn item_is_believed(item: &StockItem) -> Result<(), String> {
    texts(&[("which", &item.which)])
}

#[cfg(test)]
mod tests {
    use uuid::Uuid;

    use super::*;
    use model::record::stretch::{Heading, LaneKind, LaneStatus, TrafficImpact, ZoneKind, ZoneLane};

    fn bounds() -> Bounds {
        Bounds {
            district: Some([6.9, 46.9, 7.2, 47.2]),
            now: "2026-05-06T12:00:00Z".parse().unwrap(),
            clock_tolerance: SignedDuration::from_mins(5),
        }
    }

    fn event(happened: Happened) -> Event {
        Event {
            id: "0196a3f0-0000-7000-8000-000000000001".parse().unwrap(),
            schema: 1,
            actor: "mara".into(),
            device: "phone".into(),
            device_time: "2026-05-06T11:00:00Z".parse().unwrap(),
            clock_ahead_ms: 0,
            happened,
        }
    }

    fn reported(lon: f64, lat: f64) -> Happened {
        Happened::HoleReported {
            hole: Uuid::nil(),
            position: Position { lon, lat },
            size: HoleSize::default(),
            seen: None,
            note: String::new(),
            source: String::new(),
            reference: String::new(),
            contact: None,
        }
    }

    #[test]
    fn places_are_in_the_district_and_exchanged_ones_are_said_to_be() {
        assert_eq!(fault(&event(reported(7.0, 47.0)), &bounds()), None);
        assert!(fault(&event(reported(8.0, 47.0)), &bounds()).unwrap().contains("outside of the district"));
        let wide = Bounds { district: Some([40.0, 0.0, 50.0, 10.0]), ..bounds() };
        assert!(fault(&event(reported(5.0, 45.0)), &wide).unwrap().contains("exchanged"));
        assert!(fault(&event(reported(f64::NAN, 47.0)), &bounds()).is_some());
        let across = Bounds { district: Some([179.0, -18.0, -179.0, -16.0]), ..bounds() };
        assert_eq!(fault(&event(reported(-179.5, -17.0)), &across), None);
        assert!(fault(&event(reported(0.0, -17.0)), &across).is_some());
    }

    #[test]
    fn a_clock_that_is_ahead_is_told_by_how_much() {
        let mut early = event(reported(7.0, 47.0));
        early.device_time = "2026-05-06T13:00:00Z".parse().unwrap();
        let said = fault(&early, &bounds()).unwrap();
        assert!(said.contains("clock_ahead_ms: 3600000"), "{said}");
        early.clock_ahead_ms = 3_600_000;
        assert_eq!(fault(&early, &bounds()), None);
    }

    #[test]
    fn what_can_t_be_is_refused_in_words() {
        let repair = Uuid::nil();
        let layer = |layer, thickness_mm| Happened::LayerPlaced {
            repair,
            layer,
            thickness_mm,
            base_loose_m3: None,
            base: String::new(),
            water_l: None,
            moisture: None,
            passes_still: None,
            passes_vibrating: None,
        };
        let moved = |amount: &str| Happened::StockMoved {
            from: StockPlace::Depot { name: "Fennow".into() },
            to: StockPlace::Truck { crew: "A".into() },
            item: StockItem { what: model::record::stock::StockKind::Base, which: String::new() },
            amount: amount.parse().unwrap(),
            unit_price: None,
            lot: None,
        };
        let nested = (0..6).fold(Happened::OpenedToTraffic { repair }, |inside, _| Happened::Corrected {
            event: repair,
            instead: Some(Box::new(inside)),
            why: "wrong".into(),
        });
        let cases: [(Happened, Option<&str>); 12] = [
            (layer(1, Some(80.0)), None),
            (layer(0, None), Some("counts from 1")),
            (layer(1, Some(8000.0)), Some("thickness_mm")),
            (layer(1, Some(f64::INFINITY)), Some("thickness_mm")),
            (moved("0.4"), None),
            (moved("0"), Some("more than nothing")),
            (moved("-1"), Some("more than nothing")),
            (moved("1000001"), Some("amount")),
            (moved("0.1234567"), Some("six digits")),
            (Happened::HoleDismissed { hole: repair, why: " ".into(), dealt_with: false }, Some("why")),
            (Happened::HoleDismissed { hole: repair, why: "a\u{0}b".into(), dealt_with: false }, Some("control")),
            (nested, Some("as deep")),
        ];
        for (happened, expected) in cases {
            let said = fault(&event(happened.clone()), &bounds());
            match expected {
                None => assert_eq!(said, None, "{happened:?}"),
                Some(words) => {
                    assert!(said.as_ref().is_some_and(|said| said.contains(words)), "{happened:?}: {said:?}");
                }
            }
        }
        let mut old = event(layer(1, None));
        old.schema = 2;
        assert!(fault(&old, &bounds()).is_some());
        let mut numbered = event(layer(1, None));
        numbered.id = Uuid::nil();
        assert!(fault(&numbered, &bounds()).unwrap().contains("version 7"));
    }

    #[test]
    fn stretches_have_a_length_and_lanes_in_order() {
        let lane = |order| ZoneLane { order, kind: LaneKind::General, status: LaneStatus::Closed };
        let stretch = |line: &[(f64, f64)], orders: &[u32]| ZoneStretch {
            line: line.iter().map(|(lon, lat)| Position { lon: *lon, lat: *lat }).collect(),
            heading: Heading::Unknown,
            impact: TrafficImpact::Unknown,
            kind: ZoneKind::Static,
            lanes: orders.iter().map(|order| lane(*order)).collect(),
        };
        let (a, b) = ((7.0, 47.0), (7.0, 47.001));
        let cases = [
            (stretch(&[a, b], &[]), None),
            (stretch(&[a, b], &[1]), None),
            (stretch(&[a, b, a], &[1, 2, 3]), None),
            (stretch(&[a, a, b], &[1, 2]), None),
            (stretch(&[a], &[1]), Some("two places")),
            (stretch(&[a, a], &[1]), Some("no length")),
            (stretch(&[a, a, a], &[]), Some("no length")),
            (stretch(&[a, b], &[0, 1]), Some("order")),
            (stretch(&[a, b], &[2]), Some("order")),
            (stretch(&[a, b], &[1, 1]), Some("order")),
            (stretch(&[a, b], &[2, 1]), Some("order")),
            (stretch(&[a, b], &[1, 3]), Some("order")),
            (stretch(&[a, b], &[1, u32::MAX]), Some("order")),
        ];
        let bounds = bounds();
        let checked = Checked { bounds: &bounds, depth: 0 };
        for (stretch, expected) in cases {
            let said = checked.stretches(std::slice::from_ref(&stretch), None).err();
            match expected {
                None => assert_eq!(said, None, "{stretch:?}"),
                Some(words) => {
                    assert!(said.as_ref().is_some_and(|said| said.contains(words)), "{stretch:?}: {said:?}");
                }
            }
        }
    }
}
