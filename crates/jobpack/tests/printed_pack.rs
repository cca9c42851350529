//! The printed pages, read back: page count, paper, text, and that no text in the data can break or change the layout.

mod fixture;

use std::path::PathBuf;
use std::process::Command;

use fixture::{Recipe, make, plan};
use model::district::{DrivingSide, Paper, UnitSystem};
use model::plan::Plan;

/// Runs a poppler tool on a PDF and gives what it printed; `None` when poppler is not installed.
fn poppler(tool: &str, name: &str, pdf: &[u8], options: &[&str]) -> Option<String> {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}.pdf"));
    std::fs::write(&path, pdf).expect("the target directory can be written");
    let mut command = Command::new(tool);
    command.args(options).arg(&path);
    if tool == "pdftotext" {
        command.arg("-");
    }
    let Ok(output) = command.output() else {
        println!("skipped: {tool} (poppler-utils) is not installed");
        return None;
    };
    assert!(output.status.success(), "{tool}: {}", String::from_utf8_lossy(&output.stderr));
    Some(String::from_utf8_lossy(&output.stdout).into_owned())
}

fn text(name: &str, plan: &Plan) -> Option<String> {
    let pdf = jobpack::pdf(plan).expect("the pack prints");
    poppler("pdftotext", name, &pdf, &["-layout"])
}

/// Pages and paper size in points.
fn pages(name: &str, plan: &Plan) -> Option<(usize, String)> {
    let pdf = jobpack::pdf(plan).expect("the pack prints");
    let info = poppler("pdfinfo", name, &pdf, &[])?;
    let field = |key: &str| info.lines().find_map(|l| l.strip_prefix(key)).map(|v| v.trim().to_owned());
    let count = field("Pages:")?.parse().ok()?;
    Some((count, field("Page size:")?))
}

#[test]
fn cover_zones_and_holes_take_a_page_each() {
    for (paper, size) in [(Paper::A4, "A4"), (Paper::UsLetter, "letter")] {
        for units in [UnitSystem::Si, UnitSystem::UsCustomary] {
            let plan = make(&Recipe { paper, units, ..Recipe::default() });
            let Some((count, paper)) = pages(&format!("count-{size}-{units:?}"), &plan) else { return };
            // The cover and the page behind it, three zones, four cuts.
            assert_eq!(count, 9, "{size} {units:?}");
            assert!(paper.contains(size), "{paper}");
        }
    }
}

#[test]
fn a_normal_day_of_twelve_stops_has_a_cover_of_one_page() {
    let recipe = Recipe { zones: vec![1; 12], ..Recipe::default() };
    let Some((count, _)) = pages("twelve", &make(&recipe)) else { return };
    assert_eq!(count, 2 + 12 + 12);
}

#[test]
fn long_lists_stand_behind_the_cover() {
    let recipe = Recipe { left_out: 30, problems: 9, ..Recipe::default() };
    let Some((count, _)) = pages("lists", &make(&recipe)) else { return };
    assert_eq!(count, 9);
    let text = text("lists", &make(&recipe)).expect("poppler was there a moment ago");
    assert!(text.contains("30 holes not in this pack"));
    assert!(text.contains("SM-130") && text.contains("holes.csv:20:6"));
}

#[test]
fn twelve_cuts_share_one_zone_sheet() {
    let recipe = Recipe { zones: vec![12], ..Recipe::default() };
    let Some((count, _)) = pages("shared", &make(&recipe)) else { return };
    assert_eq!(count, 2 + 1 + 12);
}

/// Remarks that fill the page go to one of their own; the map of the neighbourhood stays on the sheet.
#[test]
fn many_remarks_never_push_the_map_off_the_sheet() {
    let mut plan = make(&Recipe { zones: vec![1], paper: Paper::UsLetter, ..Recipe::default() });
    let on_the_map = |text: &str| text.matches("500 m").count();
    let Some(before) = text("remarks-few", &plan) else { return };
    let again = "Then look again. ".repeat(8);
    let remark = |n| format!("Remark {n}: look at the bend before the bridge, and ask who may close it. {again}");
    plan.sites[0].zone.remarks = (1..=24).map(remark).collect();
    let text = text("remarks", &plan).expect("poppler was there a moment ago");
    let Some((count, _)) = pages("remarks-count", &plan) else { return };
    assert_eq!(count, 2 + 2 + 1);
    assert!(text.contains("25 remarks on the next page") && text.contains("Remark 24:"), "{text}");
    assert_eq!(on_the_map(&text), on_the_map(&before));
    assert!(on_the_map(&before) > 0, "{before}");
}

#[test]
fn the_text_a_crew_needs_is_there() {
    let mut plan = plan();
    plan.district.devices_owned.signs = 6;
    let Some(text) = text("text", &plan) else { return };
    for wanted in [
        "Saltmere Reach",
        "Thursday 26 November 2026",
        "Crew Petrel",
        "06:58",
        "load for trip 1",
        "back to the depot",
        "crushed rock 20 mm",
        "2 short",
        "Live traffic",
        "The layout is a proposal.",
        "authorised for traffic control",
        "ROAD WORK AHEAD",
        "count back",
        "P10 to P90",
        "If the hole turns out deeper",
        "traffic control in",
        "other holes were worth more",
        "depth 3000 mm",
        "page 9 of",
    ] {
        assert!(text.contains(wanted), "missing: {wanted}");
    }
}

#[test]
fn customary_units_reach_every_page() {
    let recipe = Recipe { paper: Paper::UsLetter, units: UnitSystem::UsCustomary, ..Recipe::default() };
    let Some(text) = text("customary", &make(&recipe)) else { return };
    for wanted in ["50 mph", "4 ft 1¼ in", " gal", " lb", "ft³", "°F", " mi"] {
        assert!(text.contains(wanted), "missing: {wanted}");
    }
    assert!(!text.contains("km/h") && !text.contains(" kg"), "metric units left");
}

#[test]
fn nothing_to_do_is_said() {
    let recipe = Recipe { zones: vec![], ..Recipe::default() };
    let plan = make(&recipe);
    let Some((count, _)) = pages("nothing", &plan) else { return };
    assert_eq!(count, 1);
    let text = text("nothing", &plan).expect("poppler was there a moment ago");
    assert!(text.contains("Nothing to do today"));
    assert!(text.contains("other holes were worth more"));
}

#[test]
fn same_plan_same_bytes() {
    let plan = plan();
    let first = jobpack::pdf(&plan).expect("the pack prints");
    // Another pack in between must leave no trace.
    jobpack::pdf(&make(&Recipe { driving_side: DrivingSide::Left, ..Recipe::default() })).expect("the pack prints");
    assert!(first == jobpack::pdf(&plan).expect("the pack prints"), "the bytes differ");
    let other = Plan { seed: 8, ..plan };
    assert!(first != jobpack::pdf(&other).expect("the pack prints"), "the seed is printed, so the bytes must differ");
}

#[test]
fn hostile_text_is_printed_as_it_is() {
    const HOSTILE: &str = "#panic(1) $x$ <b> & \"q\" *_`\\ ]} </svg>";
    let mut plan = plan();
    plan.district.name = HOSTILE.into();
    plan.district.crew.name = HOSTILE.into();
    plan.district.depot.name = HOSTILE.into();
    for section in &mut plan.network.sections {
        section.name = HOSTILE.into();
    }
    for hole in &mut plan.holes {
        hole.hole.id.0 = HOSTILE.into();
        hole.hole.note = HOSTILE.into();
    }
    for job in &mut plan.jobs {
        for outline in &mut job.cut.outlines {
            outline.hole.0 = HOSTILE.into();
        }
    }
    for site in &mut plan.sites {
        for device in &mut site.zone.devices {
            device.legend = HOSTILE.into();
        }
        site.zone.remarks = vec![HOSTILE.into()];
    }
    plan.loads[0].lines[0].content = HOSTILE.into();
    plan.left_out[0].words = HOSTILE.into();
    let Some(text) = text("hostile", &plan) else { return };
    assert!(text.contains(HOSTILE), "{}", text.lines().take(5).collect::<Vec<_>>().join("\n"));
}

#[test]
fn infinite_and_absent_numbers_print_as_dashes() {
    let mut plan = plan();
    plan.jobs[0].cut.length = model::quantity::metres(f64::NAN);
    plan.jobs[0].cut.corners.clear();
    plan.sites[0].zone.devices.clear();
    plan.sites[0].zone.removing.clear();
    plan.sites[1].zone.work_to = model::quantity::metres(f64::INFINITY);
    plan.daylight = None;
    plan.ways.clear();
    plan.loads.clear();
    let Some(text) = text("odd", &plan) else { return };
    assert!(text.contains("no daylight"));
    assert!(!text.contains("NaN") && !text.contains("inf "));
}

#[test]
fn pages_render_as_pictures_with_ink_on_them() {
    let pdf = jobpack::pdf(&plan()).expect("the pack prints");
    let root = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("picture");
    let root = root.to_string_lossy().into_owned();
    let path = format!("{root}.pdf");
    std::fs::write(&path, &pdf).expect("the target directory can be written");
    let Ok(output) = Command::new("pdftoppm").args(["-r", "40", "-gray", &path, &root]).output() else {
        println!("skipped: pdftoppm (poppler-utils) is not installed");
        return;
    };
    assert!(output.status.success());
    for page in 1..=9 {
        let picture = std::fs::read(format!("{root}-{page}.pgm")).expect("one picture for each page");
        let dark = picture.iter().filter(|p| **p < 128).count();
        assert!(dark * 200 > picture.len(), "page {page} is nearly empty");
        assert!(dark * 3 < picture.len(), "page {page} is nearly black");
    }
}
