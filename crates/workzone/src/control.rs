//! Who controls traffic that takes turns, and how the ends know of each other.

use model::figure::{Figure, Why};
use model::rules::traffic::TrafficRules;
use model::work_zone::{ControlMethod, Coordination, Layout, TrafficControl};

use crate::ZoneInput;
use crate::frame::two_way;
use crate::parts::Parts;
use crate::text::{FORGIVEN, distance_words};

/// Flaggers: one for each end where traffic takes turns, one where both directions see him or a one-way road must be
/// stopped, none elsewhere.
pub fn flaggers(input: &ZoneInput, layout: Layout, rules: &TrafficRules) -> Figure<u32> {
    let rule = &rules.flagging.two_way_flaggers;
    if !layout.flagger_each_end() && layout != Layout::LaneClosureOneFlagger {
        let words = if layout.takes_turns() {
            "no flagger: traffic sorts itself out"
        } else {
            "no flagger: traffic does not take turns"
        };
        return Figure::exact(0, Why::new(words, rules.layouts.of(layout).source.clone()));
    }
    if layout == Layout::LaneClosureOneFlagger {
        let source = rules.flagging.single_flagger_work_space_max.source.clone();
        return Figure::exact(1, Why::new("one flagger, seen from both directions", source));
    }
    if two_way(input.section) {
        let why = Why::new("one flagger at each end", rule.source.clone()).with("flaggers", rule.value);
        Figure::exact(rule.value, why)
    } else {
        let why = Why::new("one flagger: one direction of traffic to stop", rule.source.clone());
        Figure::exact(1, why)
    }
}

/// How traffic that takes turns is controlled, and whether those who do it see each other over the length between them.
pub fn control(input: &ZoneInput, layout: Layout, parts: &Parts, rules: &TrafficRules) -> TrafficControl {
    let units = rules.units;
    let apart = parts.restriction() + parts.closure_end();
    let (method, coordination, reason) = if !layout.takes_turns() {
        let reason = "Each direction keeps a lane of its own: nobody waits for anybody.";
        return TrafficControl {
            method: ControlMethod::NoTurns,
            coordination: Coordination::NotNeeded,
            between_ends: units.length(0.0),
            reason: reason.into(),
        };
    } else if layout == Layout::LaneClosureOneFlagger {
        (ControlMethod::OneFlagger, Coordination::NotNeeded, "One flagger, seen from both directions.".to_owned())
    } else if !layout.flagger_each_end() {
        (ControlMethod::SelfRegulating, Coordination::NotNeeded, "Drivers see each other and take turns.".to_owned())
    } else if !two_way(input.section) {
        (ControlMethod::OneFlagger, Coordination::NotNeeded, "One direction of traffic to stop.".to_owned())
    } else {
        let length = distance_words(apart.round(), units);
        let (coordination, seen) = match input.sight.map(|sight| units.distance_of(sight)) {
            Some(seen) if seen + FORGIVEN >= apart => (Coordination::BySight, "they see each other"),
            Some(seen) if seen.is_finite() => (Coordination::ByRadioOrPilot, "they do not see each other"),
            _ => (Coordination::ByRadioOrPilot, "whether they see each other is not known"),
        };
        let how = match coordination {
            Coordination::BySight => "by sight",
            Coordination::NotNeeded | Coordination::ByRadioOrPilot => "radio, or a pilot vehicle",
        };
        (ControlMethod::FlaggerEachEnd, coordination, format!("The flaggers stand {length} apart and {seen}: {how}."))
    };
    TrafficControl { method, coordination, between_ends: units.length(apart), reason }
}
