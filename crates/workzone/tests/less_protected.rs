//! Which layout a place gets by what is known of it, at each boundary, and how each of the lesser ones looks. The conditions
//! for self-regulation are those of the manual; numbers are the rule set's. Distances by hand: DERIVED.
//!
//! The road: rural, two lanes, 50 mph: d = 425 ft; work space 4 + 2*15 + 40 = 74 ft; closure with cones 100 + 425 + 74 + 50
//! = 649 ft.

mod common;

use common::{input, one_way_two_lanes, rules, set, two_lane};
use model::district::DrivingSide;
use model::place::{Side, Travel};
use model::quantity::{InLength, InTime, Length, feet, kilometres_per_hour, metres, minutes};
use model::road::RoadSection;
use model::work_zone::{ControlMethod, Coordination, Device, DeviceKind, Layout, WorkZone, ZonePartKind};
use workzone::{DeviceCount, Stay, ZoneInput, device_count, lay_out};

/// Changes what is known of the work.
type Change = fn(&mut ZoneInput);

fn quiet(mph: f64) -> RoadSection {
    RoadSection { vehicles_per_day: Some(400.0), ..two_lane(mph) }
}

fn seen(road: &RoadSection, sight: Length) -> ZoneInput<'_> {
    ZoneInput { sight: Some(sight), ..input(road) }
}

fn offset_ft(zone: &WorkZone, device: &Device) -> f64 {
    ((device.chainage - zone.work_from).in_feet() * 1e3).round() / 1e3
}

fn of_kind(zone: &WorkZone, kind: DeviceKind) -> Vec<&Device> {
    zone.devices.iter().filter(|d| d.kind == kind).collect()
}

#[test]
fn self_regulation_needs_low_volume_a_short_work_space_and_sight_through_and_beyond() {
    let rules = rules();
    // Sight needed: 649 + 2*425 = 1499 ft. One condition false, or not known, is enough for more protection.
    let road = quiet(50.0);
    let zone = lay_out(&seen(&road, feet(1499.0)), &rules);
    assert_eq!(zone.layout, Layout::LaneClosureSelfRegulating, "{}", zone.layout_reason);
    assert_eq!(zone.control.method, ControlMethod::SelfRegulating);
    assert_eq!(zone.layout_reason, "No flagger: low volume, a short work space, drivers see through it and beyond.");
    assert!(zone.remarks.iter().any(|r| r.contains("Nobody stops traffic here")));
    // A foot less of sight: one flagger, whom both see from 649 + 425 = 1074 ft.
    let zone = lay_out(&seen(&road, feet(1498.0)), &rules);
    assert_eq!(zone.layout, Layout::LaneClosureOneFlagger);
    assert!(
        zone.layout_reason.ends_with("since drivers see 1498 ft (456.6 m) of the 1499 ft (456.9 m) needed."),
        "{}",
        zone.layout_reason
    );
    assert_eq!(lay_out(&seen(&road, feet(1074.0)), &rules).layout, Layout::LaneClosureOneFlagger);
    assert_eq!(lay_out(&seen(&road, feet(1073.0)), &rules).layout, Layout::LaneClosureTwoWay);
    // Sight not known.
    let zone = lay_out(&input(&road), &rules);
    assert_eq!(zone.layout, Layout::LaneClosureTwoWay);
    assert_eq!(zone.layout_reason, "A flagger at each end, since how far drivers see is not known.");
    let far = feet(5000.0);
    // The volume: 400 a day is low, 401 is not, nothing known is not.
    for (volume, words) in [
        (Some(401.0), "since the volume is 401 vehicles a day, over 400."),
        (None, "since the volume is not known."),
        (Some(f64::NAN), "since the volume is not known."),
    ] {
        let road = RoadSection { vehicles_per_day: volume, ..two_lane(50.0) };
        let zone = lay_out(&seen(&road, far), &rules);
        assert_eq!(zone.layout, Layout::LaneClosureTwoWay, "{volume:?}");
        assert!(zone.layout_reason.ends_with(words), "{}", zone.layout_reason);
    }
    // The work space: 100 ft is short; a cut of 30 ft makes it exactly that.
    for (cut, layout) in [(30.0, Layout::LaneClosureSelfRegulating), (30.1, Layout::LaneClosureTwoWay)] {
        let mut long = seen(&road, far);
        long.work.to = long.work.from + feet(cut);
        assert_eq!(lay_out(&long, &rules).layout, layout, "{cut} ft");
    }
    // By night, on three lanes, on a one-way road.
    let night = ZoneInput { night: true, ..seen(&road, far) };
    assert!(lay_out(&night, &rules).layout_reason.contains("it is night work"));
    assert_eq!(lay_out(&night, &rules).layout, Layout::LaneClosureTwoWay);
    let three = RoadSection { lanes: 3, ..quiet(50.0) };
    assert_eq!(lay_out(&seen(&three, far), &rules).layout, Layout::LaneClosureTwoWay);
    // A rule set that does not know it.
    let mut own = rules;
    own.layouts.lane_closure_self_regulating.allowed.value = false;
    assert_eq!(lay_out(&seen(&road, far), &own).layout, Layout::LaneClosureOneFlagger);
    own.layouts.lane_closure_one_flagger.allowed.value = false;
    let zone = lay_out(&seen(&road, far), &own);
    assert_eq!(zone.layout, Layout::LaneClosureTwoWay);
    assert!(zone.layout_reason.contains("the rule set does not allow less"), "{}", zone.layout_reason);
}

#[test]
fn where_traffic_can_not_pass_somebody_holds_it() {
    // 16 ft of seal, half of it closed: 8 ft stay open of the 10 that must.
    let rules = rules();
    let road = RoadSection { width: feet(16.0), ..quiet(50.0) };
    let mut narrow = seen(&road, feet(5000.0));
    (narrow.work.across_from, narrow.work.across_to) = (feet(0.0), feet(8.0));
    let zone = lay_out(&narrow, &rules);
    assert!(!zone.passable);
    assert_eq!(zone.layout, Layout::LaneClosureTwoWay);
    assert_eq!(zone.layout_reason, "A flagger at each end, since less than the least width stays open.");
}

#[test]
fn the_handbooks_table_of_layouts() {
    #[derive(serde::Deserialize)]
    struct TwoLane {
        /// mph, vehicles a day, cut ft, sight ft, layout.
        rows: Vec<(f64, f64, f64, f64, String)>,
    }
    for TwoLane { rows } in testkit::worked_examples("layout-choice", "two_lane") {
        for (mph, volume, cut, sight, layout) in rows {
            let road = RoadSection { vehicles_per_day: Some(volume), ..two_lane(mph) };
            let mut input = seen(&road, feet(sight));
            input.work.to = input.work.from + feet(cut);
            let zone = lay_out(&input, &rules());
            assert_eq!(zone.layout.key(), layout, "{mph} mph, {volume} a day, {cut} ft, sight {sight} ft");
        }
    }
}

#[test]
fn a_self_regulating_closure_makes_the_closed_side_give_way() {
    // Head of the taper 525 ft ahead of the work space; signs A, A + B, A + B + C ahead of it; the sign to give way at it.
    let road = quiet(50.0);
    let zone = lay_out(&seen(&road, feet(2000.0)), &rules());
    let signs = |approach| -> Vec<(&str, f64)> {
        of_kind(&zone, DeviceKind::Sign)
            .into_iter()
            .filter(|d| d.approach == approach)
            .map(|d| (d.designation.as_str(), offset_ft(&zone, d)))
            .collect()
    };
    let worked = [("W20-1", -2025.0), ("W20-4", -1525.0), ("W3-2", -1025.0), ("R1-2, R1-2a", -525.0), ("G20-2", 624.0)];
    assert_eq!(signs(Travel::Forward), worked);
    // The other way counts from the end of the closure, 74 + 50 ft.
    assert_eq!(signs(Travel::Backward), [("W20-1", 1624.0), ("W20-4", 1124.0), ("G20-2", -1025.0)]);
    assert_eq!(device_count(&zone), DeviceCount { signs: 8, cones: 15, flagger_stations: 0, shield_vehicles: 0 });
    assert_eq!((zone.flaggers.value, zone.people_needed), (0, 2));
    assert!((zone.control.between_ends.in_feet() - 649.0).abs() < 1e-6);
}

#[test]
fn one_flagger_stands_opposite_the_work_where_both_directions_see_him() {
    for (driving_side, sign) in [(DrivingSide::Right, -1.0), (DrivingSide::Left, 1.0)] {
        let road = quiet(50.0);
        let mut input = seen(&road, feet(1200.0));
        input.driving_side = driving_side;
        if driving_side == DrivingSide::Left {
            input.side = Side::Left;
            (input.work.across_from, input.work.across_to) = (feet(-7.5), feet(-4.5));
        }
        let zone = lay_out(&input, &rules());
        assert_eq!((zone.layout, zone.flaggers.value, zone.people_needed), (Layout::LaneClosureOneFlagger, 1, 3));
        let stations = of_kind(&zone, DeviceKind::FlaggerStation);
        // Half of 74 ft; 12 + 3 ft from the centre line, on the side that stays open.
        assert_eq!((stations.len(), offset_ft(&zone, stations[0])), (1, 37.0));
        assert!((stations[0].across.in_feet() - sign * 15.0).abs() < 1e-9, "{driving_side:?}");
        assert_eq!(
            (zone.control.method, zone.control.coordination),
            (ControlMethod::OneFlagger, Coordination::NotNeeded)
        );
    }
}

#[test]
fn flaggers_agree_by_sight_only_where_they_are_known_to_see_each_other() {
    // Stations 525 ft ahead of and 425 ft past a work space of 74 ft: 1024 ft apart.
    let road = two_lane(50.0);
    for (sight, coordination, words) in [
        (Some(1024.0), Coordination::BySight, "stand 1024 ft (312.1 m) apart and they see each other: by sight."),
        (Some(1023.0), Coordination::ByRadioOrPilot, "they do not see each other: radio, or a pilot vehicle."),
        (Some(f64::NAN), Coordination::ByRadioOrPilot, "whether they see each other is not known: radio"),
        (None, Coordination::ByRadioOrPilot, "whether they see each other is not known: radio"),
    ] {
        let mut input = input(&road);
        input.sight = sight.map(feet);
        let zone = lay_out(&input, &rules());
        assert_eq!((zone.control.method, zone.control.coordination), (ControlMethod::FlaggerEachEnd, coordination));
        assert!((zone.control.between_ends.in_feet() - 1024.0).abs() < 1e-6);
        assert!(zone.control.reason.contains(words), "{}", zone.control.reason);
        let told = zone.remarks.iter().any(|r| r.starts_with("Flaggers who can't see each other"));
        assert_eq!(told, coordination == Coordination::ByRadioOrPilot);
    }
    let several = one_way_two_lanes(50.0);
    let control = lay_out(&input(&several), &rules()).control;
    assert_eq!((control.method, control.between_ends), (ControlMethod::NoTurns, metres(0.0)));
}

#[test]
fn short_work_in_a_lane_of_several_has_a_shield_and_no_cones_only_where_all_holds() {
    let rules = rules();
    let short = |road: &RoadSection, change: fn(&mut ZoneInput)| {
        let mut input = ZoneInput { stay: Stay::ShortDuration, vehicles: 2, duration: minutes(20.0), ..input(road) };
        change(&mut input);
        lay_out(&input, &rules)
    };
    let road = one_way_two_lanes(45.0);
    let zone = short(&road, |_| {});
    assert_eq!(zone.layout, Layout::ShortDurationMultilane, "{}", zone.layout_reason);
    assert_eq!(zone.duration_class, "short duration");
    assert_eq!(device_count(&zone), DeviceCount { signs: 4, cones: 0, flagger_stations: 0, shield_vehicles: 1 });
    // Two vehicles of 40 ft, roll-ahead 100 ft, margins 15 ft: 4 + 30 + 80 + 100 = 214 ft, the shield at its upstream end.
    assert_eq!(
        zone.parts.iter().map(|p| (p.kind, p.length.value.in_feet().round())).collect::<Vec<_>>(),
        [(ZonePartKind::AdvanceWarning, 1000.0), (ZonePartKind::WorkSpace, 214.0)]
    );
    let shield = of_kind(&zone, DeviceKind::ShieldVehicle)[0];
    assert_eq!(offset_ft(&zone, shield), 0.0);
    assert_eq!(shield.legend, "vehicle with flashing light, nobody aboard, on its back W20-5 RIGHT LANE CLOSED AHEAD");
    assert!((shield.across.in_feet() - 6.0).abs() < 1e-9);
    let cases: [(&str, Change); 3] = [
        ("there is no vehicle to spare as a shield", |i| i.vehicles = 1),
        ("it is night work", |i| i.night = true),
        ("h at the place, over 1 h", |i| i.duration = minutes(60.0)),
    ];
    for (words, change) in cases {
        let zone = short(&road, change);
        assert_eq!(zone.layout, Layout::LaneClosureMultilane, "{words}");
        assert!(zone.layout_reason.contains(words), "{}", zone.layout_reason);
        assert!(
            zone.remarks.iter().any(|r| r.starts_with("Asked for short-duration work; laid out as work that stays."))
        );
    }
    let zone = short(&one_way_two_lanes(45.1), |_| {});
    assert!(
        zone.layout_reason.contains("the speed is 50 mph (80 km/h), over 45 mph (72 km/h)"),
        "{}",
        zone.layout_reason
    );
    // A time that is not a number is long.
    assert_eq!(short(&road, |i| i.duration = minutes(f64::NAN)).layout, Layout::LaneClosureMultilane);
    // Nobody gets it who does not ask for it.
    assert_eq!(short(&road, |i| i.stay = Stay::Stationary).layout, Layout::LaneClosureMultilane);
}

#[test]
fn the_hour_of_short_work_counts_set_up_and_take_in() {
    // Signs 4 at 90 s out and 60 s in; walked 214 ft at 2.5 mph, driven 1000 ft to the first sign and back past the shield.
    let rules = rules();
    let road = one_way_two_lanes(40.0);
    let at = |work: f64| {
        let input = ZoneInput { stay: Stay::ShortDuration, vehicles: 2, duration: minutes(work), ..input(&road) };
        lay_out(&input, &rules)
    };
    let control = at(1.0).set_up.value + at(1.0).take_in.value;
    let left = 60.0 - control.in_minutes();
    assert_eq!(at(left - 0.01).layout, Layout::ShortDurationMultilane);
    assert_eq!(at(left + 0.01).layout, Layout::LaneClosureMultilane);
}

#[test]
fn moving_work_on_a_quiet_road_has_a_vehicle_behind_it_and_nothing_else() {
    let rules = rules();
    // No taper: sight needed 214 + 2*360 = 934 ft at 45 mph. Work that moves may take all day.
    let road = quiet(45.0);
    let mobile = |sight: f64| ZoneInput { stay: Stay::Mobile, vehicles: 2, ..seen(&road, feet(sight)) };
    let zone = lay_out(&mobile(934.0), &rules);
    assert_eq!((zone.layout, zone.duration_class.as_str()), (Layout::MobileTwoWay, "mobile"), "{}", zone.layout_reason);
    assert_eq!(device_count(&zone), DeviceCount { signs: 0, cones: 0, flagger_stations: 0, shield_vehicles: 1 });
    assert!(of_kind(&zone, DeviceKind::ShieldVehicle)[0].legend.ends_with("on its back W20-1 ROAD WORK AHEAD"));
    assert_eq!(zone.parts.len(), 1);
    assert_eq!(lay_out(&mobile(933.0), &rules).layout, Layout::LaneClosureTwoWay);
    // With one lane of several no sight is needed: nobody comes the other way in it.
    let several = one_way_two_lanes(45.0);
    let mut input = ZoneInput { stay: Stay::Mobile, vehicles: 2, ..input(&several) };
    assert_eq!(lay_out(&input, &rules).layout, Layout::MobileMultilane);
    input.vehicles = 1;
    assert_eq!(lay_out(&input, &rules).layout, Layout::LaneClosureMultilane);
    // Work beside the lanes keeps its cones.
    let mut beside = mobile(934.0);
    beside.shoulder_only = true;
    (beside.work.across_from, beside.work.across_to) = (feet(13.0), feet(16.0));
    assert_eq!(lay_out(&beside, &rules).layout, Layout::Shoulder);
}

#[test]
fn work_just_before_a_junction_is_laid_out_for_it() {
    let rules = rules();
    for (lanes_road, layout) in
        [(two_lane(50.0), Layout::JunctionApproachTwoWay), (one_way_two_lanes(50.0), Layout::JunctionApproachMultilane)]
    {
        let at =
            |ahead: Option<f64>| lay_out(&ZoneInput { junction_ahead: ahead.map(feet), ..input(&lanes_road) }, &rules);
        let zone = at(Some(150.0));
        assert_eq!(zone.layout, layout);
        assert!(zone.layout_reason.starts_with("The work ends within 150 ft (45.7 m) of the junction ahead"));
        assert!(zone.parts.iter().all(|p| p.kind != ZonePartKind::DownstreamTaper));
        assert!(
            zone.remarks
                .iter()
                .any(|r| r.starts_with("Each other road at the junction needs its own signs (W20-1 ROAD WORK AHEAD)"))
        );
        assert_eq!(zone.flaggers.value, if layout == Layout::JunctionApproachTwoWay { 2 } else { 0 });
        for far in [Some(150.1), Some(f64::NAN), None] {
            assert_ne!(at(far).layout, layout, "{far:?}");
        }
    }
    // Neither low volume nor short work makes less of it.
    let road = quiet(40.0);
    let input =
        ZoneInput { junction_ahead: Some(feet(50.0)), stay: Stay::Mobile, vehicles: 2, ..seen(&road, feet(9999.0)) };
    assert_eq!(lay_out(&input, &rules).layout, Layout::JunctionApproachTwoWay);
}

#[test]
fn the_metric_set_computes_and_speaks_in_metres() {
    // DERIVED: 80 km/h, 7.2 m: taper 30 m at 6 m: 6 cones; d = 130 m at 32 m: +5; work space 2 + 2*5 + 12 = 24 m: +1;
    // downstream 15 m at 6 m: +3 = 15. A = max(150, 130), B = C = max(150, 5*22.22 = 111.1 -> 112) = 150 m. Flagger
    // 160 m ahead, the other 130 m past.
    let mut road = two_lane(50.0);
    (road.speed, road.width) = (kilometres_per_hour(80.0), metres(7.2));
    let mut input = input(&road);
    input.work.to = input.work.from + metres(2.0);
    (input.work.across_from, input.work.across_to) = (metres(1.4), metres(2.2));
    let zone = lay_out(&input, &set("low-volume-metric"));
    let parts: Vec<(ZonePartKind, f64)> = zone.parts.iter().map(|p| (p.kind, p.length.value.in_metres())).collect();
    assert_eq!(
        parts,
        [
            (ZonePartKind::AdvanceWarning, 450.0),
            (ZonePartKind::Taper, 30.0),
            (ZonePartKind::Buffer, 130.0),
            (ZonePartKind::WorkSpace, 24.0),
            (ZonePartKind::DownstreamTaper, 15.0),
        ]
    );
    assert_eq!(device_count(&zone), DeviceCount { signs: 8, cones: 15, flagger_stations: 2, shield_vehicles: 0 });
    assert!((zone.control.between_ends.in_metres() - (160.0 + 24.0 + 130.0)).abs() < 1e-9);
    for part in &zone.parts {
        let why = &part.length.why;
        let words = format!("{} {:?}", why.rule, why.inputs);
        assert!(!words.contains(" ft") && !words.contains("mph"), "{words}");
    }
    assert!(zone.devices.iter().all(|d| !format!("{:?}", d.why.inputs).contains(" ft")));
    // Faster than its row's own: at 120 km/h the first sign stands the stopping distance ahead, the next 5 s of driving on.
    road.speed = kilometres_per_hour(120.0);
    let zone = lay_out(&input_of(&road), &set("low-volume-metric"));
    assert_eq!(zone.parts[0].length.value.in_metres(), 250.0 + 2.0 * 167.0);
}

fn input_of(road: &RoadSection) -> ZoneInput<'_> {
    input(road)
}
