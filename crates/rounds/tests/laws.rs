//! Laws that hold for any problem, however odd, and rounds whose answer is known.

mod common;

use common::{checker, dig, huge_truck, plain_site, problem_at, random_problem, solve};
use model::quantity::{kilograms, litres};
use model::round::{Demand, LeftOutReason, RestBreak, RoundProblem, SecondOfDay, StopKind};
use proptest::prelude::*;
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64Mcg;
use rounds::SearchSettings;

/// Bends a problem out of shape: entries that no honest caller would send.
fn spoil_input(problem: &mut RoundProblem, kind: u8, random: &mut Pcg64Mcg) {
    let places = problem.travel_s.len();
    let pick = |random: &mut Pcg64Mcg| random.random_range(0..places);
    match kind {
        0 => {}
        1 => problem.sites.iter_mut().for_each(|site| site.windows.clear()),
        2 => problem.travel_s.iter_mut().flatten().for_each(|seconds| *seconds = u32::MAX),
        3 => problem.capacity = model::round::Capacity::default(),
        4 => {
            for _ in 0..places * 2 {
                let (from, to) = (pick(random), pick(random));
                problem.travel_s[from][to] = [u32::MAX, u32::MAX - 1, 0][random.random_range(0..3)];
            }
        }
        5 => problem.shift_end = SecondOfDay(problem.shift_start.0.saturating_sub(1)),
        6 => {
            problem.shift_end = SecondOfDay(u32::MAX);
            problem.shift_start = SecondOfDay(0);
            problem.loading_s = u32::MAX;
        }
        7 => {
            problem.points_per_hour = [f64::NAN, f64::INFINITY, -1.0][random.random_range(0..3)];
            problem.sites.iter_mut().for_each(|site| site.worth = -site.worth);
        }
        8 => problem.sites.iter_mut().for_each(|site| site.demand.base_mass = kilograms(f64::NAN)),
        9 => {
            let latest = SecondOfDay(problem.shift_start.0 + 60);
            problem.rest = Some(RestBreak { earliest: SecondOfDay(latest.0 + 60), latest, length_s: 1800 });
        }
        10 => {
            problem.rest =
                Some(RestBreak { earliest: SecondOfDay(0), latest: SecondOfDay(u32::MAX), length_s: u32::MAX });
        }
        11 => problem.sites.iter_mut().for_each(|site| site.windows.reverse()),
        12 => problem.sites.iter_mut().for_each(|site| site.windows = vec![(SecondOfDay(40_000), SecondOfDay(30_000))]),
        _ => problem.sites.iter_mut().for_each(|site| {
            site.service_s = 0;
            site.worth = 0.0;
        }),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn every_round_keeps_to_its_problem(seed in any::<u64>(), sites in 0_usize..14, kind in 0_u8..14) {
        let mut problem = random_problem(seed, sites);
        spoil_input(&mut problem, kind, &mut Pcg64Mcg::seed_from_u64(seed));
        let solution = solve(&problem, seed, 60);
        if kind != 7 {
            checker::check(&problem, &solution);
        }
        prop_assert!(solution.objective.is_finite());
    }

    #[test]
    fn what_is_left_out_for_want_of_room_or_time_does_not_fit_a_day_alone(
        seed in any::<u64>(),
        sites in 1_usize..14,
        kind in 0_u8..14,
    ) {
        let mut problem = random_problem(seed, sites);
        spoil_input(&mut problem, kind, &mut Pcg64Mcg::seed_from_u64(seed));
        for (site, reason) in solve(&problem, seed, 20).left_out {
            let could = matches!(reason, LeftOutReason::NotWorthTheTime | LeftOutReason::LessUrgent);
            prop_assert_eq!(rounds::fits_a_day(&problem, site), could, "site {}: {:?}", site, reason);
        }
    }

    #[test]
    fn the_same_seed_gives_the_same_round(seed in any::<u64>(), sites in 0_usize..25) {
        let problem = random_problem(seed, sites);
        let (once, again) = (solve(&problem, seed, 100), solve(&problem, seed, 100));
        prop_assert_eq!(format!("{once:?}"), format!("{again:?}"));
        prop_assert_eq!(once.objective.to_bits(), again.objective.to_bits());
    }

    /// The optimum can only get better.
    #[test]
    fn a_longer_shift_is_never_worse(seed in any::<u64>(), sites in 0_usize..6) {
        let mut problem = random_problem(seed, sites);
        let short = solve(&problem, seed, 1_500).objective;
        problem.shift_end.0 += 3600;
        let long = solve(&problem, seed, 1_500).objective;
        prop_assert!(long <= short + 1e-9, "an hour longer: {} after {}", long, short);
    }
}

fn reasons(problem: &RoundProblem) -> Vec<(usize, LeftOutReason)> {
    let solution = solve(problem, 3, 500);
    checker::check(problem, &solution);
    solution.left_out
}

#[test]
fn no_sites_make_an_empty_round() {
    let solution = solve(&problem_at(&[(0.0, 0.0)], vec![]), 0, 100);
    assert_eq!(solution, model::round::RoundSolution::default());
}

/// Each site is kept out by another thing.
#[test]
fn each_left_out_site_has_its_reason() {
    let mut sites = vec![plain_site(1800, 50.0); 9];
    sites[1].demand = dig(2500.0, 0.0);
    sites[2].demand = dig(1500.0, 2200.0);
    sites[3].demand = Demand { binder_volume: litres(201.0), ..Demand::default() };
    sites[4].windows = vec![(SecondOfDay::hm(7, 30), SecondOfDay::hm(7, 59))];
    sites[5].service_s = 8 * 3600;
    sites[6].worth = 0.1;
    sites[7].windows = vec![(SecondOfDay::hm(5, 0), SecondOfDay::hm(7, 0))];
    let mut problem = problem_at(&[(0.0, 0.0); 10], sites);
    problem.capacity.base_volume = litres(1000.0);
    problem.capacity.spoil_volume = litres(1500.0);
    problem.capacity.shared_volume = litres(1000.0);
    problem.capacity.binder_volume = litres(200.0);
    problem.travel_s[9][..9].fill(u32::MAX);
    let expected = [
        (1, LeftOutReason::ExceedsTruck("room for base")),
        (2, LeftOutReason::ExceedsTruck("room for base and spoil together")),
        (3, LeftOutReason::ExceedsTruck("room for binder")),
        (4, LeftOutReason::NoWindow),
        (5, LeftOutReason::ExceedsShift),
        (6, LeftOutReason::NotWorthTheTime),
        (7, LeftOutReason::NoWindow),
        (8, LeftOutReason::Unreachable),
    ];
    assert_eq!(reasons(&problem), expected);
}

/// Two hours of work each, seven and a half hours of shift beside loading and tipping: the three best go.
#[test]
fn the_less_urgent_is_left_out_when_the_shift_is_full() {
    let sites = [40.0, 30.0, 60.0, 50.0].map(|worth| plain_site(2 * 3600, worth)).to_vec();
    assert_eq!(reasons(&problem_at(&[(0.0, 0.0); 5], sites)), [(1, LeftOutReason::LessUrgent)]);
}

/// 4 x 500 L of base on a truck for 1000 L: two trips of two, never one of three.
#[test]
fn a_full_truck_reloads() {
    let mut sites = vec![plain_site(1800, 50.0); 4];
    for site in &mut sites {
        site.demand = dig(500.0, 0.0);
    }
    let mut problem = problem_at(&[(0.0, 0.0), (5000.0, 0.0), (5100.0, 0.0), (-5000.0, 0.0), (-5100.0, 0.0)], sites);
    problem.capacity.base_volume = litres(1000.0);
    problem.capacity.shared_volume = litres(0.0);
    let solution = solve(&problem, 0, 1000);
    checker::check(&problem, &solution);
    let mut trips = solution.trips.clone();
    for trip in &mut trips {
        trip.sort_unstable();
    }
    trips.sort();
    assert_eq!(trips, [[0, 1], [2, 3]]);
}

/// Digging before filling: the spoil of the first site comes on while its base is still aboard. 600 L of base for each of
/// two sites and 600 L of spoil from each need 1800 L at the first: a shared room of 1700 L takes two trips.
#[test]
fn spoil_comes_on_before_base_goes_off() {
    let mut sites = vec![plain_site(600, 50.0); 2];
    for site in &mut sites {
        site.demand = dig(600.0, 600.0);
    }
    let mut problem = problem_at(&[(0.0, 0.0), (1000.0, 0.0), (1000.0, 0.0)], sites);
    for (shared, trips) in [(1800.0, 1), (1700.0, 2)] {
        problem.capacity.base_volume = litres(0.0);
        problem.capacity.spoil_volume = litres(0.0);
        problem.capacity.shared_volume = litres(shared);
        let solution = solve(&problem, 0, 300);
        checker::check(&problem, &solution);
        assert_eq!(solution.trips.len(), trips, "{shared} L");
    }
}

/// Worked by hand: load 07:00 to 07:10, 100 s of driving, wait for 08:00, an hour of work, the break at its end, back at
/// 09:31:40, tipped at 09:36:40.
#[test]
fn a_timetable_worked_by_hand() {
    let mut site = plain_site(3600, 50.0);
    site.windows =
        vec![(SecondOfDay::hm(7, 0), SecondOfDay::hm(7, 30)), (SecondOfDay::hm(8, 0), SecondOfDay::hm(10, 0))];
    let mut problem = problem_at(&[(0.0, 0.0), (1000.0, 0.0)], vec![site]);
    problem.capacity = huge_truck();
    problem.rest = Some(RestBreak { earliest: SecondOfDay::hm(8, 30), latest: SecondOfDay::hm(9, 5), length_s: 1800 });
    let solution = solve(&problem, 0, 10);
    checker::check(&problem, &solution);
    let h = |hour, minute, second| SecondOfDay::hm(hour, minute).0 + second;
    let got: Vec<_> = solution.timetable.iter().map(|stop| (stop.kind, stop.from.0, stop.to.0)).collect();
    let expected = [
        (StopKind::Load(0), h(7, 0, 0), h(7, 10, 0)),
        (StopKind::Drive(1), h(7, 10, 0), h(7, 11, 40)),
        (StopKind::Wait, h(7, 11, 40), h(8, 0, 0)),
        (StopKind::Work(0), h(8, 0, 0), h(9, 0, 0)),
        (StopKind::Rest, h(9, 0, 0), h(9, 30, 0)),
        (StopKind::Drive(0), h(9, 30, 0), h(9, 31, 40)),
        (StopKind::Tip(0), h(9, 31, 40), h(9, 36, 40)),
    ];
    assert_eq!(got, expected);
    assert!((solution.objective - 10.0 * (2.0 * 3600.0 + 36.0 * 60.0 + 40.0) / 3600.0).abs() < 1e-9);
}

/// Sites that pay only together: a far village with four of them.
#[test]
fn a_far_village_is_served_as_a_whole() {
    let mut points = vec![(0.0, 0.0)];
    points.extend([(36_000.0, 0.0), (36_000.0, 100.0), (36_100.0, 0.0), (36_100.0, 100.0)]);
    let problem = problem_at(&points, vec![plain_site(600, 8.0); 4]);
    // there and back 2 h, work 40 min, loading and tipping 15 min: 29 points of 32
    let solution = solve(&problem, 0, 3000);
    checker::check(&problem, &solution);
    assert!(solution.left_out.is_empty(), "{solution:?}");
}

#[test]
fn progress_hears_and_stops() {
    let problem = random_problem(5, 20);
    let mut words = Vec::new();
    let settings = SearchSettings { seed: 1, iterations: 100_000 };
    let stopped = rounds::solve(&problem, &settings, &mut |done, best| {
        words.push((done, best));
        words.len() < 4
    });
    checker::check(&problem, &stopped);
    assert!(words.len() == 5 && words.is_sorted_by_key(|word| word.0), "{words:?}");
    assert!(words.is_sorted_by(|a, b| a.1 >= b.1 - 1e-6), "the best never gets worse: {words:?}");
    assert!((words[4].1 - stopped.objective).abs() < 1e-9);
}

/// The break may begin at its latest second and not one later; a shift that starts after it has none.
#[test]
fn the_break_begins_by_its_latest() {
    let mut problem = problem_at(&[(0.0, 0.0), (1000.0, 0.0)], vec![plain_site(3600, 50.0)]);
    // load to 07:10, drive to 07:11:40, work to 08:11:40, and the day would be over at 08:18:20
    problem.shift_end = SecondOfDay::hm(9, 0);
    let work_ends = SecondOfDay::hm(8, 11).0 + 40;
    let rests = |problem: &RoundProblem| {
        let solution = solve(problem, 0, 20);
        checker::check(problem, &solution);
        let rests = solution.timetable.iter().filter(|stop| stop.kind == StopKind::Rest).count();
        (solution.trips.len(), rests)
    };
    for (latest, expected) in [(work_ends, (1, 1)), (work_ends - 1, (0, 0)), (work_ends + 400, (1, 0))] {
        let (earliest, latest) = (SecondOfDay::hm(8, 0), SecondOfDay(latest));
        problem.rest = Some(RestBreak { earliest, latest, length_s: 1800 });
        assert_eq!(rests(&problem), expected, "latest {latest:?}");
    }
    let (earliest, latest) = (SecondOfDay::hm(6, 0), SecondOfDay::hm(6, 59));
    problem.rest = Some(RestBreak { earliest, latest, length_s: 1800 });
    assert_eq!(rests(&problem), (1, 0));
}
