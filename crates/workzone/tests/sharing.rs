//! Which cuts share a zone: drawn by hand, against every way there is, and with the prices of zones laid out. The gap, the
//! longest work space and the prices are common practice, no source.

mod common;

use common::{input, rules, two_lane};
use model::place::{Side, Travel};
use model::quantity::{InLength, InTime, feet, metres, minutes, seconds};
use model::road::SectionId;
use model::rules::Sourced;
use model::rules::planning::{PlanningRules, SharingRules};
use model::work_zone::{DeviceKind, WorkZone, ZonePartKind};
use proptest::prelude::*;
use serde::Deserialize;
use testkit::worked_examples;
use workzone::{LaneCut, WorkExtent, between_cuts, lay_out, share, sharing, zone_price};

fn cut(from: f64, to: f64) -> LaneCut {
    LaneCut {
        section: SectionId(0),
        travel: Travel::Forward,
        side: Side::Right,
        shoulder_only: false,
        from: metres(from),
        to: metres(to),
    }
}

fn planning() -> PlanningRules {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rules/planning/common-practice.toml");
    toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// Groups when every zone costs the same: as few zones as the limits allow.
fn joined(cuts: &[LaneCut]) -> Vec<Vec<usize>> {
    share(cuts, &rules(), &mut |_| Some(1))
}

#[test]
fn a_gap_of_660_ft_may_join_and_a_little_more_may_not() {
    // 660 ft are 201.168 m.
    assert_eq!(joined(&[cut(0.0, 2.0), cut(203.16, 204.0)]), [vec![0, 1]]);
    assert_eq!(joined(&[cut(0.0, 2.0), cut(203.17, 204.0)]), [vec![0], vec![1]]);
}

#[test]
fn the_gap_counts_from_the_furthest_end_so_far() {
    assert_eq!(joined(&[cut(0.0, 100.0), cut(10.0, 12.0), cut(300.0, 301.0)]), [vec![0, 1, 2]]);
}

#[test]
fn a_work_space_is_at_most_1320_ft() {
    // 1320 ft are 402.336 m.
    assert_eq!(joined(&[cut(0.0, 2.0), cut(200.0, 201.0), cut(400.0, 402.33)]), [vec![0, 1, 2]]);
    // Both ways to make two zones cost the same: the longer run comes last.
    assert_eq!(joined(&[cut(0.0, 2.0), cut(200.0, 201.0), cut(400.0, 402.34)]), [vec![0], vec![1, 2]]);
}

#[test]
fn a_cut_longer_than_a_work_space_takes_no_company() {
    assert_eq!(joined(&[cut(0.0, 403.0), cut(10.0, 12.0)]), [vec![0], vec![1]]);
}

#[test]
fn order_of_input_is_kept_out_of_it_and_lanes_apart() {
    let mut other = cut(1.0, 2.0);
    (other.travel, other.side) = (Travel::Backward, Side::Left);
    let mut shoulder = cut(1.0, 2.0);
    shoulder.shoulder_only = true;
    assert_eq!(joined(&[cut(30.0, 31.0), other, cut(0.0, 1.0), shoulder]), [vec![2, 0], vec![3], vec![1]]);
}

#[test]
fn a_chainage_that_is_not_a_number_stands_alone() {
    let cuts = [cut(f64::NAN, 1.0), cut(0.0, 1.0), cut(f64::NAN, f64::NAN), cut(5.0, f64::INFINITY), cut(2.0, 3.0)];
    assert_eq!(joined(&cuts), [vec![1, 4], vec![0], vec![2], vec![3]]);
    assert!(joined(&[]).is_empty());
}

#[test]
fn of_equal_prices_the_fewest_zones() {
    // Three alone cost as much as all together.
    let cuts = [cut(0.0, 1.0), cut(50.0, 51.0), cut(100.0, 101.0)];
    let groups = share(&cuts, &rules(), &mut |run| Some(run.len() as u64 * 7));
    assert_eq!(groups, [vec![0, 1, 2]]);
    // One unit more for the three, and no pair is dearer: one pair and one alone, the pair last.
    let groups = share(&cuts, &rules(), &mut |run| Some(run.len() as u64 * 7 + u64::from(run.len() == 3)));
    assert_eq!(groups, [vec![0], vec![1, 2]]);
}

#[test]
fn greedy_would_miss_it() {
    // Joining the first two leaves the third alone, which is dear.
    let cuts = [cut(0.0, 1.0), cut(50.0, 51.0), cut(100.0, 101.0)];
    let price = |run: &[usize]| match run {
        [0] => Some(10),
        [1 | 2] => Some(40),
        [0, 1] => Some(45),
        [1, 2] => Some(30),
        _ => None,
    };
    assert_eq!(share(&cuts, &rules(), &mut |run| price(run)), [vec![0], vec![1, 2]]);
}

#[derive(Deserialize)]
struct Runs {
    cuts_m: Vec<[f64; 2]>,
    /// First cut, last cut, price.
    prices: Vec<(usize, usize, u64)>,
    zones: Vec<Vec<usize>>,
    price: u64,
}

#[test]
fn the_handbooks_lanes_are_parted_as_there() {
    for case in worked_examples::<Runs>("sharing-a-zone", "cheapest") {
        let cuts: Vec<LaneCut> = case.cuts_m.iter().map(|[from, to]| cut(*from, *to)).collect();
        let price = |run: &[usize]| {
            let found = case.prices.iter().find(|(first, last, _)| *first == run[0] && *last == run[run.len() - 1]);
            found.map(|(_, _, price)| *price)
        };
        let zones = share(&cuts, &rules(), &mut |run| price(run));
        assert_eq!(zones, case.zones);
        assert_eq!(zones.iter().filter_map(|run| price(run)).sum::<u64>(), case.price);
    }
}

#[derive(Deserialize)]
struct PricedZone {
    set_up_min: f64,
    take_in_min: f64,
    between_min: f64,
    work_min: f64,
    devices: usize,
    closed_m: f64,
    crew_minute: f64,
    device: f64,
    closed_metre_hour: f64,
    price: f64,
}

/// A zone of such a length with so many devices.
fn zone(set_up_min: f64, take_in_min: f64, devices: usize, closed_m: f64) -> WorkZone {
    let road = two_lane(50.0);
    let mut zone = lay_out(&input(&road), &rules());
    zone.set_up.value = minutes(set_up_min);
    zone.take_in.value = minutes(take_in_min);
    let cone = zone.devices.iter().find(|d| d.kind == DeviceKind::Cone).unwrap().clone();
    zone.devices = vec![cone; devices];
    zone.parts.retain(|part| matches!(part.kind, ZonePartKind::AdvanceWarning | ZonePartKind::WorkSpace));
    zone.parts[1].length.value = metres(closed_m);
    zone
}

#[test]
fn the_handbooks_zones_cost_what_it_says() {
    let sourced = |value: f64| Sourced { value, source: "common practice, no source".to_owned().into() };
    for case in worked_examples::<PricedZone>("sharing-a-zone", "zone_price") {
        let prices = SharingRules {
            crew_minute: sourced(case.crew_minute),
            device: sourced(case.device),
            closed_metre_hour: sourced(case.closed_metre_hour),
        };
        let zone = zone(case.set_up_min, case.take_in_min, case.devices, case.closed_m);
        let price = zone_price(&zone, minutes(case.work_min), minutes(case.between_min), &prices);
        assert!((price.value - case.price).abs() < 1e-6, "{} {}", price.value, case.price);
    }
}

#[derive(Deserialize)]
struct Apart {
    alone_min: Vec<f64>,
    alone_devices: Vec<usize>,
    shared_min: f64,
    shared_devices: usize,
    between_min: f64,
    saved_min: f64,
    saved_devices: i64,
    words: String,
}

#[test]
fn the_handbooks_savings() {
    for case in worked_examples::<Apart>("sharing-a-zone", "saved") {
        let alone: Vec<WorkZone> =
            case.alone_min.iter().zip(&case.alone_devices).map(|(time, count)| zone(*time, 0.0, *count, 1.0)).collect();
        let mut shared = zone(case.shared_min, 0.0, case.shared_devices, 1.0);
        shared.holes = vec![model::hole::HoleId("x".into()); case.alone_min.len()];
        let mut between = between_cuts(&[], &rules());
        between.value = minutes(case.between_min);
        let found = sharing(&shared, &alone.iter().collect::<Vec<_>>(), between.clone()).unwrap();
        assert!((found.time_saved.value.in_minutes() - case.saved_min).abs() < 1e-9);
        assert_eq!((found.devices_saved.value, found.words()), (case.saved_devices, case.words));
        assert_eq!(sharing(&shared, &[&shared], between), None);
    }
}

#[test]
fn between_cuts_counts_only_free_road() {
    // 2.5 mph are 1.1176 m/s. 10 to 30 is covered by the first cut's end; free are 60 - 50 and 100 - 61.
    let at = |from: f64, to: f64| (metres(from), metres(to));
    let time = between_cuts(&[at(0.0, 50.0), at(10.0, 30.0), at(60.0, 61.0), at(100.0, 101.0)], &rules());
    assert!((time.value.in_seconds() - (10.0 + 39.0) / 1.1176).abs() < 1e-9, "{time:?}");
    assert_eq!(between_cuts(&[at(5.0, 7.0)], &rules()).value, seconds(0.0));
    assert_eq!(between_cuts(&[], &rules()).value, seconds(0.0));
}

#[test]
fn prices_that_cannot_be_worked_with_are_named() {
    assert_eq!(planning().faults(), Vec::<String>::new());
    for (value, faults) in [(0.0, 1), (-1.0, 3), (f64::NAN, 3), (f64::INFINITY, 3), (1e6, 0), (1.1e6, 3)] {
        let mut rules = planning();
        rules.sharing.crew_minute.value = value;
        rules.sharing.device.value = value;
        rules.sharing.closed_metre_hour.value = value;
        assert_eq!(rules.faults().len(), faults, "{value}: {:?}", rules.faults());
    }
}

/// Price and number of zones of every way to part the cuts into runs within the limits, the least.
fn least_of_all(cuts: &[LaneCut], price: &dyn Fn(&[usize]) -> Option<u64>) -> (u64, usize) {
    let (gap_max, length_max) = (feet(660.0).in_metres(), feet(1320.0).in_metres());
    let within = |run: &[usize]| {
        let ends: Vec<(f64, f64)> = run.iter().map(|&c| (cuts[c].from.in_metres(), cuts[c].to.in_metres())).collect();
        let reach = |count: usize| ends[..count].iter().map(|e| e.1).fold(f64::MIN, f64::max);
        reach(ends.len()) - ends[0].0 <= length_max && (1..ends.len()).all(|k| ends[k].0 - reach(k) <= gap_max)
    };
    let mut order: Vec<usize> = (0..cuts.len()).collect();
    order.sort_by(|&a, &b| cuts[a].from.in_metres().total_cmp(&cuts[b].from.in_metres()).then(a.cmp(&b)));
    let ways = (0..1_u32 << (cuts.len() - 1)).filter_map(|parted| {
        let (mut runs, mut run) = (Vec::new(), Vec::new());
        for (place, &cut) in order.iter().enumerate() {
            run.push(cut);
            if place + 1 == cuts.len() || parted >> place & 1 == 1 {
                runs.push(std::mem::take(&mut run));
            }
        }
        let each = runs.iter().map(|run| match (run.len(), price(run)) {
            (1, found) => Some(found.unwrap_or(0)),
            (_, found) => found.filter(|_| within(run)),
        });
        Some((each.sum::<Option<u64>>()?, runs.len()))
    });
    ways.min().unwrap()
}

/// As the crew would without thinking: the next cut joins whenever it may.
fn greedy(cuts: &[LaneCut], price: &dyn Fn(&[usize]) -> Option<u64>) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for cut in 0..cuts.len() {
        if let Some(last) = groups.last_mut() {
            last.push(cut);
            let furthest = last[..last.len() - 1].iter().map(|&c| cuts[c].to.in_metres()).fold(f64::MIN, f64::max);
            let gap = cuts[cut].from.in_metres() - furthest;
            let length = cuts[cut].to.in_metres().max(furthest) - cuts[last[0]].from.in_metres();
            if gap <= feet(660.0).in_metres() && length <= feet(1320.0).in_metres() && price(last).is_some() {
                continue;
            }
            last.pop();
        }
        groups.push(vec![cut]);
    }
    groups
}

fn cuts_along() -> impl Strategy<Value = Vec<LaneCut>> {
    prop::collection::vec((0.0..250.0, 0.2..30.0), 1..=8).prop_map(|steps| {
        let mut at = 0.0;
        let along = steps.into_iter().map(|(step, length): (f64, f64)| {
            at += step;
            cut(at, at + length)
        });
        along.collect()
    })
}

proptest! {
    #[test]
    fn as_cheap_as_the_cheapest_of_all_ways(
        cuts in cuts_along(),
        table in prop::collection::vec(prop::option::weighted(0.8, 0_u64..40), 64),
        shuffle in any::<prop::sample::Index>(),
    ) {
        let mut cuts = cuts;
        let turn = shuffle.index(cuts.len());
        cuts.rotate_left(turn);
        let price = |run: &[usize]| table[run[0] * 8 + run[run.len() - 1]];
        let groups = share(&cuts, &rules(), &mut |run| price(run));
        let total: u64 = groups.iter().map(|run| price(run).unwrap_or(0)).sum();
        prop_assert_eq!((total, groups.len()), least_of_all(&cuts, &price));
        let mut all: Vec<usize> = groups.into_iter().flatten().collect();
        all.sort_unstable();
        prop_assert_eq!(all, (0..cuts.len()).collect::<Vec<_>>());
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]
    #[test]
    fn never_dearer_than_greedy_nor_than_each_alone(
        cuts in cuts_along(),
        mph in 25.0..65.0_f64,
        work_min in 10.0..90.0_f64,
        cones_owned in 20..60_usize,
    ) {
        let (rules, prices, road) = (rules(), planning().sharing, two_lane(mph));
        let price = |run: &[usize]| {
            let mut input = input(&road);
            input.work = WorkExtent { from: cuts[run[0]].from, to: cuts[run[run.len() - 1]].to, ..input.work };
            let zone = lay_out(&input, &rules);
            let along: Vec<_> = run.iter().map(|&c| (cuts[c].from, cuts[c].to)).collect();
            let work = minutes(work_min) * run.len() as f64;
            let price = zone_price(&zone, work, between_cuts(&along, &rules).value, &prices);
            let cones = zone.devices.iter().filter(|d| d.kind == DeviceKind::Cone).count();
            (run.len() == 1 || cones <= cones_owned).then(|| (price.value * 1e6).round() as u64)
        };
        let sum = |groups: &[Vec<usize>]| groups.iter().map(|run| price(run).unwrap()).sum::<u64>();
        let best = sum(&share(&cuts, &rules, &mut |run| price(run)));
        prop_assert!(best <= sum(&greedy(&cuts, &price)));
        prop_assert!(best <= sum(&(0..cuts.len()).map(|cut| vec![cut]).collect::<Vec<_>>()));
    }
}
