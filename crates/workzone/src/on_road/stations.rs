//! Flaggers where the road ends before their place, and where roads join between them.

use model::quantity::{InLength, Length, metres};
use model::road_around::{AxisEnd, SideRoad};
use model::work_zone::{Device, DeviceKind, Layout, WorkZone};

use super::Road;
use super::approach::{Approach, SAME_PLACE_M, ends_in_truth};
use super::find::{Against, Fate, Found, against, find, not_known, steps};
use super::joining::in_words;
use super::said::Said;
use super::series::{Settled, stand_on_side_road};
use crate::joins;
use crate::order::Step;

/// The place of a flagger whose rule puts him at `fell_on`; the closure begins at `closed_from`.
pub(crate) fn find_station(device: &Device, fell_on: f64, closed_from: f64, approach: &Approach, road: &Road) -> Found {
    if fell_on < approach.road_from {
        return where_the_road_ends(device, closed_from, approach, road);
    }
    let found = find(device, fell_on, true, approach, road);
    let nowhere = found.unsolved.is_some() && found.fate == Fate::OnAxis(fell_on);
    let chainage = approach.chainage(fell_on);
    if nowhere && super::find::occupied(chainage, road).is_some() {
        let at_the_end = where_the_road_ends(device, closed_from, approach, road);
        // Only what is better than a place that can't be: the map's edge is not.
        if !matches!(at_the_end.fate, Fate::Unknown(_)) && fell_on - approach.road_from < most_moved(road) {
            return at_the_end;
        }
    }
    found
}

fn most_moved(road: &Road) -> f64 {
    let (step, count) = steps(road);
    step * f64::from(count)
}

/// The road ends before his place. Where all that comes turns in at a junction, he stands between it and the closure as
/// soon as there is room for those who wait; else one stands on each road there. On a dead end he stands at its end.
fn where_the_road_ends(device: &Device, closed_from: f64, approach: &Approach, road: &Road) -> Found {
    let end = approach.road_end;
    let arms = approach.arms(road);
    let because = |words: &str| vec![words.to_owned()];
    let dead_end = !approach.one_way_before && ends_in_truth(end, approach.end_class, road);
    if dead_end || arms.is_empty() && is_a_junction(end, approach) {
        return if approach.road_from < closed_from - SAME_PLACE_M {
            Found::solved(
                Fate::OnAxis(approach.road_from),
                because("the road ends before his place: only those come who start there"),
            )
        } else {
            Found::solved(
                Fate::LeftOut("the closure reaches the end of the road, and nothing comes from beyond".into()),
                Vec::new(),
            )
        };
    }
    if !is_a_junction(end, approach) {
        return Found::solved(Fate::Unknown(not_known(end).into()), Vec::new());
    }
    let what = if end == AxisEnd::Roundabout { "a roundabout" } else { "a junction" };
    let room = road.rules.units.length(road.rules.junctions.approach_within.value).in_metres();
    let (step, _) = steps(road);
    let mut here = approach.road_from + room;
    while here <= closed_from {
        // Who turns in sees him from the junction at most.
        let most = here - approach.road_from;
        if let Against::Nothing = against(device, here, Some(most), approach, road) {
            return Found::solved(
                Fate::OnAxis(here),
                because(&format!(
                    "the road ends at {what} before his place: all that comes turns in there, and has room to wait"
                )),
            );
        }
        here += step;
    }
    let clear = road.rules.units.length(road.rules.placing.junction_clear.value).in_metres();
    Found::solved(
        Fate::OnArms(clear),
        because(&format!("the road ends at {what} before his place, too near for those who wait")),
    )
}

fn is_a_junction(end: AxisEnd, approach: &Approach) -> bool {
    approach.one_way_before || matches!(end, AxisEnd::Junction | AxisEnd::Roundabout | AxisEnd::Loop)
}

/// Where the flagger against the traffic worked in stands at most downstream: before the junction that the work lies in the
/// approach of, as his traffic meets it, so that nobody is stopped in it.
pub(crate) fn before_the_junction(zone: &WorkZone, approach: &Approach, road: &Road) -> Option<f64> {
    if zone.layout != Layout::JunctionApproachTwoWay || approach.worked {
        return None;
    }
    let clear = road.rules.units.length(road.rules.placing.junction_clear.value).in_metres();
    let counts = &road.rules.placing.side_road_classes.value;
    let sides = road.around.side_roads.iter().filter(|side| counts.contains(&side.class)).map(|side| side.at);
    let rings = road.around.axis.junctions.iter().filter(|junction| junction.roundabout).map(|j| j.chainage);
    let cuts = [road.input.work.from, road.input.work.to].map(|at| approach.downstream(at)).into_iter();
    let cuts_from = cuts.fold(f64::INFINITY, f64::min);
    sides
        .chain(rings)
        .map(|at| approach.downstream(at))
        .filter(|at| *at <= cuts_from + SAME_PLACE_M)
        .max_by(f64::total_cmp)
        .map(|at| at - clear)
}

/// A flagger on each road that joins between the flaggers at the ends, from the smaller chainage to the larger.
pub(crate) fn on_roads_that_join(
    (from, to): (Length, Length),
    approach: &Approach,
    road: &Road,
    said: &mut Said,
) -> Vec<Settled> {
    let same = metres(SAME_PLACE_M);
    let inside = |side: &&SideRoad| side.at > from + same && side.at < to - same && joins(side, road.rules);
    let clear = road.rules.units.length(road.rules.placing.junction_clear.value);
    let source = &road.rules.placing.junction_clear.source;
    let own = &road.rules.junctions.flagger_classes.value;
    let (legs, others): (Vec<&SideRoad>, Vec<&SideRoad>) =
        road.around.side_roads.iter().filter(inside).partition(|side| own.contains(&side.class));
    said.let_out_by_the_crew(&others.iter().map(|side| in_words(side)).collect::<Vec<_>>());
    said.held_by_flaggers(&legs.iter().map(|side| in_words(side)).collect::<Vec<_>>());
    legs.into_iter()
        .map(|side| {
            let why = model::figure::Why::new("beside the road that joins, clear of the junction", source.clone())
                .with("road that joins", &side.name);
            let mut device = Device {
                kind: DeviceKind::FlaggerStation,
                designation: String::new(),
                legend: "flagger with STOP/SLOW paddle".into(),
                approach: approach.travel,
                chainage: side.at,
                across: metres(0.0),
                spacing: metres(0.0),
                why,
                spot: None,
            };
            stand_on_side_road(&mut device, side, clear, road);
            Settled { device, step: Step::JoiningStation, downstream: approach.downstream(side.at), moved: 0.0 }
        })
        .collect()
}
