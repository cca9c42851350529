//! House rules that a compiler does not check.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use crate::tools::{Outcome, root};

/// Longest source file, lines. A longer one hides more than one thing.
const FILE_LINES_MAX: usize = 700;

/// Checks all house rules and reports every breach.
pub fn run() -> Outcome {
    eprintln!("== house rules");
    let root = root();
    let mut breaches = Vec::new();
    crate_edges(&root, &mut breaches);
    source_files(&root, &mut breaches);
    if breaches.is_empty() { Ok(()) } else { Err(format!("house rules broken:\n  {}", breaches.join("\n  "))) }
}

/// Each dependency between our crates stands in the table of ARCHITECTURE.md, and each edge there exists.
fn crate_edges(root: &Path, breaches: &mut Vec<String>) {
    let page = fs::read_to_string(root.join("ARCHITECTURE.md")).unwrap_or_default();
    let listed: BTreeSet<(String, String)> = page
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split_once("` | "))
        .filter_map(|(name, rest)| Some((name.to_owned(), rest.split('|').next()?.to_owned())))
        .flat_map(|(name, needs)| {
            let needs: Vec<String> = needs.split('`').skip(1).step_by(2).map(str::to_owned).collect();
            needs.into_iter().map(move |need| (name.clone(), need))
        })
        .collect();
    let folders = sub_folders(&root.join("crates"));
    let names: BTreeSet<String> = folders.iter().filter_map(|f| Some(f.file_name()?.to_str()?.to_owned())).collect();
    let mut found = BTreeSet::new();
    for folder in &folders {
        let name = folder.file_name().and_then(|n| n.to_str()).unwrap_or_default().to_owned();
        if !page.contains(&format!("| `{name}` |")) {
            breaches.push(format!("ARCHITECTURE.md: crate `{name}` is not in the table of crates"));
        }
        let manifest = fs::read_to_string(folder.join("Cargo.toml")).unwrap_or_default();
        let dependencies = manifest.split("\n[dependencies]").nth(1).unwrap_or_default();
        let dependencies = dependencies.split("\n[").next().unwrap_or_default();
        for line in dependencies.lines() {
            let need = line.split(['.', ' ', '=']).next().unwrap_or_default();
            if names.contains(need) {
                found.insert((name.clone(), need.to_owned()));
            }
        }
    }
    for (name, need) in found.difference(&listed) {
        breaches.push(format!("crates/{name}/Cargo.toml: depends on `{need}`, which ARCHITECTURE.md does not list"));
    }
    for (name, need) in listed.difference(&found) {
        breaches.push(format!("ARCHITECTURE.md: lists `{name}` on `{need}`, which is not so"));
    }
}

/// Source files: not too long, no leftovers.
fn source_files(root: &Path, breaches: &mut Vec<String>) {
    for top in ["crates", "xtask"] {
        for path in rust_files(&root.join(top)) {
            let text = fs::read_to_string(&path).unwrap_or_default();
            let shown = path.strip_prefix(root).unwrap_or(&path).display().to_string();
            let lines = text.lines().count();
            if lines > FILE_LINES_MAX {
                breaches.push(format!("{shown}: {lines} lines, more than {FILE_LINES_MAX}; split it by what it does"));
            }
            if shown.ends_with("tidy.rs") {
                continue;
            }
            for (number, line) in text.lines().enumerate() {
                for leftover in ["todo!(", "unimplemented!(", "dbg!(", "FIXME", "XXX", "#[ignore"] {
                    if line.contains(leftover) {
                        breaches.push(format!("{shown}:{}: `{leftover}` left over", number + 1));
                    }
                }
            }
        }
    }
}

fn sub_folders(path: &Path) -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> =
        fs::read_dir(path).into_iter().flatten().flatten().map(|entry| entry.path()).filter(|p| p.is_dir()).collect();
    folders.sort();
    folders
}

fn rust_files(path: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for folder in sub_folders(path) {
        files.extend(rust_files(&folder));
    }
    let here = fs::read_dir(path).into_iter().flatten().flatten().map(|entry| entry.path());
    files.extend(here.filter(|p| p.extension().is_some_and(|e| e == "rs")));
    files.sort();
    files
}
