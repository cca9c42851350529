//! What a layout asks of the road and of the crew.

use model::quantity::millimetres;
use model::rules::traffic::TrafficRules;
use model::work_zone::Layout;

/// Whether traffic can pass the work at all: the width left open is at least the rule's. Shoulder work is laid out as
/// such only where it leaves its lane enough (see [`crate::lay_out`]), so traffic passes it as it passes the road
/// elsewhere.
pub(crate) fn passable(layout: Layout, open: f64, rules: &TrafficRules) -> bool {
    layout.on_shoulder() || enough_open(open, rules)
}

/// Whether a width in the rule set's unit is the least that must stay open, or more.
pub(crate) fn enough_open(width: f64, rules: &TrafficRules) -> bool {
    // A tenth of a millimetre: widths come from maps and are not exact to the last bit.
    rules.units.length(width) + millimetres(0.1) >= rules.units.length(rules.across.open_width_min.value)
}

/// People without whom nothing goes on: the flaggers and those at the hole.
pub(crate) fn people_needed(flaggers: u32, rules: &TrafficRules) -> u32 {
    flaggers.saturating_add(rules.flagging.workers_min.value)
}
