//! What is closed and what stays open across the road beside the work, on paper.
//!
//! Metres across, positive towards the bottom of the paper: the right hand of the traffic in the worked lane. The widths are
//! the zone's own; here they are only put on their side of the road.

use model::district::DrivingSide;
use model::place::Travel;
use model::plan::Plan;
use model::road::{Flow, RoadSection};
use model::work_zone::WorkZone;

/// The closed strip and the open one beside it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closure {
    /// Closed, from the upper to the lower edge.
    pub closed: (f64, f64),
    /// Open to the traffic that passes the work; no width where everything is closed.
    pub open: (f64, f64),
}

impl Closure {
    /// At a site of the plan, by where its cuts lie.
    pub fn at(plan: &Plan, site: usize) -> Self {
        let planned = &plan.sites[site];
        let sign = if planned.zone.travel == Travel::Forward { 1.0 } else { -1.0 };
        let corners = planned.jobs.iter().flat_map(|&job| &plan.jobs[job].cut.corners);
        let road = plan.network.section(planned.zone.section);
        Closure::of(&planned.zone, road, plan.district.driving_side, middle(corners.map(|c| c.across_m * sign)))
    }

    /// `cuts` is where the middle of the cuts lies across, if there are any.
    pub fn of(zone: &WorkZone, road: &RoadSection, driving: DrivingSide, cuts: Option<f64>) -> Self {
        let half = (road.width.value / 2.0).max(0.5);
        let keep = if driving == DrivingSide::Right { 1.0 } else { -1.0 };
        // From here positive towards the side traffic keeps to.
        let cuts = cuts.map(|c| c * keep);
        let several = zone.layout.of_several_lanes();
        let inner = if several && road.flow == Flow::Both { 0.0 } else { -half };
        let width = half - inner;
        let open = zone.open_width.value.value;
        let usable = open.is_finite() && (0.0..=width + 0.01).contains(&open);
        let open = if usable { open.min(width) } else { width - road.width.value / f64::from(road.lanes.max(1)) };
        let kept_to = zone.layout.takes_turns() || (zone.layout.on_shoulder() && road.flow == Flow::Both);
        let near = kept_to || cuts.is_none_or(|c| c >= f64::midpoint(inner, half));
        let beyond = if zone.layout.on_shoulder() { f64::INFINITY } else { half };
        let (closed, open) = if near {
            ((inner + open, beyond), (inner, inner + open))
        } else {
            let inner_edge = if zone.layout.on_shoulder() { f64::NEG_INFINITY } else { inner };
            ((inner_edge, half - open), (half - open, half))
        };
        let on_paper = |(a, b): (f64, f64)| if keep > 0.0 { (a, b) } else { (-b, -a) };
        Closure { closed: on_paper(closed), open: on_paper(open) }
    }
}

/// Where the cuts lie across, on the whole; `None` without any.
pub fn middle(across: impl Iterator<Item = f64>) -> Option<f64> {
    let across: Vec<f64> = across.filter(|a| a.is_finite()).collect();
    (!across.is_empty()).then(|| across.iter().sum::<f64>() / across.len() as f64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::figure::{Figure, Source, Why};
    use model::place::Side;
    use model::quantity::{kilometres_per_hour, metres, minutes};
    use model::road::{NodeId, RoadClass, SectionId, Setting, Surface};
    use model::work_zone::{ControlMethod, Coordination, Layout, TrafficControl};

    fn closure(
        layout: Layout,
        flow: Flow,
        lanes: u32,
        width: f64,
        open: f64,
        cuts: f64,
        driving: DrivingSide,
    ) -> Closure {
        let why = Why::new("x", Source::definition());
        let zone = WorkZone {
            section: SectionId(0),
            travel: Travel::Forward,
            side: Side::Right,
            holes: Vec::new(),
            layout,
            layout_name: String::new(),
            layout_source: Source::definition(),
            layout_reason: String::new(),
            control: TrafficControl {
                method: ControlMethod::NoTurns,
                coordination: Coordination::NotNeeded,
                between_ends: metres(0.0),
                reason: String::new(),
            },
            not_laid_out: None,
            duration_class: String::new(),
            work_from: metres(0.0),
            work_to: metres(10.0),
            parts: Vec::new(),
            devices: Vec::new(),
            removing: Vec::new(),
            flaggers: Figure::exact(0, why.clone()),
            queue: None,
            out: Vec::new(),
            back: Vec::new(),
            set_up: Figure::exact(minutes(1.0), why.clone()),
            take_in: Figure::exact(minutes(1.0), why.clone()),
            open_width: Figure::exact(metres(open), why),
            passable: true,
            people_needed: 2,
            shared: None,
            remarks: Vec::new(),
        };
        let road = RoadSection {
            id: SectionId(0),
            source_id: String::new(),
            from: NodeId(0),
            to: NodeId(1),
            line: Vec::new(),
            length: metres(100.0),
            class: RoadClass::Tertiary,
            name: String::new(),
            number: String::new(),
            speed: kilometres_per_hour(50.0),
            lanes,
            width: metres(width),
            shoulder: metres(1.0),
            flow,
            surface: Surface::SurfaceTreated,
            vehicles_per_day: None,
            setting: Setting::Rural,
            structure: None,
            roundabout: false,
            truck: model::road::TruckAccess::default(),
            defaulted: Vec::new(),
        };
        Closure::of(&zone, &road, driving, Some(cuts))
    }

    /// By hand: a road of width w reaches from -w/2 to w/2; what is not open is closed, on the side the work is on.
    #[test]
    fn what_is_not_open_is_closed() {
        use DrivingSide::{Left, Right};
        use Layout::{LaneClosureMultilane, LaneClosureTwoWay, Shoulder};
        let inf = f64::INFINITY;
        for (layout, flow, lanes, width, open, cuts, driving, closed, left) in [
            (LaneClosureTwoWay, Flow::Both, 2, 7.0, 3.5, 2.0, Right, (0.0, 3.5), (-3.5, 0.0)),
            (LaneClosureTwoWay, Flow::Both, 2, 7.0, 3.5, -2.0, Left, (-3.5, 0.0), (0.0, 3.5)),
            (LaneClosureTwoWay, Flow::Both, 1, 4.0, 1.5, 0.5, Right, (-0.5, 2.0), (-2.0, -0.5)),
            (LaneClosureTwoWay, Flow::Forward, 1, 3.5, 0.0, 0.5, Right, (-1.75, 1.75), (-1.75, -1.75)),
            (LaneClosureMultilane, Flow::Both, 4, 14.0, 3.5, 5.0, Right, (3.5, 7.0), (0.0, 3.5)),
            (LaneClosureMultilane, Flow::Both, 4, 14.0, 3.5, 1.0, Right, (0.0, 3.5), (3.5, 7.0)),
            (LaneClosureMultilane, Flow::Forward, 2, 7.0, 3.5, 2.0, Left, (0.0, 3.5), (-3.5, 0.0)),
            (Shoulder, Flow::Both, 2, 7.0, 7.0, 4.0, Right, (3.5, inf), (-3.5, 3.5)),
            (Shoulder, Flow::Both, 2, 7.0, 6.2, -4.0, Left, (-inf, -2.7), (-2.7, 3.5)),
        ] {
            let found = closure(layout, flow, lanes, width, open, cuts, driving);
            let same = |a: f64, b: f64| a == b || (a - b).abs() < 1e-9;
            let agree = same(found.closed.0, closed.0) && same(found.closed.1, closed.1) && same(found.open.0, left.0);
            assert!(agree && same(found.open.1, left.1), "{layout:?} {lanes} lanes, {driving:?}: {found:?}");
        }
    }

    #[test]
    fn an_unusable_open_width_closes_one_lane() {
        let found = closure(Layout::LaneClosureTwoWay, Flow::Both, 2, 7.0, f64::NAN, 2.0, DrivingSide::Right);
        assert_eq!(found.closed, (0.0, 3.5));
    }
}
