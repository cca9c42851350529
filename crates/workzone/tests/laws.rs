//! Laws that hold for every zone.

mod common;

use common::{SETS, input, rules, set, two_lane};
use model::district::DrivingSide;
use model::place::{Side, Travel};
use model::quantity::{InLength, feet, metres, miles_per_hour, minutes};
use model::road::{Flow, RoadSection, SectionId, Setting};
use model::rules::traffic::TrafficRules;
use model::work_zone::{ControlMethod, Coordination, Device, DeviceKind, Layout, WorkZone, ZonePartKind};
use proptest::prelude::*;
use workzone::{LaneCut, Stay, ZoneInput, design_speed, device_count, lay_out, share};

/// A road and the work on it, owned.
#[derive(Debug, Clone)]
struct Case {
    road: RoadSection,
    travel: Travel,
    side: Side,
    driving_side: DrivingSide,
    along: (f64, f64),
    across: (f64, f64),
    shoulder_only: bool,
    vehicles: u32,
    set: &'static str,
    stay: Stay,
    night: bool,
    minutes: f64,
    sight: Option<f64>,
    junction: Option<f64>,
}

impl Case {
    fn lay_out(&self) -> WorkZone {
        let mut input: ZoneInput = input(&self.road);
        (input.travel, input.side, input.driving_side) = (self.travel, self.side, self.driving_side);
        (input.work.from, input.work.to) = (metres(self.along.0), metres(self.along.1));
        (input.work.across_from, input.work.across_to) = (feet(self.across.0), feet(self.across.1));
        (input.shoulder_only, input.vehicles) = (self.shoulder_only, self.vehicles);
        (input.stay, input.night, input.duration) = (self.stay, self.night, minutes(self.minutes));
        (input.sight, input.junction_ahead) = (self.sight.map(metres), self.junction.map(metres));
        lay_out(&input, &self.rules())
    }

    fn rules(&self) -> TrafficRules {
        set(self.set)
    }

    /// The same road numbered from its other end.
    fn turned_round(&self) -> Case {
        let mut turned = self.clone();
        turned.travel = self.travel.opposite();
        turned.side = other(self.side);
        turned.road.flow = match self.road.flow {
            Flow::Both => Flow::Both,
            Flow::Forward => Flow::Backward,
            Flow::Backward => Flow::Forward,
        };
        let length = self.road.length.in_metres();
        turned.along = (length - self.along.1, length - self.along.0);
        turned.across = (-self.across.1, -self.across.0);
        turned
    }

    /// The same road in a mirror: traffic keeps to the other side.
    fn mirrored(&self) -> Case {
        let mut mirrored = self.clone();
        mirrored.side = other(self.side);
        mirrored.across = (-self.across.1, -self.across.0);
        mirrored.driving_side = match self.driving_side {
            DrivingSide::Left => DrivingSide::Right,
            DrivingSide::Right => DrivingSide::Left,
        };
        mirrored
    }
}

fn other(side: Side) -> Side {
    match side {
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    }
}

fn case() -> impl Strategy<Value = Case> {
    let road = (5.0..75.0f64, 0u32..6, 8.0..60.0f64, 0.0..14.0f64, 50.0..3000.0f64, any::<bool>(), 0..3);
    let work = (0.0..1.0f64, 0.0..60.0f64, -1.2..1.2f64, 0.5..8.0f64);
    let flags = (any::<bool>(), any::<bool>(), any::<bool>(), proptest::bool::weighted(0.2), 0u32..4);
    let known = (
        proptest::sample::select(SETS.to_vec()),
        proptest::sample::select(vec![Stay::Stationary, Stay::ShortDuration, Stay::Mobile]),
        proptest::bool::weighted(0.2),
        1.0..200.0f64,
        proptest::option::of(0.0..1500.0f64),
        proptest::option::weighted(0.2, 0.0..100.0f64),
        proptest::option::of(0.0..900.0f64),
    );
    (road, work, flags, known).prop_map(
        |((mph, lanes, width, shoulder, length, urban, flow), (at, long, place, wide), flags, known)| {
            let (forward, right, keeps_right, shoulder_only, vehicles) = flags;
            let mut road = two_lane(mph);
            (road.lanes, road.width, road.shoulder, road.length) = (lanes, feet(width), feet(shoulder), metres(length));
            road.speed = miles_per_hour(mph);
            road.setting = if urban { Setting::Urban } else { Setting::Rural };
            road.flow = [Flow::Both, Flow::Forward, Flow::Backward][flow as usize];
            let from = at * length;
            let middle = place * width / 2.0;
            let (set, stay, night, minutes, sight, junction, volume) = known;
            road.vehicles_per_day = volume;
            Case {
                set,
                stay,
                night,
                minutes,
                sight,
                junction,
                road,
                travel: if forward { Travel::Forward } else { Travel::Backward },
                side: if right { Side::Right } else { Side::Left },
                driving_side: if keeps_right { DrivingSide::Right } else { DrivingSide::Left },
                along: (from, (from + long).min(length)),
                across: (middle - wide / 2.0, middle + wide / 2.0),
                shoulder_only,
                vehicles,
            }
        },
    )
}

/// Distance along the travel of the device's own traffic.
fn met_at(device: &Device) -> f64 {
    match device.approach {
        Travel::Forward => device.chainage.in_metres(),
        Travel::Backward => -device.chainage.in_metres(),
    }
}

/// Whether a device stands past the work, where it warns nobody.
fn ends_work(device: &Device) -> bool {
    device.legend.to_lowercase().starts_with("end ")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Whoever meets a device in placing has met everything ahead of it: at each step all upstream devices of the same
    /// approach stand already.
    #[test]
    fn upstream_stands_first(case in case()) {
        let zone = case.lay_out();
        for (index, device) in zone.devices.iter().enumerate() {
            for later in &zone.devices[index + 1..] {
                if later.approach == device.approach {
                    prop_assert!(met_at(later) >= met_at(device) - 1e-6, "{later:?}\nbefore\n{device:?}");
                }
            }
        }
    }

    /// Nothing stands in the lane before both approaches have every sign ahead and their flaggers.
    #[test]
    fn both_approaches_are_signed_before_the_lane_closes(case in case()) {
        let zone = case.lay_out();
        let in_lane = |d: &Device| matches!(d.kind, DeviceKind::Cone | DeviceKind::ShieldVehicle);
        let first_in_lane = zone.devices.iter().position(in_lane).unwrap();
        let late = zone.devices[first_in_lane..]
            .iter()
            .find(|d| matches!(d.kind, DeviceKind::Sign | DeviceKind::FlaggerStation) && !ends_work(d));
        prop_assert!(late.is_none(), "{late:?}");
        let last_in_lane = zone.devices.iter().rposition(in_lane).unwrap();
        prop_assert!(zone.devices[..last_in_lane].iter().all(|d| !ends_work(d)));
    }

    /// Count out is count in, in exactly the reverse order.
    #[test]
    fn removing_is_the_reverse(case in case()) {
        let zone = case.lay_out();
        let mut reversed = zone.removing.clone();
        reversed.reverse();
        prop_assert_eq!(reversed, (0..zone.devices.len()).collect::<Vec<_>>());
        let counted = device_count(&zone);
        let all = counted.signs + counted.cones + counted.flagger_stations + counted.shield_vehicles;
        prop_assert_eq!(all as usize, zone.devices.len());
    }

    /// Each device says its distance from the one before on its approach; no gap between cones exceeds the rule.
    #[test]
    fn spacings_add_up_and_cones_are_close_enough(case in case()) {
        let zone = case.lay_out();
        let rules = case.rules();
        let speed = design_speed(case.road.speed, &rules).unwrap();
        let (short, spacing) = (rules.spacing.short_taper.value, &rules.spacing);
        for approach in [Travel::Forward, Travel::Backward] {
            let these: Vec<&Device> = zone.devices.iter().filter(|d| d.approach == approach).collect();
            for pair in these.windows(2) {
                let gap = met_at(pair[1]) - met_at(pair[0]);
                prop_assert!((pair[1].spacing.in_metres() - gap).abs() < 1e-6);
                if pair[0].kind == DeviceKind::Cone && pair[1].kind == DeviceKind::Cone {
                    let most = match pair[1].legend.as_str() {
                        "cone, taper" if zone.layout.takes_turns() => short,
                        "cone, downstream taper" => short,
                        "cone, taper" => spacing.taper_per_speed.value * speed,
                        _ => spacing.tangent_per_speed.value * speed,
                    };
                    let gap = rules.units.distance_of(metres(gap));
                    prop_assert!(gap <= most + 1e-4, "{gap} over {most}: {}", pair[1].legend);
                }
            }
            prop_assert!(these.first().is_none_or(|d| d.spacing.in_metres() == 0.0));
        }
    }

    /// The one-lane two-way taper is between the rule's least and most (50 to 100 ft) at any speed and width; any other is
    /// not below what the rule's formula gives for the width closed.
    #[test]
    fn a_taper_is_never_below_the_rules_least(case in case()) {
        let (zone, rules) = (case.lay_out(), case.rules());
        let Some(part) = zone.parts.iter().find(|p| p.kind == ZonePartKind::Taper) else {
            prop_assert!(!rules.layouts.of(zone.layout).cones.value);
            return Ok(());
        };
        let taper = rules.units.distance_of(part.length.value);
        if zone.layout.takes_turns() {
            let (least, most) = (rules.taper.one_lane_min.value, rules.taper.one_lane_max.value);
            prop_assert!((least - 1e-9..=most + 1e-9).contains(&taper), "{taper}");
        } else {
            let cones: Vec<f64> = zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone)
                .map(|d| rules.units.distance_of(d.across)).collect();
            let width = cones.iter().fold(0.0, |w: f64, c| w.max((c - cones[0]).abs()));
            let speed = rules.units.speed_of(case.road.speed);
            let full = if speed <= rules.taper.low_speed_max.value {
                width * speed * speed / rules.taper.low_speed_divisor.value
            } else {
                width * speed * rules.taper.high_speed_factor.value
            };
            let divisor = if zone.layout.on_shoulder() { rules.taper.shoulder_divisor.value } else { 1.0 };
            prop_assert!(taper >= full / divisor - 1e-6, "{taper} below {}", full / divisor);
        }
    }

    /// No device stands in what stays open: the cones and the shield vehicle stay on their side of the line, and what is
    /// left beside them is the open width, of the whole road where traffic takes turns or passes shoulder work, else of
    /// this direction.
    #[test]
    fn no_device_stands_in_the_lane_that_stays_open(case in case()) {
        let (zone, rules) = (case.lay_out(), case.rules());
        let half = case.road.width.in_metres() / 2.0;
        let near = if (case.driving_side == DrivingSide::Right) == (zone.travel == Travel::Forward) { 1.0 } else { -1.0 };
        let inner = if zone.layout.of_several_lanes() && case.road.flow == Flow::Both { 0.0 } else { -half };
        let open = zone.open_width.value.in_metres();
        let in_lane: Vec<f64> = zone.devices.iter()
            .filter(|d| matches!(d.kind, DeviceKind::Cone | DeviceKind::ShieldVehicle))
            .map(|d| near * d.across.in_metres()).collect();
        // What stays open lies wholly beside all of them, on the one side or on the other.
        let from_near = in_lane.iter().all(|a| *a >= inner + open - 1e-6);
        let from_off = in_lane.iter().all(|a| *a <= half - open + 1e-6);
        prop_assert!(from_near || from_off, "{open} m open, {in_lane:?}");
        for device in zone.devices.iter().filter(|d| matches!(d.kind, DeviceKind::Sign | DeviceKind::FlaggerStation)) {
            prop_assert!(device.across.in_metres().abs() > half, "{device:?} on the road");
        }
        prop_assert!(rules.layouts.of(zone.layout).cones.value || in_lane.len() == 1);
    }

    /// Less protection is given only where every condition is known to hold; flaggers and control say the same.
    #[test]
    fn less_protection_needs_what_is_known(case in case()) {
        let (zone, rules) = (case.lay_out(), case.rules());
        let low = case.road.vehicles_per_day.is_some_and(|v| v <= rules.flagging.low_volume_max_per_day.value);
        let alone = matches!(zone.layout, Layout::LaneClosureSelfRegulating | Layout::LaneClosureOneFlagger
            | Layout::ShortDurationTwoWay | Layout::MobileTwoWay);
        if alone {
            prop_assert!(low && case.sight.is_some() && !case.night && case.road.lanes == 2 && case.road.flow == Flow::Both);
        }
        let without_cones = !rules.layouts.of(zone.layout).cones.value;
        if without_cones {
            prop_assert!(case.stay != Stay::Stationary && !case.night && case.vehicles >= 2);
            prop_assert!(rules.units.speed_of(case.road.speed) <= rules.flagging.without_cones_speed_max.value);
        }
        let stations = zone.devices.iter().filter(|d| d.kind == DeviceKind::FlaggerStation).count();
        prop_assert_eq!(zone.flaggers.value as usize, stations);
        let expected = match zone.control.method {
            ControlMethod::NoTurns | ControlMethod::SelfRegulating => 0,
            ControlMethod::OneFlagger => 1,
            ControlMethod::FlaggerEachEnd => 2,
        };
        prop_assert_eq!(stations, expected);
        prop_assert_eq!(zone.control.method == ControlMethod::NoTurns, !zone.layout.takes_turns());
        if zone.control.coordination == Coordination::BySight {
            prop_assert!(case.sight.is_some_and(|s| s + 1e-6 >= zone.control.between_ends.in_metres()));
        }
        prop_assert!(!zone.layout_reason.is_empty() && zone.not_laid_out.is_none());
    }

    /// No cone beside buffer and work space stands in the work, unless the whole road is taken; none stands outside road and
    /// shoulder; what is open is not negative and not more than the road.
    #[test]
    fn cones_keep_off_the_work(case in case()) {
        let zone = case.lay_out();
        prop_assert!(zone.open_width.value.in_metres() >= 0.0);
        prop_assert!(zone.open_width.value <= case.road.width + metres(1e-9));
        let half = case.road.width.in_feet() / 2.0;
        let reach = (half + case.road.shoulder.in_feet()).max(case.across.0.abs()).max(case.across.1.abs());
        for cone in zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone) {
            let across = cone.across.in_feet();
            prop_assert!(across.abs() <= reach + 1e-6, "{cone:?}");
            let beside = cone.legend == "cone, buffer" || cone.legend == "cone, work space";
            let inside = case.across.0 + 1e-6 < across && across < case.across.1 - 1e-6;
            // Where every lane is taken the cones end at the edge of what this traffic may use.
            let all_taken = zone.open_width.value.in_feet() < 1e-6;
            prop_assert!(!(beside && inside) || all_taken, "{cone:?} in {:?}", case.across);
        }
    }

    /// The work space covers the work.
    #[test]
    fn the_work_space_covers_the_cuts(case in case()) {
        let zone = case.lay_out();
        prop_assert!(zone.work_from.in_metres() <= case.along.0 + 1e-6 && zone.work_to.in_metres() >= case.along.1 - 1e-6);
    }

    /// A faster road never gets a shorter part, whatever the speed.
    #[test]
    fn faster_is_never_shorter(case in case(), faster in 1.0..20.0f64) {
        let mut quick = case.clone();
        quick.road.speed = case.road.speed * faster;
        let (slow, quick) = (case.lay_out(), quick.lay_out());
        if quick.not_laid_out.is_some() || slow.layout != quick.layout {
            // A faster road may get a more protected layout, never a less protected one.
            let rank = |zone: &WorkZone| Layout::ALL.iter().position(|l| *l == zone.layout);
            prop_assert!(quick.not_laid_out.is_some() || rank(&quick) < rank(&slow), "{:?} {:?}", slow.layout, quick.layout);
            return Ok(());
        }
        for (a, b) in slow.parts.iter().zip(&quick.parts) {
            prop_assert!(a.length.value.in_metres() <= b.length.value.in_metres() + 1e-9, "{a:?} then {b:?}");
        }
    }

    /// Where traffic can pass, the least width is open; where it can't, it is said.
    #[test]
    fn what_can_not_be_passed_is_said(case in case()) {
        let (zone, rules) = (case.lay_out(), case.rules());
        let least = rules.units.length(rules.across.open_width_min.value).in_metres();
        let said = zone.remarks.iter().any(|r| r.contains("traffic can't pass"));
        prop_assert_eq!(zone.passable, !said);
        if !zone.layout.on_shoulder() {
            prop_assert_eq!(said, zone.open_width.value.in_metres() < least - 0.000_1);
        }
    }

    /// Numbering the road from its other end changes no place on the ground.
    #[test]
    fn turning_the_road_round_changes_nothing(case in case()) {
        let (zone, turned) = (case.lay_out(), case.turned_round().lay_out());
        let length = case.road.length.in_metres();
        prop_assert_eq!(zone.devices.len(), turned.devices.len());
        prop_assert_eq!(zone.layout, turned.layout);
        for (a, b) in zone.devices.iter().zip(&turned.devices) {
            prop_assert_eq!((a.kind, &a.designation, &a.legend), (b.kind, &b.designation, &b.legend));
            prop_assert_eq!(a.approach, b.approach.opposite());
            prop_assert!((a.chainage.in_metres() + b.chainage.in_metres() - length).abs() < 1e-6);
            prop_assert!((a.across.in_metres() + b.across.in_metres()).abs() < 1e-6);
        }
        prop_assert!((zone.set_up.value.value - turned.set_up.value.value).abs() < 1e-6);
    }

    /// Keeping to the other side mirrors every place across, and the words for the side closed.
    #[test]
    fn the_other_driving_side_mirrors(case in case()) {
        let (zone, mirrored) = (case.lay_out(), case.mirrored().lay_out());
        prop_assert_eq!(zone.devices.len(), mirrored.devices.len());
        let swap = |s: &str| s.replace("LEFT", "*").replace("RIGHT", "LEFT").replace('*', "RIGHT");
        for (a, b) in zone.devices.iter().zip(&mirrored.devices) {
            prop_assert_eq!((a.kind, a.approach, swap(&a.legend)), (b.kind, b.approach, b.legend.clone()));
            prop_assert!((a.chainage.in_metres() - b.chainage.in_metres()).abs() < 1e-6);
            prop_assert!((a.across.in_metres() + b.across.in_metres()).abs() < 1e-6);
        }
    }

    /// Every cut is in exactly one group; a group lies in one lane, its gaps and its length within the rules.
    #[test]
    fn sharing_loses_and_doubles_nothing(
        cuts in proptest::collection::vec((0u32..2, any::<bool>(), any::<bool>(), 0.0..2000.0f64, 0.0..30.0f64), 0..40)
    ) {
        let cuts: Vec<LaneCut> = cuts
            .into_iter()
            .map(|(section, forward, shoulder_only, from, long)| LaneCut {
                section: SectionId(section),
                travel: if forward { Travel::Forward } else { Travel::Backward },
                side: if forward { Side::Right } else { Side::Left },
                shoulder_only,
                from: metres(from),
                to: metres(from + long),
            })
            .collect();
        let rules = rules();
        let groups = share(&cuts, &rules, &mut |_| Some(1));
        let mut seen: Vec<usize> = groups.iter().flatten().copied().collect();
        seen.sort_unstable();
        prop_assert_eq!(seen, (0..cuts.len()).collect::<Vec<_>>());
        for group in &groups {
            let first = cuts[group[0]];
            let mut end = first.to.in_metres();
            for &index in group {
                let cut = cuts[index];
                prop_assert_eq!(
                    (cut.section, cut.travel, cut.side, cut.shoulder_only),
                    (first.section, first.travel, first.side, first.shoulder_only)
                );
                prop_assert!(cut.from.in_metres() - end <= rules.units.length(rules.work_space.share_gap.value).in_metres() + 1e-9);
                end = end.max(cut.to.in_metres());
            }
            prop_assert!(end - first.from.in_metres() <= rules.units.length(rules.work_space.work_space_max.value).in_metres() + 1e-9);
        }
        prop_assert_eq!(&groups, &share(&cuts, &rules, &mut |_| Some(1)));
    }
}
