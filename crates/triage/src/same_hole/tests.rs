//! Laws of the grouping, for any list.

use std::collections::BTreeSet;

use jiff::civil::date;
use model::quantity::{metres, millimetres};
use proptest::prelude::*;

use super::*;

fn rules() -> MatchingRules {
    let path = testkit::in_repository("rules/matching/common-practice.toml");
    toml::from_str(&std::fs::read_to_string(path).expect("the rule file")).expect("its shape")
}

/// Crowded on two short sections, so that nearly every rule comes into play.
fn any_report() -> impl Strategy<Value = Report> {
    let lane = prop::sample::select(vec![
        None,
        Some(LanePosition::Lane),
        Some(LanePosition::Edge),
        Some(LanePosition::Centre),
        Some(LanePosition::WheelPath),
        Some(LanePosition::Shoulder),
    ]);
    let source = prop::sample::select(vec!["", "patrol", "survey", "crew", "public", "address", "gossip"]);
    let place = (0u32..2, 0.0f64..40.0, -4.0f64..4.0);
    let size = (0.2f64..2.0, 0.2f64..2.0, 20.0f64..300.0);
    (place, lane, size, prop::option::of(0i64..200), source).prop_map(|(place, lane_position, size, days, source)| {
        Report {
            id: HoleId(String::new()),
            section: SectionId(place.0),
            chainage: metres(place.1),
            across: metres(place.2),
            lane_position,
            length: metres(size.0),
            width: metres(size.1),
            depth: millimetres(size.2),
            seen: days.map(|days| date(2026, 1, 1).saturating_add(jiff::Span::new().days(days))),
            source: source.to_owned(),
        }
    })
}

fn any_list() -> impl Strategy<Value = Vec<Report>> {
    prop::collection::vec(any_report(), 0..25).prop_map(|mut reports| {
        for (number, report) in reports.iter_mut().enumerate() {
            report.id = HoleId(format!("R{number:02}"));
        }
        reports
    })
}

fn by_name(groups: &[Vec<usize>], reports: &[Report]) -> BTreeSet<BTreeSet<String>> {
    groups.iter().map(|members| members.iter().map(|&member| reports[member].id.0.clone()).collect()).collect()
}

proptest! {
    #[test]
    fn every_report_is_in_one_hole(reports in any_list()) {
        let groups = same_holes(&reports, &rules());
        let mut all: Vec<usize> = groups.concat();
        all.sort_unstable();
        prop_assert_eq!(all, (0..reports.len()).collect::<Vec<_>>());
    }

    #[test]
    fn the_order_of_the_list_does_not_matter(reports in any_list(), turn in 0usize..25) {
        let rules = rules();
        let groups = same_holes(&reports, &rules);
        for other in [
            reports.iter().rev().cloned().collect::<Vec<_>>(),
            reports.iter().cycle().skip(turn).take(reports.len()).cloned().collect(),
        ] {
            let again = same_holes(&other, &rules);
            prop_assert_eq!(by_name(&again, &other), by_name(&groups, &reports));
            let leaders = |groups: &[Vec<usize>], reports: &[Report]| -> BTreeSet<String> {
                groups.iter().map(|members| reports[leading(members, reports, &rules, UnitSystem::Si).leader].id.0.clone()).collect()
            };
            prop_assert_eq!(leaders(&again, &other), leaders(&groups, &reports));
        }
    }

    #[test]
    fn joining_again_changes_nothing(reports in any_list()) {
        let rules = rules();
        let groups = same_holes(&reports, &rules);
        let agree = |a: usize, b: usize| pair(&reports[a], &reports[b], &rules, UnitSystem::Si).is_ok();
        prop_assert_eq!(join(groups.clone(), near_pairs(&reports, &rules), &reports, &agree), groups);
    }

    /// Reports in a row on one road, the distance alone known: what is joined there is joined along the road too.
    #[test]
    fn by_distance_alone_no_more_is_joined_than_along_a_road(reports in any_list()) {
        let rules = rules();
        let in_row: Vec<Report> =
            reports.into_iter().map(|report| Report { section: SectionId(0), across: metres(0.0), ..report }).collect();
        let apart = |a: usize, b: usize| metres((in_row[a].chainage - in_row[b].chainage).in_metres().abs());
        let count = in_row.len();
        let near: Vec<(usize, usize)> = (0..count).flat_map(|a| (a + 1..count).map(move |b| (a, b))).collect();
        let groups = same_holes_apart(&in_row, &near, &apart, &rules);
        let mut all: Vec<usize> = groups.concat();
        all.sort_unstable();
        prop_assert_eq!(all, (0..count).collect::<Vec<_>>());
        for members in groups {
            for (place, &one) in members.iter().enumerate() {
                for &other in &members[place + 1..] {
                    let (one, other) = (&in_row[one], &in_row[other]);
                    prop_assert!(pair(one, other, &rules, UnitSystem::Si).is_ok());
                }
            }
        }
    }

    #[test]
    fn a_size_that_is_not_told_tells_nothing_apart(report in any_report()) {
        let untold = metres(f64::NAN);
        let told = Report { source: "public".into(), ..report };
        let other = Report { length: untold, width: untold, depth: untold, ..told.clone() };
        for (a, b) in [(&told, &other), (&other, &told), (&other, &other)] {
            prop_assert!(pair(a, b, &rules(), UnitSystem::Si).is_ok());
        }
    }

    #[test]
    fn no_hole_holds_two_reports_that_are_told_apart(reports in any_list()) {
        let rules = rules();
        for members in same_holes(&reports, &rules) {
            for (place, &one) in members.iter().enumerate() {
                for &other in &members[place + 1..] {
                    prop_assert!(pair(&reports[one], &reports[other], &rules, UnitSystem::Si).is_ok());
                }
            }
        }
    }

    #[test]
    fn it_is_the_same_either_way_round(reports in any_list()) {
        let rules = rules();
        for one in &reports {
            for other in &reports {
                let (there, back) = (pair(one, other, &rules, UnitSystem::Si), pair(other, one, &rules, UnitSystem::Si));
                prop_assert_eq!(there.is_ok(), back.is_ok());
                if let (Ok(there), Ok(back)) = (there, back) {
                    prop_assert_eq!(there.score, back.score);
                }
            }
        }
    }

    #[test]
    fn the_first_day_is_the_earliest_and_a_measured_size_is_the_leaders(reports in any_list()) {
        let rules = rules();
        for members in same_holes(&reports, &rules) {
            let led = leading(&members, &reports, &rules, UnitSystem::Si);
            prop_assert!(members.contains(&led.leader));
            prop_assert_eq!(led.others.len() + 1, members.len());
            for &member in &members {
                let report = &reports[member];
                prop_assert!(report.seen.is_none_or(|seen| led.first_seen.is_some_and(|first| first <= seen)));
                if rules.of(&report.source).measures {
                    prop_assert!(led.largest_told.is_none());
                    prop_assert!(rules.of(&reports[led.leader].source).measures);
                    prop_assert!(report.seen <= reports[led.leader].seen);
                }
                if let Some([length, width, depth]) = led.largest_told {
                    prop_assert!(length >= report.length && width >= report.width && depth >= report.depth);
                }
            }
        }
    }
}
