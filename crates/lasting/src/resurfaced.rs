//! Stretches of road that got a new surface: what lies under one is no longer watched, and what is watched begins anew.

use std::collections::HashMap;

use jiff::Timestamp;
use model::place::Side;

use crate::patch_lives::OnRoad;

/// A stretch of one road section that got a new surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Resurfaced {
    /// The road section, as in [`OnRoad::road`].
    pub road: String,
    /// From and to along it, m, the smaller first.
    pub stretch_m: (f64, f64),
    /// The side that was done; `None`: the whole width.
    pub side: Option<Side>,
    /// When it was done.
    pub at: Timestamp,
}

/// What was resurfaced, to be asked by place.
#[derive(Debug, Default)]
pub struct Resurfacings<'r> {
    by_road: HashMap<&'r str, Vec<&'r Resurfaced>>,
}

impl<'r> Resurfacings<'r> {
    /// Of all stretches.
    pub fn of(all: &'r [Resurfaced]) -> Self {
        let mut by_road: HashMap<&str, Vec<&Resurfaced>> = HashMap::new();
        for one in all {
            by_road.entry(&one.road).or_default().push(one);
        }
        Resurfacings { by_road }
    }

    /// The first over a place after a moment.
    pub fn first_after(&self, place: &OnRoad, after: Timestamp) -> Option<Timestamp> {
        self.over(place).filter(|at| *at > after).min()
    }

    /// The last over a place up to a moment.
    pub fn last_until(&self, place: &OnRoad, until: Timestamp) -> Option<Timestamp> {
        self.over(place).filter(|at| *at <= until).max()
    }

    /// The part of a span of time in which a stretch of road has been watched under the surface that it has at the end, 0 to 1.
    /// Where only some of its metres or one of its sides got a new one, their part of it counts.
    pub fn watched_part(&self, road: &str, stretch_m: (f64, f64), span: (Timestamp, Timestamp)) -> f64 {
        let ((from, to), (begin, end)) = (stretch_m, span);
        let on_it = self
            .by_road
            .get(road)
            .into_iter()
            .flatten()
            .filter(|over| over.stretch_m.0 < to && over.stretch_m.1 > from && (begin..=end).contains(&over.at));
        let on_it: Vec<&Resurfaced> = on_it.copied().collect();
        let seconds = end.duration_since(begin).as_secs_f64();
        if on_it.is_empty() || seconds <= 0.0 {
            return 1.0;
        }
        let mut cuts: Vec<f64> = on_it.iter().flat_map(|over| [over.stretch_m.0, over.stretch_m.1]).collect();
        cuts.extend([from, to]);
        cuts.retain(|cut| (from..=to).contains(cut));
        cuts.sort_by(f64::total_cmp);
        let mut watched = 0.0;
        for piece in cuts.windows(2) {
            let middle = f64::midpoint(piece[0], piece[1]);
            for side in [Side::Left, Side::Right] {
                let last = on_it.iter().filter(|over| over.covers(middle, side)).map(|over| over.at).max();
                let since = end.duration_since(last.unwrap_or(begin)).as_secs_f64();
                watched += 0.5 * (piece[1] - piece[0]) * since / seconds;
            }
        }
        watched / (to - from)
    }

    fn over(&self, place: &OnRoad) -> impl Iterator<Item = Timestamp> {
        let (chainage_m, side) = (place.chainage_m, place.side);
        let on_road = self.by_road.get(place.road.as_str()).into_iter().flatten();
        on_road.filter(move |over| over.covers(chainage_m, side)).map(|over| over.at)
    }
}

impl Resurfaced {
    fn covers(&self, chainage_m: f64, side: Side) -> bool {
        let (from, to) = self.stretch_m;
        (from..=to).contains(&chainage_m) && self.side.is_none_or(|done| done == side)
    }
}
