//! No label on another, over many made zones.

use model::district::{DrivingSide, UnitSystem};
use model::figure::{Figure, Source, Why};
use model::place::{FramePoint, LonLat, Side, Travel};
use model::quantity::{kilometres_per_hour, metres, minutes};
use model::road::{Flow, NodeId, RoadClass, RoadSection, SectionId, Setting, Surface};
use model::work_zone::{
    ControlMethod, Coordination, Device, DeviceKind, Layout, RoadSpot, TrafficControl, WorkZone, ZonePart, ZonePartKind,
};

use super::{WIDTH, ZonePicture, draw, zone_svg};

/// A made zone with what the drawing wants beside it.
pub struct Made {
    zone: WorkZone,
    road: RoadSection,
    driving_side: DrivingSide,
    units: UnitSystem,
    cuts: Vec<(String, Vec<FramePoint>)>,
    ends: Option<(&'static str, &'static str)>,
    azimuth_deg: Option<f64>,
}

impl Made {
    fn picture(&self) -> ZonePicture<'_> {
        ZonePicture {
            zone: &self.zone,
            road: &self.road,
            driving_side: self.driving_side,
            units: self.units,
            words: ::words::Words::default(),
            cuts: self.cuts.iter().map(|(number, corners)| (number.clone(), corners.as_slice())).collect(),
            ends: self.ends,
            azimuth_deg: self.azimuth_deg,
        }
    }
}

/// The same numbers for the same seed, one after the other (the mixing step of `SplitMix64`).
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    fn of<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.next() as usize % list.len()]
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() % 100_001) as f64 / 100_000.0
    }

    fn count(&mut self, most: u64) -> usize {
        (self.next() % (most + 1)) as usize
    }
}

fn why() -> Why {
    Why::new("made", Source::definition())
}

const LEGENDS: [&str; 6] = [
    "ROAD WORK AHEAD",
    "ONE LANE ROAD AHEAD",
    "flagger ahead (symbol)",
    "RIGHT LANE CLOSED AHEAD",
    "BE PREPARED TO STOP FOR A VERY LONG LEGEND",
    "END ROAD WORK",
];

/// A zone of that seed: short and long, 3 to 60 devices and more, both sides, both systems of units, every layout.
pub fn made(seed: u64) -> Made {
    let mut draw = Draw(seed);
    let driving_side = draw.of(&[DrivingSide::Right, DrivingSide::Left]);
    let travel = draw.of(&[Travel::Forward, Travel::Backward]);
    let layout = draw.of(&[Layout::Shoulder, Layout::LaneClosureTwoWay, Layout::LaneClosureMultilane]);
    let lanes = if layout == Layout::LaneClosureMultilane { 4 } else { draw.of(&[1, 2, 2, 2]) };
    let width = f64::from(lanes) * draw.between(2.7, 3.6);
    let sign = if travel == Travel::Forward { 1.0 } else { -1.0 };
    let keep = if driving_side == DrivingSide::Right { 1.0 } else { -1.0 };
    let length = draw.of(&[2.0, 6.0, 25.0, 120.0, 400.0]) * draw.between(0.8, 1.2);
    let start = draw.between(100.0, 2000.0);
    let work = if travel == Travel::Forward { (start, start + length) } else { (-start - length, -start) };
    let (taper, buffer, end) = (draw.between(0.0, 250.0), draw.between(0.0, 200.0), draw.between(10.0, 60.0));
    let mut devices: Vec<Device> = Vec::new();
    // `along` grows in the direction of the worked traffic; 0 is the start of the work space.
    let mut put = |kind, own: bool, along: f64, across: f64, legend: &str, spot: Option<RoadSpot>| {
        devices.push(Device {
            kind,
            designation: if kind == DeviceKind::Sign { "W20-1aP".into() } else { String::new() },
            legend: legend.into(),
            approach: if own { travel } else { travel.opposite() },
            chainage: metres((start + along) * sign),
            across: metres(across * sign * keep),
            spacing: metres(0.0),
            why: why(),
            spot,
        });
    };
    let spot = |side_road: Option<(String, f64)>, moved: f64| RoadSpot {
        section: SectionId(0),
        chainage: metres(0.0),
        place: LonLat { lon: 0.0, lat: 0.0 },
        side_road: side_road.map(|(name, distance)| (name, metres(distance))),
        moved: metres(moved),
    };
    let apart = draw.of(&[30.0, 100.0, 150.0, 800.0]);
    for own in [false, true] {
        let (upstream, out) = if own { (-taper - buffer, -1.0) } else { (length + end, 1.0) };
        let across = if own { width / 2.0 + 1.5 } else { -width / 2.0 - 1.5 };
        for k in (0..draw.count(6)).rev() {
            let moved = draw.of(&[0.0, 0.0, 25.0]);
            let on_axis = spot(None, moved);
            let legend = draw.of(&LEGENDS);
            put(DeviceKind::Sign, own, upstream + out * apart * (k as f64 + 1.0), across, legend, Some(on_axis));
        }
        if draw.count(2) > 0 {
            put(DeviceKind::FlaggerStation, own, upstream, across, "flagger with paddle", None);
        }
        for _ in 0..draw.count(2) {
            let at = draw.between(-600.0, length + 600.0);
            let road = Some(("Quarry Lane and its continuation".to_owned(), draw.between(20.0, 200.0)));
            put(DeviceKind::Sign, own, at, across, "ROAD WORK AHEAD", Some(spot(road, 0.0)));
        }
    }
    if draw.count(1) > 0 {
        put(DeviceKind::ShieldVehicle, true, -buffer / 2.0, width / 4.0, "vehicle with beacon", None);
    }
    let gap = draw.between(4.0, 30.0);
    for (from, to, legend) in
        [(-taper - buffer, -buffer, "taper"), (-buffer, length, "line"), (length, length + end, "end")]
    {
        let count = (((to - from) / gap).floor() as usize).min(20);
        for k in 0..count {
            let part = (k as f64 + 0.5) / count as f64;
            put(DeviceKind::Cone, true, from + (to - from) * part, 0.1 + 0.2 * width * (1.0 - part), legend, None);
        }
    }
    for own in [true, false] {
        let (at, across) =
            if own { (length + end + 150.0, width / 2.0 + 1.5) } else { (-taper - buffer - 150.0, -width / 2.0 - 1.5) };
        put(DeviceKind::Sign, own, at, across, "END ROAD WORK", None);
    }
    // Some zones are next to nothing.
    if draw.count(5) == 0 {
        devices.truncate(3);
    }
    let figure = |m: f64| Figure::exact(metres(m), why());
    let part = |kind, m: f64| ZonePart { kind, length: figure(m) };
    let edge = if layout == Layout::Shoulder { width / 2.0 + 0.5 } else { width / 4.0 };
    let cuts = (1..=1 + draw.count(11))
        .map(|number| {
            let at = (start + length * draw.between(0.05, 0.95)) * sign;
            let across = edge * sign * keep;
            let corner = |a: f64, b: f64| FramePoint { along_m: at + a, across_m: across + b };
            (format!("3.{number}"), vec![corner(-0.4, -0.3), corner(0.4, -0.3), corner(0.4, 0.3), corner(-0.4, 0.3)])
        })
        .collect();
    let removing = (0..devices.len()).rev().collect();
    let open = draw.of(&[0.0, 2.4, width / 2.0, width]);
    let zone = WorkZone {
        section: SectionId(0),
        travel,
        side: if keep * sign > 0.0 { Side::Right } else { Side::Left },
        holes: Vec::new(),
        layout,
        layout_name: "made".into(),
        layout_source: Source::definition(),
        layout_reason: String::new(),
        control: TrafficControl {
            method: ControlMethod::FlaggerEachEnd,
            coordination: Coordination::ByRadioOrPilot,
            between_ends: metres(length),
            reason: String::new(),
        },
        not_laid_out: None,
        duration_class: "short".into(),
        work_from: metres(work.0),
        work_to: metres(work.1),
        parts: vec![
            part(ZonePartKind::AdvanceWarning, apart * 3.0),
            part(ZonePartKind::Taper, taper),
            part(ZonePartKind::Buffer, buffer),
            part(ZonePartKind::WorkSpace, length),
            part(ZonePartKind::DownstreamTaper, end),
        ],
        devices,
        removing,
        flaggers: Figure::exact(2, why()),
        queue: None,
        out: Vec::new(),
        back: Vec::new(),
        set_up: Figure::exact(minutes(9.0), why()),
        take_in: Figure::exact(minutes(7.0), why()),
        open_width: figure(open),
        passable: open > 3.0,
        people_needed: 4,
        shared: None,
        remarks: Vec::new(),
    };
    Made {
        zone,
        road: road(lanes, width),
        driving_side,
        units: draw.of(&[UnitSystem::Si, UnitSystem::UsCustomary]),
        cuts,
        ends: draw.of(&[
            None,
            Some(("the junction with Sedge Lane", "the end of the road, by the harbour wall and the old mill")),
        ]),
        azimuth_deg: draw.of(&[None, Some(0.0), Some(137.0), Some(268.0)]),
    }
}

fn road(lanes: u32, width: f64) -> RoadSection {
    RoadSection {
        id: SectionId(0),
        source_id: "made".into(),
        from: NodeId(0),
        to: NodeId(1),
        line: Vec::new(),
        length: metres(3000.0),
        class: RoadClass::Tertiary,
        name: "Kittiwake Lane".into(),
        number: String::new(),
        speed: kilometres_per_hour(80.0),
        lanes,
        width: metres(width),
        shoulder: metres(1.0),
        flow: Flow::Both,
        surface: Surface::SurfaceTreated,
        vehicles_per_day: None,
        setting: Setting::Rural,
        structure: None,
        roundabout: false,
        truck: model::road::TruckAccess::default(),
        defaulted: Vec::new(),
    }
}

const SEEDS: std::ops::Range<u64> = 0..1500;

#[test]
fn no_label_lies_on_another_or_off_the_paper() {
    let (mut fewest, mut most) = (usize::MAX, 0);
    for seed in SEEDS {
        let made = made(seed);
        (fewest, most) = (fewest.min(made.zone.devices.len()), most.max(made.zone.devices.len()));
        let drawing = draw(&made.picture());
        let (texts, marks) = drawing.taken();
        for (index, a) in texts.iter().enumerate() {
            let on_paper = a.x.0 >= 0.0 && a.x.1 <= WIDTH && a.y.0 >= 0.0 && a.y.1 <= drawing.height();
            assert!(on_paper, "seed {seed}: {a:?} is off the paper");
            for b in texts[..index].iter().chain(marks) {
                // A number lies in its own symbol.
                let inside = |p: (f64, f64), q: (f64, f64)| p.0 >= q.0 && p.1 <= q.1;
                let own = inside(a.x, b.x) && inside(a.y, b.y) && marks.contains(b);
                assert!(own || !a.grown(-0.05).meets(b), "seed {seed}: {a:?} lies on {b:?}");
            }
        }
    }
    assert!(fewest == 3 && most >= 60, "{fewest} to {most} devices");
}

/// Every sign, flagger and vehicle has its number on the drawing.
#[test]
fn every_numbered_device_is_there() {
    for seed in SEEDS.step_by(10) {
        let made = made(seed);
        let svg = zone_svg(&made.picture());
        for (index, _) in made.zone.devices.iter().enumerate().filter(|(_, d)| d.kind != DeviceKind::Cone) {
            assert!(svg.contains(&format!(">{}</text>", index + 1)), "seed {seed}: {}", index + 1);
        }
    }
}

/// A sign on a side road is drawn where the road joins, whatever its distance across says of its own road.
#[test]
fn a_sign_on_a_side_road_stands_on_the_side_it_joins_from() {
    let mut made = made(1);
    made.road.line = vec![LonLat { lon: 0.0, lat: 0.0 }, LonLat { lon: 0.0, lat: 0.03 }];
    made.zone.devices.truncate(1);
    for (lon, right) in [(0.002, true), (-0.002, false)] {
        let device = &mut made.zone.devices[0];
        (device.kind, device.chainage, device.across) = (DeviceKind::Sign, metres(1000.0), metres(-4.0));
        device.spot = Some(RoadSpot {
            section: SectionId(0),
            chainage: metres(90.0),
            place: LonLat { lon, lat: 0.0091 },
            side_road: Some(("Quarry Lane".into(), metres(90.0))),
            moved: metres(0.0),
        });
        let below = right == (made.zone.travel == Travel::Forward);
        for (edge, count) in [(super::Edge::Bottom, usize::from(below)), (super::Edge::Top, usize::from(!below))] {
            let sign = if made.zone.travel == Travel::Forward { 1.0 } else { -1.0 };
            assert_eq!(super::labels::stations(&made.picture(), sign, edge).len(), count, "{lon} {edge:?}");
        }
    }
}

/// Writes the drawings of some seeds to look at: `LENGTHSMAN_PICTURES=folder cargo test -p jobpack pictures`.
#[test]
fn pictures() {
    let Some(folder) = std::env::var_os("LENGTHSMAN_PICTURES") else { return };
    for seed in SEEDS.take(40) {
        std::fs::write(std::path::Path::new(&folder).join(format!("{seed:02}.svg")), zone_svg(&made(seed).picture()))
            .expect("the folder can be written to");
    }
}
