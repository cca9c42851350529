//! What the sheets must say, and what outside text, long lists and odd plans must not break.

mod fixture;

use std::path::PathBuf;
use std::process::Command;

use fixture::{Recipe, Road, make, plan};
use model::district::{BinderKind, Paper, UnitSystem};
use model::hole::HoleId;
use model::look::{LookReason, PlannedLook};
use model::plan::{LeftOut, Plan};
use model::quantity::{metres, minutes, square_metres};
use model::round::{SecondOfDay, Stop, StopKind};

/// The printed text and the number of pages; `None` when poppler is not installed.
fn printed(name: &str, plan: &Plan) -> Option<(String, usize)> {
    let pdf = jobpack::pdf(plan).expect("the pack prints");
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("sheets-{name}.pdf"));
    std::fs::write(&path, pdf).expect("the target directory can be written");
    let Ok(output) = Command::new("pdftotext").arg("-layout").arg(&path).arg("-").output() else {
        println!("skipped: pdftotext (poppler-utils) is not installed");
        return None;
    };
    assert!(output.status.success());
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let pages = text.matches('\u{c}').count();
    Some((text, pages))
}

/// Words in a row, however the lines broke.
fn says(text: &str, wanted: &str) -> bool {
    let flat = |t: &str| t.split_whitespace().collect::<Vec<_>>().join(" ");
    flat(text).contains(&flat(wanted))
}

#[test]
fn the_place_of_the_work_is_on_both_sheets() {
    let Some((text, _)) = printed("place", &plan()) else { return };
    let pages: Vec<&str> = text.split('\u{c}').collect();
    for page in &pages[2..] {
        if page.trim().is_empty() {
            continue;
        }
        assert!(says(page, "latitude, longitude") && page.contains("47.3") && page.contains("-28."), "{page}");
        assert!(says(page, "Chainage counts from the junction with Sedge Lane towards the junction with Kiln Road."));
    }
}

#[test]
fn chainages_beyond_the_section_are_words() {
    let mut plan = plan();
    plan.sites[0].zone.devices[0].chainage = metres(-246.0);
    plan.sites[0].zone.devices[1].chainage = metres(1700.0);
    let Some((text, _)) = printed("beyond", &plan) else { return };
    assert!(text.contains("246 m before"), "before the start");
    // The section is 1600 m long.
    assert!(text.contains("100 m past"), "past the end");
    assert!(!text.contains("–0+") && !text.contains("-0+"), "a negative chainage is left");
}

#[test]
fn what_must_be_loud_is_on_the_cover() {
    let mut late = make(&Recipe { road: Road::OneLane, ..Recipe::default() });
    late.back_p90 = Some(SecondOfDay::hm(16, 36));
    late.district.devices_owned.signs = 3;
    late.district.crew.people = 3;
    let Some((text, _)) = printed("loud", &late) else { return };
    let cover = text.split('\u{c}').next().expect("a cover");
    assert!(says(cover, "Look at this before you leave"));
    assert!(says(cover, "back by 16:36 in nine days of ten"));
    assert!(says(cover, "Stops 1, 2, 3: only 2.0 m stays open"));
    assert!(says(cover, "signs needed, the depot has 3"));
    assert!(says(cover, "4 people needed, flaggers included; the crew has 3"));
    let closed = make(&Recipe { road: Road::AllClosed, ..Recipe::default() });
    let (text, _) = printed("closed", &closed).expect("poppler was there a moment ago");
    assert!(says(&text, "Stops 1, 2, 3: nothing stays open"));
    let mut calm = plan();
    calm.back_p90 = Some(SecondOfDay::hm(15, 29));
    let (text, _) = printed("calm", &calm).expect("poppler was there a moment ago");
    assert!(!says(&text, "Look at this before you leave"), "{text}");
    assert!(text.contains("15:29"));
}

#[test]
fn cautions_go_with_the_binder() {
    let mut plan = plan();
    let Some((text, _)) = printed("emulsion", &plan) else { return };
    assert!(!text.contains("cutback gives off solvent") && text.contains("Emulsion:"));
    plan.district.binder.kind = BinderKind::Cutback;
    let (text, _) = printed("cutback", &plan).expect("poppler was there a moment ago");
    assert!(text.contains("cutback gives off solvent") && !text.contains("Emulsion:"));
}

#[test]
fn a_city_of_holes_is_counted_and_the_reason_is_said_once() {
    let mut city = plan();
    let words = "the day is full of other work";
    city.left_out = (0..3000)
        .map(|k| LeftOut {
            hole: HoleId(format!("C-{k}")),
            reason: None,
            words: words.into(),
            road: "R13 Shearwater Road".into(),
            place: city.sites[0].place,
            distance: None,
        })
        .collect();
    let problem = city.problems[0].clone();
    city.problems =
        (0..300).map(|k| model::problem::Problem { subject: format!("P-{k}"), ..problem.clone() }).collect();
    for problem in &mut city.problems {
        problem.at.file = "some/where/holes.csv".into();
    }
    let Some((text, pages)) = printed("city", &city) else { return };
    assert!(says(&text, "and 2940 more, less pressing; all in plan.json"));
    assert!(says(&text, "and 275 more, all in plan.json"));
    // Once in the summary of the cover, once above the list.
    assert_eq!(text.matches(words).count(), 2);
    assert!(!text.contains("some/where"));
    assert!(pages <= 10, "{pages} pages");
}

#[test]
fn merged_reports_say_how_many_and_how_large() {
    let mut plan = plan();
    let (job, first) = (0, plan.jobs[0].holes[0]);
    for k in 1..60 {
        let mut hole = plan.holes[first].clone();
        hole.hole.id = HoleId(format!("M-{k}"));
        hole.hole.depth = model::quantity::millimetres(40.0 + f64::from(k));
        plan.jobs[job].holes.push(plan.holes.len());
        plan.holes.push(hole);
    }
    let Some((text, pages)) = printed("merged", &plan) else { return };
    assert!(says(&text, "60 holes in one cut: 1.10 m long, 0.70 m wide, 41 to 99 mm deep"), "{text}");
    assert_eq!(pages, 9);
}

#[test]
fn every_layout_fits_its_page_on_both_papers() {
    for road in [Road::OneLane, Road::AllClosed, Road::FourLanes, Road::Shoulder] {
        for (paper, units) in [(Paper::A4, UnitSystem::Si), (Paper::UsLetter, UnitSystem::UsCustomary)] {
            let plan = make(&Recipe { paper, units, road, ..Recipe::default() });
            let Some((_, pages)) = printed(&format!("{road:?}-{paper:?}"), &plan) else { return };
            assert_eq!(pages, 9, "{road:?} {paper:?}");
        }
    }
}

#[test]
fn the_licence_line_stands_under_every_map() {
    let mut plan = plan();
    plan.road_attribution = Some("Roads: an invented open map".into());
    let Some((text, pages)) = printed("licence", &plan) else { return };
    // The cover's map and one for each of three zones.
    assert_eq!(text.matches("Roads: an invented open map").count(), 4);
    assert_eq!(pages, 9);
}

#[test]
fn names_that_reorder_hide_or_run_on_are_made_visible() {
    let mut plan = plan();
    plan.holes[0].hole.id = HoleId("A\u{202e}21".into());
    plan.left_out[0].hole = HoleId("🚧1".into());
    plan.left_out[1].hole = HoleId("🚦1".into());
    plan.district.crew.name = "W".repeat(300);
    for section in &mut plan.network.sections {
        section.name = "Wa".repeat(150);
    }
    for site in &mut plan.sites {
        site.chainage_from = "Q".repeat(300);
    }
    let Some((text, pages)) = printed("unseen", &plan) else { return };
    assert!(text.contains("A<U+202E>21") && !text.contains('\u{202e}'));
    assert!(text.contains("<U+1F6A7>1") && text.contains("<U+1F6A6>1"));
    assert_eq!(pages, 9);
}

/// With long lists the search looks at the most pressing sites only: the others stand behind them in `sites`.
#[test]
fn sites_the_search_did_not_look_at_break_nothing() {
    let mut plan = plan();
    let last = plan.sites.len() - 1;
    plan.problem.sites.truncate(1);
    plan.problem.travel_s.truncate(2);
    plan.problem.travel_m.truncate(2);
    for trip in &mut plan.round.trips {
        trip.retain(|&site| site == 0);
    }
    plan.round.timetable.retain(|stop| !matches!(stop.kind, StopKind::Work(site) if site > 0));
    let hole = plan.jobs[plan.sites[last].jobs[0]].holes[0];
    plan.left_out[0].hole = plan.holes[hole].hole.id.clone();
    for file in [jobpack::plan_json(&plan), jobpack::holes_geojson(&plan), jobpack::route_map_svg(&plan)] {
        assert!(!file.is_empty());
    }
    for site in 0..plan.sites.len() {
        assert!(jobpack::zone_plan_svg(&plan, site).ends_with("</svg>\n"));
        assert!(jobpack::place_map_svg(&plan, site).ends_with("</svg>\n"));
    }
    for job in 0..plan.jobs.len() {
        assert!(jobpack::cut_plan_svg(&plan, job).ends_with("</svg>\n"));
    }
    let Some((text, pages)) = printed("unseen-sites", &plan) else { return };
    // Cover, the lists, one zone, its one cut.
    assert_eq!(pages, 4);
    assert!(text.contains(&plan.left_out[0].hole.0));
}

/// A crew that works from paper finds each look and has where to mark it.
#[test]
fn looks_at_earlier_repairs_can_be_found_and_marked() {
    let mut plan = plan();
    let site = plan.sites[0].clone();
    let look = |why, opened| PlannedLook {
        repair: uuid::Uuid::nil(),
        position: site.position,
        place: site.place,
        road: "Heron Lane".into(),
        chainage_from: "the junction with Tern Road".into(),
        chainage_towards: "the road’s end".into(),
        opened,
        area: Some(square_metres(0.6)),
        is_due: true,
        shoulder_least: metres(1.2),
        default_shoulder_counts: false,
        why,
        stop: minutes(3.0),
        detour_s: 40,
        detour: metres(300.0),
    };
    plan.looks = vec![
        look(LookReason::AfterOpening { days: 180 }, Some(jiff::civil::date(2026, 5, 30))),
        look(LookReason::FoundWorn { days: 60 }, None),
    ];
    let back = plan.round.timetable.len() - 1;
    let (from, to) = (plan.round.timetable[back].from, plan.round.timetable[back].to);
    for number in [1, 0] {
        plan.round.timetable.insert(back, Stop { kind: StopKind::Look(number), from, to });
    }
    let map = jobpack::route_map_svg(&plan);
    assert!(map.contains(">A</text>") && map.contains(">B</text>"), "lettered on the map");
    let Some((text, _)) = printed("looks", &plan) else { return };
    for wanted in [
        "look at repair,",
        "Heron Lane",
        "Looks at earlier repairs on the way",
        "mended 2026-05-30",
        "Chainage counts from",
        "180 days after it was opened",
        "found worn, looked at again after 60 days",
        "not looked at",
    ] {
        assert!(says(&text, wanted), "{wanted}");
    }
}
