//! Every problem code in the source has its line in the handbook, and the other way round.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

const FAMILIES: [&str; 18] = [
    "district", "file", "forecast", "hole", "learnt", "lives", "out", "plan", "proctor", "record", "road", "roads",
    "rules", "server", "sieves", "so_far", "table", "toml",
];
/// Crates that report problems of the input.
const CRATES: [&str; 5] = ["exchange", "roads", "soil", "plan", "cli"];

/// Files of the source, the tables and the unit tests' own files left out.
fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("the source").map(|entry| entry.expect("an entry").path()) {
        if entry.is_dir() {
            sources(&entry, found);
        } else if entry.extension().is_some_and(|extension| extension == "rs") {
            found.push(entry);
        }
    }
}

/// `family.what.how`: at least two dots or a family of files, in small letters.
fn is_code(text: &str) -> bool {
    let parts: Vec<&str> = text.split('.').collect();
    let is_word =
        |part: &&str| !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c == '_' || c == '8');
    let is_file_name = ["toml", "csv", "geojson", "json", "md"].contains(parts.last().unwrap_or(&""));
    parts.len() >= 2 && FAMILIES.contains(&parts[0]) && parts.iter().all(is_word) && !is_file_name
}

fn used() -> BTreeSet<String> {
    let mut files = Vec::new();
    for name in CRATES {
        sources(&testkit::in_repository("crates").join(name).join("src"), &mut files);
    }
    let texts = files.iter().map(|file| std::fs::read_to_string(file).expect("a source file"));
    // Unit tests stand at the end of a file and may make up codes.
    let code = |text: &str| text.split("#[cfg(test)]").next().unwrap_or_default().to_owned();
    texts
        .map(|text| code(&text))
        .flat_map(|text| text.split('"').filter(|part| is_code(part)).map(str::to_owned).collect::<Vec<_>>())
        .collect()
}

fn listed() -> BTreeSet<String> {
    let page = std::fs::read_to_string(testkit::in_repository("handbook/problems.md")).expect("the page");
    let cells = page.lines().filter_map(|line| line.strip_prefix("| `")?.split('`').next());
    cells.filter(|code| is_code(code)).map(str::to_owned).collect()
}

#[test]
fn every_code_in_the_source_is_in_the_handbook() {
    let missing: Vec<String> = used().difference(&listed()).cloned().collect();
    assert!(used().len() > 50, "the search finds codes");
    assert!(missing.is_empty(), "add to handbook/problems.md: {missing:#?}");
}

#[test]
fn every_code_in_the_handbook_is_in_the_source() {
    let dead: Vec<String> = listed().difference(&used()).cloned().collect();
    assert!(dead.is_empty(), "handbook/problems.md lists codes that nothing gives: {dead:#?}");
}
