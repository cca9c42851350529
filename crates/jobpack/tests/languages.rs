//! The pack in every language: no more pages, the words of the catalogue, and figures that no direction turns round.

mod fixture;

use std::path::PathBuf;
use std::process::Command;

use fixture::{Recipe, make};
use model::plan::Plan;
use model::quantity::metres;

const LANGUAGES: [&str; 5] = ["en", "es", "fr", "pt", "ar"];

fn in_language(language: &str) -> Plan {
    let mut plan = make(&Recipe::default());
    language.clone_into(&mut plan.district.language);
    plan
}

/// The printed text, page by page, with the gaps between columns made one blank; `None` when poppler is not installed.
fn pages(name: &str, plan: &Plan) -> Option<Vec<String>> {
    let pdf = jobpack::pdf(plan).expect("the pack prints");
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("languages-{name}.pdf"));
    std::fs::write(&path, pdf).expect("the target directory can be written");
    let Ok(output) = Command::new("pdftotext").arg("-layout").arg(&path).arg("-").output() else {
        println!("skipped: pdftotext (poppler-utils) is not installed");
        return None;
    };
    assert!(output.status.success());
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let line = |line: &str| line.split_whitespace().collect::<Vec<_>>().join(" ");
    let page = |page: &str| page.lines().map(line).filter(|line| !line.is_empty()).collect::<Vec<_>>().join("\n");
    Some(text.split_terminator('\u{c}').map(page).collect())
}

/// Longer words may send the remarks of a zone to a page of their own; nothing else takes more pages than in English.
#[test]
fn no_sheet_runs_over_its_page_in_any_language() {
    for language in LANGUAGES {
        let Some(pages) = pages(language, &in_language(language)) else { return };
        // The cover and the page behind it, three zones, four cuts; at the most a page of remarks for each zone.
        assert!((9..=12).contains(&pages.len()), "{language}: {} pages", pages.len());
    }
}

#[test]
fn the_first_sheets_in_spanish() {
    let Some(pages) = pages("spanish", &in_language("es")) else { return };
    insta::assert_snapshot!([&pages[0], &pages[2], &pages[3]].map(String::as_str).join("\n\n"));
}

#[test]
fn the_first_sheets_in_arabic() {
    let Some(pages) = pages("arabic", &in_language("ar")) else { return };
    insta::assert_snapshot!([&pages[0], &pages[2], &pages[3]].map(String::as_str).join("\n\n"));
}

#[test]
fn files_for_machines_are_the_same_in_every_language() {
    let english = in_language("en");
    for language in LANGUAGES {
        let plan = in_language(language);
        assert_eq!(jobpack::plan_json(&plan), jobpack::plan_json(&english), "{language}");
        assert_eq!(jobpack::holes_geojson(&plan), jobpack::holes_geojson(&english), "{language}");
        assert_eq!(jobpack::load_csv(&plan), jobpack::load_csv(&english), "{language}");
    }
}

/// Arabic letters beside Latin ones on a drawing, and outside names with their own controls of direction: nothing breaks,
/// and the controls are written as codes.
#[test]
fn names_of_both_directions_print_in_every_language() {
    for language in LANGUAGES {
        let mut plan = in_language(language);
        for section in &mut plan.network.sections {
            section.name = "شارع لآلئ Öster 12° \u{202e}x\u{2067}".into();
        }
        plan.sites[0].chainage_from = "مفترق لا-12, Sedge Lane".into();
        plan.sites[0].zone.devices[0].chainage = metres(-246.0);
        let Some(pages) = pages(&format!("both-{language}"), &plan) else { return };
        assert!(pages.iter().any(|page| page.contains("<U+202E>") || page.contains("U+202E")), "{language}");
    }
}
