//! Feeds the readers with damaged files: `cargo xtask fuzz [seconds for each target] [target ...]`.

use std::fs;
use std::path::Path;

use crate::tools::{Outcome, answers, cargo, root, run, target_folder};

const SECONDS: &str = "300";

/// Runs the named targets, or all, each for the given time; stops at the first that finds a crash.
pub fn fuzz(arguments: &[String]) -> Outcome {
    if !answers("cargo-fuzz", "--version") {
        run("installing cargo-fuzz", &mut cargo(&["install", "--quiet", "--locked", "cargo-fuzz"]))?;
    }
    let (seconds, named) = match arguments.split_first() {
        Some((first, rest)) if first.parse::<u32>().is_ok() => (first.as_str(), rest),
        _ => (SECONDS, arguments),
    };
    let folder = root().join("fuzz");
    let targets = if named.is_empty() { targets(&folder)? } else { named.to_vec() };
    for target in targets {
        let corpus = folder.join("corpus").join(&target);
        seed(&target, &corpus).map_err(|error| format!("seeds of {target}: {error}"))?;
        // Fuzzing needs a nightly compiler: its sanitizers are not stable.
        let mut command = std::process::Command::new("cargo");
        command.args(["+nightly", "fuzz", "run", &target]).arg(&corpus).current_dir(&folder);
        let limit = format!("-max_total_time={seconds}");
        command.args(["--", &limit, "-timeout=20", "-max_len=65536", "-print_final_stats=1"]);
        command.env("CARGO_TARGET_DIR", target_folder().join("fuzz"));
        run(&format!("fuzzing {target} for {seconds} s"), &mut command)?;
    }
    Ok(())
}

/// Names of the targets, one file each.
fn targets(folder: &Path) -> Result<Vec<String>, String> {
    let files = fs::read_dir(folder.join("targets")).map_err(|error| error.to_string())?;
    let mut names: Vec<String> =
        files.flatten().filter_map(|entry| Some(entry.path().file_stem()?.to_str()?.to_owned())).collect();
    names.sort();
    Ok(names)
}

/// Files to start from: small ones kept with the targets, and the demo's and the rule sets' own.
fn seed(target: &str, corpus: &Path) -> std::io::Result<()> {
    fs::create_dir_all(corpus)?;
    let root = root();
    for entry in fs::read_dir(root.join("fuzz/seeds").join(target)).into_iter().flatten().flatten() {
        fs::copy(entry.path(), corpus.join(entry.file_name()))?;
    }
    let own: &[&str] = match target {
        "district" => &["demo/district.toml"],
        "hole_list" => &["demo/holes.csv"],
        "growth_records" => &["demo/records.csv"],
        "soil_specimens" => &["demo/proctor.csv"],
        "soil_sieves" => &["demo/sieves.csv"],
        "roads_geojson" => &["demo/roads.geojson"],
        _ => &[],
    };
    for file in own {
        let text = fs::read(root.join(file))?;
        // The head of a long file is seed enough.
        fs::write(corpus.join("demo"), &text[..text.len().min(8_000)])?;
    }
    if target == "rule_files" {
        seed_rules(&root.join("rules"), corpus)?;
    }
    Ok(())
}

/// Every shipped rule file, behind each byte that may say its kind.
fn seed_rules(folder: &Path, corpus: &Path) -> std::io::Result<()> {
    for kind in fs::read_dir(folder)?.flatten().filter(|entry| entry.path().is_dir()) {
        for file in fs::read_dir(kind.path())?.flatten() {
            let text = fs::read(file.path())?;
            for byte in 0..12_u8 {
                let name = format!("{}-{}-{byte}", kind.file_name().display(), file.file_name().display());
                fs::write(corpus.join(name), [&[byte], text.as_slice()].concat())?;
            }
        }
    }
    Ok(())
}
