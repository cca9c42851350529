//! The order in which a compactor goes over the floor: from the corners towards the middle.

use model::quantity::metres;
use model::repair::{CompactionPattern, Stroke};
use model::rules::repair::WorkedIn;

use super::ground::Part;
use super::{Ground, Machine};

/// The lanes of a machine over one layer, in order.
///
/// The outermost lanes come first, one along each side from opposite corners, then the next inwards; the middle comes last.
/// A machine that works inside the cut keeps half of its free play off every side. One that works in blows goes from both
/// ends of a lane to its middle.
pub fn pattern(machine: &Machine, ground: &Ground) -> CompactionPattern {
    let off = if machine.fits(ground) { machine.practice.clearance_m.value / 2.0 } else { 0.0 };
    let parts = machine.parts(ground);
    let strokes = parts.iter().flat_map(|part| strokes(machine, ground, part, off)).collect();
    CompactionPattern { compactor: machine.kind.words().to_owned(), width: machine.width, strokes }
}

impl Machine<'_> {
    /// The parts of the floor it goes over, one after the other.
    pub(crate) fn parts(&self, ground: &Ground) -> Vec<Part> {
        let practice = self.practice;
        ground.parts(self.room_across(), metres(practice.room_along_m.value), metres(practice.lane_overlap_m.value))
    }
}

/// One lane: how far across it runs and between which ends.
struct Lane {
    across: f64,
    ends: [f64; 2],
}

fn strokes(machine: &Machine, ground: &Ground, part: &Part, off: f64) -> Vec<Stroke> {
    let width = machine.width.value;
    let count = machine.lanes_of(part, 1.0) as usize;
    let across = spread(part.cover[1 - part.lane], part.walls[1 - part.lane], width, off, count);
    let foot = if machine.practice.worked_in.value == WorkedIn::Blows { width / 2.0 } else { 0.0 };
    let ends = within(part.cover[part.lane], part.walls[part.lane], off + foot);
    let point = |lane: &Lane, at: f64| match part.lane {
        0 => ground.on_road(at, lane.across),
        _ => ground.on_road(lane.across, at),
    };
    let mut strokes = Vec::new();
    for (turn, index) in inwards(count).enumerate() {
        let lane = Lane { across: across[index], ends };
        let [near, far] = lane.ends;
        match machine.practice.worked_in.value {
            WorkedIn::Lanes => {
                // From opposite corners in turn.
                let [from, to] = if turn % 2 == 0 { [near, far] } else { [far, near] };
                strokes.push(Stroke { from: point(&lane, from), to: point(&lane, to) });
            }
            WorkedIn::Blows => {
                let middle = f64::midpoint(near, far);
                strokes.extend([near, far].map(|end| Stroke { from: point(&lane, end), to: point(&lane, middle) }));
            }
        }
    }
    strokes
}

/// Middles of `count` lanes, evenly spread so that the outer ones lie along the ends of what they cover and none is nearer
/// to a wall than `off`.
fn spread(cover: [f64; 2], walls: [f64; 2], width: f64, off: f64, count: usize) -> Vec<f64> {
    let [first, last] = within(cover, walls, off + width / 2.0);
    let reach = [(cover[0] + width / 2.0).max(first), (cover[1] - width / 2.0).min(last)];
    if count < 2 || reach[0] >= reach[1] {
        let middle = f64::midpoint(cover[0], cover[1]);
        return vec![if first <= last { middle.clamp(first, last) } else { middle }; count];
    }
    let step = (reach[1] - reach[0]) / (count - 1) as f64;
    (0..count).map(|lane| reach[0] + step * lane as f64).collect()
}

/// The part of `cover` that is `off` from the walls; its middle where there is none.
fn within(cover: [f64; 2], walls: [f64; 2], off: f64) -> [f64; 2] {
    let inner = [cover[0].max(walls[0] + off), cover[1].min(walls[1] - off)];
    if inner[0] <= inner[1] { inner } else { [f64::midpoint(cover[0], cover[1]); 2] }
}

/// First, last, second, last but one, ...: outside first.
fn inwards(count: usize) -> impl Iterator<Item = usize> {
    (0..count).map(move |turn| if turn % 2 == 0 { turn / 2 } else { count - 1 - turn / 2 })
}
