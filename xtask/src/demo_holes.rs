//! The invented district's list of holes: what the patrol listed, what others told of, rows that are bad on purpose; and last
//! season's records.

use std::fmt::Write as _;

use rand::RngExt;
use rand_pcg::Pcg64Mcg;

use crate::demo_district::{Km, Road, distance_km, exact_degrees, length_km};

/// A patrol's row, to report the same hole again.
struct Patrolled {
    at: Km,
    /// Unit vector along the road.
    along: Km,
    length: f64,
    width: f64,
    depth_mm: f64,
    position: &'static str,
}

/// About 60 holes on the sealed roads, in clusters as holes come, as the patrol listed them; the same holes reported by
/// others; and some rows that are bad on purpose.
pub(crate) fn holes(roads: &[Road], random: &mut Pcg64Mcg) -> (String, usize) {
    let sealed: Vec<&Road> = roads.iter().filter(|road| road.surface == "chipseal").collect();
    let mut text = String::from("id,lon,lat,length,width,depth,unit,date,position,wet,note,outline,source,repairs\n");
    let mut rows = 0;
    let mut number = 0;
    let mut patrolled = Vec::new();
    while number < 56 {
        let road = sealed[random.random_range(0..sealed.len())];
        // Long and busy roads break more; short streets seldom.
        if road.points.len() < 5
            || length_km(&road.points) * f64::from(road.vehicles_per_day) < random.random_range(0.0..1500.0)
        {
            continue;
        }
        let cluster = [1, 1, 1, 2, 2, 3][random.random_range(0..6)];
        let segment = random.random_range(1..road.points.len() - 2);
        let (a, b) = (road.points[segment], road.points[segment + 1]);
        let long = distance_km(a, b);
        let right = random.random::<bool>() || road.oneway;
        let mut along = random.random_range(0.1..0.5);
        // The patrol passes a road on one day.
        let mut patrol_day = None;
        for _ in 0..cluster {
            number += 1;
            rows += 1;
            let length = rounded(lognormal(0.75, 0.35, random), 0.05);
            let width = rounded((length * random.random_range(0.55..0.95)).max(0.25), 0.05);
            let depth_mm = rounded(lognormal(110.0, 0.5, random).clamp(30.0, 340.0), 5.0);
            let position = ["lane", "wheel path", "wheel path", "edge"][random.random_range(0..4)];
            let half = road.width_m / 2.0;
            let across = match position {
                "edge" => half - width / 2.0,
                _ => half / 2.0,
            } + random.random_range(-0.3..0.3);
            let across_km = across / 1000.0 * if right { 1.0 } else { -1.0 };
            let (ux, uy) = ((b.0 - a.0) / long, (b.1 - a.1) / long);
            let at = (a.0 + along * (b.0 - a.0) + across_km * uy, a.1 + along * (b.1 - a.1) - across_km * ux);
            let (lon, lat) = exact_degrees(at);
            let drawn = random.random_range(12..31);
            let day = *patrol_day.get_or_insert(drawn);
            let drawn = if random.random_range(0..10) < 3 { "wet" } else { "dry" };
            let wet = if number == PUMPING { "pumping" } else { drawn };
            let note = match random.random_range(0..9) {
                0 => "\"water stands in it, base soft\"",
                1 => "seen by the school bus driver",
                2 => "growing since last rain",
                _ => "",
            };
            let outline = if number % 9 == 4 { outline(at, length, width, random) } else { String::new() };
            let repairs = REPAIRED.iter().find(|(repaired, _)| *repaired == number).map_or("", |(_, days)| days);
            let _ = writeln!(
                text,
                "H{number:03},{lon:.6},{lat:.6},{length:.2} m,{width:.2} m,{depth_mm:.0} mm,,2026-05-{day},{position},{wet},{note},{outline},patrol,{repairs}"
            );
            patrolled.push(Patrolled { at, along: (ux, uy), length, width, depth_mm, position });
            along += random.random_range(0.012..0.45) / (long * 10.0).max(1.0);
        }
    }
    for (index, again) in REPORTED_AGAIN.iter().enumerate() {
        rows += 1;
        text.push_str(&again.row(index + 1, &patrolled));
    }
    for row in BAD_ROWS {
        rows += 1;
        text.push_str(row);
        text.push('\n');
    }
    (text, rows)
}

/// The hole whose base pumps: no patch.
const PUMPING: usize = 18;

/// Places that were mended before: the first too often for another patch.
const REPAIRED: [(usize, &str); 2] = [(27, "2025-03-11; 2025-09-02; 2026-02-17"), (40, "2025-10-20")];

/// A report of a hole that the patrol lists too, or of one that only others saw.
struct Again {
    source: &'static str,
    /// Number of the patrol's hole.
    hole: usize,
    /// Off its place along the road, m.
    off_m: f64,
    /// Sizes as told, times the patrol's.
    size: f64,
    day: &'static str,
    note: &'static str,
}

const REPORTED_AGAIN: [Again; 8] = [
    Again { source: "public", hole: 3, off_m: 7.0, size: 1.4, day: "2026-05-22", note: "bent a rim in it" },
    Again { source: "crew", hole: 3, off_m: -3.0, size: 1.0, day: "2026-05-31", note: "" },
    Again { source: "address", hole: 16, off_m: 24.0, size: 1.5, day: "2026-05-19", note: "opposite the quarry gate" },
    Again { source: "public", hole: 31, off_m: -6.0, size: 1.2, day: "2026-05-18", note: "" },
    Again { source: "public", hole: 31, off_m: 4.5, size: 1.6, day: "2026-05-18", note: "deep, cyclists swerve" },
    Again { source: "public", hole: 45, off_m: 3.0, size: 2.4, day: "2026-06-05", note: "much bigger since the storm" },
    // Two of the public on a place that the patrol has not seen.
    Again { source: "public", hole: 52, off_m: 70.0, size: 1.3, day: "2026-06-01", note: "" },
    Again { source: "public", hole: 52, off_m: 76.0, size: 1.0, day: "2026-06-03", note: "on the bend" },
];

impl Again {
    fn row(&self, number: usize, patrolled: &[Patrolled]) -> String {
        let hole = &patrolled[self.hole - 1];
        let off_km = self.off_m / 1000.0;
        let (lon, lat) = exact_degrees((hole.at.0 + off_km * hole.along.0, hole.at.1 + off_km * hole.along.1));
        let told = |size: f64| rounded(size * self.size, 0.1);
        let depth_mm = rounded(hole.depth_mm * self.size, 10.0);
        let (length, width, position) = (told(hole.length), told(hole.width), hole.position);
        let Again { source, day, note, .. } = self;
        let note = if note.contains(',') { format!("\"{note}\"") } else { (*note).to_owned() };
        format!(
            "R{number:02},{lon:.6},{lat:.6},{length:.1} m,{width:.1} m,{depth_mm:.0} mm,,{day},{position},,{note},,{source},\n"
        )
    }
}

/// Each wrong in its own way; the plan says how, and goes on.
const BAD_ROWS: [&str; 8] = [
    "H901,-28.401000,47.301200,0.80 m,0.60 m,3 m,,2026-05-20,lane,dry,absurd depth,,patrol,",
    "H902,47.302000,-28.395000,0.80 m,0.60 m,120 mm,,2026-05-20,lane,dry,longitude and latitude swapped,,patrol,",
    "H903,-28.402000,47.303000,0.80 m,0.60 m,12 hands,,2026-05-20,lane,dry,unknown unit,,patrol,",
    "H001,-28.403000,47.304000,0.90 m,0.70 m,140 mm,,2026-05-20,lane,dry,identifier used before,,patrol,",
    "H905,-28.404000,47.305000,-0.80 m,0.60 m,120 mm,,2026-05-20,lane,dry,negative length,,patrol,",
    "H906,-28.180000,47.420000,0.80 m,0.60 m,120 mm,,2026-05-20,lane,dry,out at sea,,patrol,",
    "H907,-28.405000,,0.80 m,0.60 m,120 mm,,2026-05-20,lane,dry,no latitude,,patrol,",
    "H908,-28.406000,47.306000,0.80,0.60,120,,2026-05-20,lane,dry,no unit anywhere,,patrol,",
];

/// How many holes were dug and measured before.
const RECORDS: u32 = 40;

/// Last season's holes, as marked out and as dug: in the median 1.25 times the volume, two thirds of it in depth.
pub(crate) fn records(roads: &[Road], random: &mut Pcg64Mcg) -> String {
    let sealed: Vec<&Road> = roads.iter().filter(|road| road.surface == "chipseal").collect();
    let mut text = String::from(
        "hole,road,class,date,surveyed_length_m,surveyed_width_m,surveyed_depth_mm,dug_length_m,dug_width_m,dug_depth_mm\n",
    );
    for number in 1..=RECORDS {
        let road = sealed[random.random_range(0..sealed.len())];
        let length = rounded(lognormal(0.9, 0.3, random), 0.05);
        let width = rounded((length * random.random_range(0.6..0.95)).max(0.3), 0.05);
        let depth_mm = rounded(lognormal(120.0, 0.4, random).clamp(40.0, 320.0), 5.0);
        let growth = lognormal(1.25, 0.19, random);
        let side = growth.powf(1.0 / 6.0);
        let (dug_length, dug_width) = (rounded(length * side, 0.01), rounded(width * side, 0.01));
        let dug_depth_mm = rounded(depth_mm * growth.powf(2.0 / 3.0) * lognormal(1.0, 0.03, random), 1.0);
        let (month, day) = (random.random_range(3..=10), random.random_range(1..=28));
        let _ = writeln!(
            text,
            "R{number:03},\"{}\",{},2025-{month:02}-{day:02},{length:.2},{width:.2},{depth_mm:.0},{dug_length:.2},{dug_width:.2},{dug_depth_mm:.0}",
            road.name, road.class
        );
    }
    text
}

/// A rough seven-cornered outline around a place, as `lon lat; lon lat ...`.
fn outline(at: Km, length: f64, width: f64, random: &mut Pcg64Mcg) -> String {
    let turn = random.random_range(0.0..std::f64::consts::PI);
    let corners: Vec<String> = (0..7)
        .map(|corner| {
            let angle = std::f64::consts::TAU * f64::from(corner) / 7.0;
            let stretch = random.random_range(0.8..1.0);
            let (x, y) = (length / 2.0 * stretch * angle.cos(), width / 2.0 * stretch * angle.sin());
            let (e, n) = (x * turn.cos() - y * turn.sin(), x * turn.sin() + y * turn.cos());
            let (lon, lat) = exact_degrees((at.0 + e / 1000.0, at.1 + n / 1000.0));
            format!("{lon:.8} {lat:.8}")
        })
        .collect();
    corners.join("; ")
}

fn lognormal(median: f64, sigma: f64, random: &mut Pcg64Mcg) -> f64 {
    // Twelve uniforms less six: near enough to a normal deviate for invented holes.
    let normal: f64 = (0..12).map(|_| random.random_range(0.0..1.0)).sum::<f64>() - 6.0;
    median * (sigma * normal).exp()
}

fn rounded(value: f64, step: f64) -> f64 {
    (value / step).round().max(1.0) * step
}
