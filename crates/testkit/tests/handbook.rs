//! The pages of `handbook/methods/`: each has its parts, and a test that reads its worked examples.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Headings of a method's page, in this order.
const PARTS: [&str; 5] = ["## Formula", "## Symbols", "## Source", "## Worked example", "## Limits of use"];

#[test]
fn every_page_has_its_parts_in_order() {
    for (name, text) in pages() {
        let mut from = 0;
        for part in PARTS {
            let at = text[from..]
                .find(&format!("\n{part}\n"))
                .unwrap_or_else(|| panic!("{name}.md: no `{part}` in its place"));
            from += at + 1;
        }
        assert!(!testkit::blocks(&text).is_empty(), "{name}.md has no ```toml worked-example block");
    }
}

#[test]
fn the_index_lists_every_page() {
    let index = fs::read_to_string(testkit::methods_folder().join("README.md")).unwrap();
    for (name, _) in pages() {
        assert!(index.contains(&format!("({name}.md)")), "handbook/methods/README.md does not link to {name}.md");
    }
}

#[test]
fn a_test_reads_every_table_of_every_page() {
    let sources = test_sources(&testkit::methods_folder().join("../../crates"));
    for (name, text) in pages() {
        let document: toml::Table =
            toml::from_str(&testkit::blocks(&text).join("\n")).unwrap_or_else(|error| panic!("{name}.md: {error}"));
        for table in document.keys() {
            let call = format!("(\"{name}\", \"{table}\")");
            assert!(sources.iter().any(|source| source.contains(&call)), "no test reads [[{table}]] of {name}.md");
        }
    }
}

fn pages() -> Vec<(String, String)> {
    let mut pages: Vec<(String, String)> = fs::read_dir(testkit::methods_folder())
        .unwrap()
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "md"))
        .map(|path| (path.file_stem().unwrap().to_string_lossy().into_owned(), fs::read_to_string(&path).unwrap()))
        .filter(|(name, _)| name != "README")
        .collect();
    pages.sort();
    assert!(!pages.is_empty());
    pages
}

/// All Rust sources below the folder, without white space before a string, so that line breaks do not hide a call.
fn test_sources(folder: &Path) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut folders = vec![PathBuf::from(folder)];
    while let Some(folder) = folders.pop() {
        for path in fs::read_dir(folder).unwrap().flatten().map(|entry| entry.path()) {
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                found.insert(fs::read_to_string(path).unwrap());
            }
        }
    }
    found
}
