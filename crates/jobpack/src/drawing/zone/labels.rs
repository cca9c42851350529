//! Devices that have a number and words: where their labels stand, beside the road in one row or more.

use model::place::Side;
use model::quantity::metres;
use model::work_zone::{Device, DeviceKind, WorkZone};

use super::symbols::{SYMBOL, moved_mark, station_symbol, vehicle_symbol};
use super::{Edge, MARGIN, SHOULDER, SMALL, Sheet, WIDTH, ZonePicture, along};
use crate::centre_line::CentreLine;
use crate::display::Units;
use crate::printable::printable;
use crate::svg::{Drawing, clip, stroke, weight, wrap};

/// Room that a label wants along the road, millimetres.
pub const ROOM: f64 = 20.0;
/// From the shoulder's edge to the line of distances.
pub const DISTANCES: f64 = 8.0;
/// From the shoulder's edge to the end of a row without labels: cone numbers may stand there.
const BARE: f64 = 5.0;
/// Room in which leaders go aside from where the device stands to where its label has room.
const FAN: f64 = 3.2;
/// Least room for words; with less only the numbers are drawn.
const WORDS_FROM: f64 = 11.5;
/// Width of a side road's mouth on paper.
pub const MOUTH: f64 = 6.0;
/// Lines of words at most.
const LINES: usize = 5;
/// From line to line.
const STEP: f64 = SMALL.size * 1.14;
/// Between labels.
const GAP: f64 = 1.0;

/// The labels on one side of the road.
pub struct LabelRow {
    /// Which side.
    pub edge: Edge,
    /// In the order of the paper.
    pub labels: Vec<Label>,
    /// Lines of words in each tier, from the road outward.
    lines: Vec<usize>,
}

/// One of them.
pub struct Label {
    /// Index of the device.
    pub device: usize,
    /// Where the device stands along the paper.
    pub at: f64,
    /// Where the label stands.
    x: f64,
    tier: usize,
    words: Vec<String>,
}

/// Devices that get a label on one side, in the order of the paper. What stands on a side road is on the side that the road
/// joins from: its distance across is told from that road.
pub fn stations(picture: &ZonePicture, sign: f64, edge: Edge) -> Vec<usize> {
    let zone = picture.zone;
    let axis = CentreLine::of(picture.road);
    let right_of = |device: &Device| {
        let spot = device.spot.as_ref().filter(|s| s.side_road.is_some());
        let side = spot.and_then(|s| axis.side(device.chainage, s.place));
        side.map_or(device.across.value, |side| if side == Side::Right { 1.0 } else { -1.0 })
    };
    let mut stations: Vec<usize> = (0..zone.devices.len())
        .filter(|&i| {
            let device = &zone.devices[i];
            let below = right_of(device) * sign > 0.0;
            device.kind != DeviceKind::Cone && device.chainage.value.is_finite() && below == (edge == Edge::Bottom)
        })
        .collect();
    // Out of one side road the nearest is the first.
    let in_it = |device: &Device| device.spot.as_ref().and_then(|s| s.side_road.as_ref()).map_or(0.0, |(_, d)| d.value);
    stations.sort_by(|a, b| {
        let (a, b) = (&zone.devices[*a], &zone.devices[*b]);
        along(a, sign).total_cmp(&along(b, sign)).then(in_it(a).total_cmp(&in_it(b)))
    });
    stations
}

impl LabelRow {
    /// Finds room for the labels of `stations`, which stand at `wanted` along the paper.
    pub fn new(zone: &WorkZone, units: Units, edge: Edge, stations: &[usize], wanted: &[f64]) -> Self {
        let across = WIDTH - 2.0 * MARGIN;
        let gaps = stations.len().saturating_sub(1) as f64;
        // In one tier where there is room, else every other one further out. The leader of an outer label passes between
        // two inner ones, so neither may be wider than the gaps beside it.
        let (tiers, pitch, room) = if gaps * ROOM <= across {
            (1, ROOM, ROOM - GAP)
        } else {
            let pitch = (across / gaps).min(ROOM);
            (2, pitch, (2.0 * pitch - 2.0 * GAP).min(ROOM))
        };
        let placed = spread_out(wanted, pitch, MARGIN, WIDTH - MARGIN);
        let labels: Vec<Label> = stations
            .iter()
            .enumerate()
            .map(|(place, &device)| Label {
                device,
                at: wanted[place],
                x: placed[place],
                tier: place % tiers,
                words: if room < WORDS_FROM { Vec::new() } else { words(&zone.devices[device], units, room) },
            })
            .collect();
        let lines = (0..tiers)
            .map(|tier| labels.iter().filter(|l| l.tier == tier).map(|l| l.words.len()).max().unwrap_or(0))
            .collect();
        LabelRow { edge, labels, lines }
    }

    /// From the shoulder's edge to the end of the words.
    pub fn height(&self) -> f64 {
        if self.labels.is_empty() { BARE } else { self.tier_from(self.lines.len()) }
    }

    /// From the shoulder's edge to where a tier begins.
    fn tier_from(&self, tier: usize) -> f64 {
        let before: f64 = self.lines[..tier].iter().map(|lines| SYMBOL.1 + STEP * *lines as f64 + 2.0).sum();
        DISTANCES + FAN + before
    }
}

/// What stands beside the symbol.
fn words(device: &Device, units: Units, room: f64) -> Vec<String> {
    let spot = device.spot.as_ref();
    let mut lines: Vec<String> = Vec::new();
    if !device.designation.is_empty() {
        lines.push(clip(&device.designation, SMALL.size, room));
    }
    let what = match device.kind {
        DeviceKind::FlaggerStation => units.words.say("drawing-flagger"),
        DeviceKind::ShieldVehicle => units.words.say("drawing-shield-vehicle"),
        DeviceKind::Sign | DeviceKind::Cone => units.rule_text(&device.legend),
    };
    let mut notes: Vec<String> = Vec::new();
    if let Some((road, distance)) = spot.and_then(|s| s.side_road.as_ref()) {
        notes.extend(wrap(
            &units.words.say_with("drawing-on-road", [("road", printable(road).as_ref().into())]),
            SMALL.size,
            room,
            2,
        ));
        let into = units.words.say_with("drawing-into-road", [("distance", units.along(*distance).into())]);
        notes.push(clip(&into, SMALL.size, room));
    }
    if let Some(moved) = spot.map(|s| s.moved).filter(|m| m.value.abs() > 0.05) {
        let words = units.words.say_with("drawing-moved-by", [("distance", units.along(moved.abs()).into())]);
        notes.extend(wrap(&words, SMALL.size, room, 2));
    }
    let left = LINES.saturating_sub(lines.len() + notes.len()).max(2);
    lines.extend(wrap(&what, SMALL.size, room, left));
    lines.extend(notes);
    lines.retain(|line| !line.is_empty());
    lines
}

/// Moves labels apart along a row, as little as needed, inside the paper.
fn spread_out(wanted: &[f64], gap: f64, left: f64, right: f64) -> Vec<f64> {
    let mut placed = wanted.to_vec();
    let gap = if wanted.len() > 1 { gap.min((right - left) / (wanted.len() - 1) as f64) } else { gap };
    let mut floor = left;
    for x in &mut placed {
        *x = x.max(floor);
        floor = *x + gap;
    }
    let mut ceiling = right;
    for x in placed.iter_mut().rev() {
        *x = x.min(ceiling);
        ceiling = *x - gap;
    }
    placed
}

impl Sheet<'_> {
    /// Where side roads join, along the paper.
    pub fn mouths(&self, edge: Edge) -> Vec<f64> {
        let row = if edge == Edge::Top { &self.top } else { &self.bottom };
        let joins = |label: &&Label| {
            let spot = self.zone.devices[label.device].spot.as_ref();
            spot.is_some_and(|s| s.side_road.is_some())
        };
        row.labels.iter().filter(joins).map(|label| label.at).collect()
    }

    /// Symbols with number and words, each with a leader to where the device stands.
    pub fn labels(&self, drawing: &mut Drawing, row: &LabelRow) {
        let (edge, out) = self.edge(row.edge);
        let mut on_side_road = 0;
        let mut last_junction = f64::NAN;
        for label in &row.labels {
            let device = &self.zone.devices[label.device];
            let spot = device.spot.as_ref();
            let side_road = spot.is_some_and(|s| s.side_road.is_some());
            let foot = if side_road {
                on_side_road = if (label.at - last_junction).abs() < 0.01 { on_side_road + 1 } else { 0 };
                last_junction = label.at;
                self.side_road(drawing, row.edge, label.at);
                (label.at, edge + out * (1.2 + 1.6 * f64::from(on_side_road.min(2))))
            } else {
                (label.at, self.y(device.across.value))
            };
            let fan = (edge + out * (DISTANCES + 0.8), edge + out * (DISTANCES + FAN - 0.4));
            let near = edge + out * row.tier_from(label.tier);
            let symbol = (label.x, near + out * SYMBOL.1 / 2.0);
            drawing.path(&[foot, (label.at, fan.0), (label.x, fan.1), (label.x, near)], false, &stroke(weight::FINE));
            if device.kind == DeviceKind::ShieldVehicle {
                vehicle_symbol(drawing, foot);
            } else {
                drawing.circle(foot, 0.75, "fill=\"#000\"");
            }
            station_symbol(drawing, device.kind, symbol, &(label.device + 1).to_string());
            if spot.is_some_and(|s| s.moved.value.abs() > 0.05) {
                moved_mark(drawing, symbol);
            }
            let lines = label.words.len() as f64;
            let first = match row.edge {
                Edge::Top => near - SYMBOL.1 - 1.1 - STEP * (lines - 1.0),
                Edge::Bottom => near + SYMBOL.1 + 0.6 + SMALL.size * 0.76,
            };
            for (index, line) in label.words.iter().enumerate() {
                drawing.text((label.x, first + STEP * index as f64), line, SMALL.middle());
            }
        }
    }

    /// A road that joins: its mouth at the junction's chainage.
    fn side_road(&self, drawing: &mut Drawing, side: Edge, x: f64) {
        let (edge, out) = self.edge(side);
        let road = edge - out * SHOULDER;
        let far = edge + out * (DISTANCES - 2.6);
        let half = MOUTH / 2.0;
        let ground = [(x - half, road - out * 0.6), (x + half, road - out * 0.6), (x + half, far), (x - half, far)];
        drawing.path(&ground, true, "fill=\"#f4f4f4\"");
        for dx in [-half, half] {
            drawing.line((x + dx, road), (x + dx, far), &stroke(weight::LINE));
        }
    }
}

/// Words for the key and for those who hear the drawing.
pub fn moved(zone: &WorkZone) -> bool {
    zone.devices.iter().filter_map(|d| d.spot.as_ref()).any(|s| s.moved.abs() > metres(0.05))
}

#[cfg(test)]
mod tests {
    use super::spread_out;

    #[test]
    fn labels_move_apart_as_little_as_needed() {
        assert_eq!(spread_out(&[10.0, 50.0], 20.0, 10.0, 170.0), [10.0, 50.0]);
        assert_eq!(spread_out(&[40.0, 45.0], 20.0, 10.0, 170.0), [40.0, 60.0]);
        assert_eq!(spread_out(&[160.0, 170.0], 20.0, 10.0, 170.0), [150.0, 170.0]);
        // Too many for the gap: evenly.
        assert_eq!(spread_out(&[10.0; 5], 60.0, 10.0, 170.0), [10.0, 50.0, 90.0, 130.0, 170.0]);
    }
}
