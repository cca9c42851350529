//! What a layout asks of the road and of the crew.

use model::quantity::feet;
use model::rules::traffic::TrafficRules;
use model::work_zone::WorkZone;

/// Whether traffic can pass the work at all: the width left open is at least the rule's. Where it is not, the road must
/// be closed or traffic led round, which the authorised person decides.
pub fn passable(zone: &WorkZone, rules: &TrafficRules) -> bool {
    // A tenth of a millimetre: widths come from maps and are not exact to the last bit.
    zone.open_width.value + model::quantity::millimetres(0.1) >= feet(rules.across.open_width_min_ft.value)
}

/// People without whom nothing goes on: the flaggers and those at the hole.
pub fn people_needed(zone: &WorkZone, rules: &TrafficRules) -> u32 {
    zone.flaggers.value + rules.flagging.workers_min.value
}
