//! `lengthsman rules check`: every fault of an agency's own rule file with its line and column, what was wrong and what would
//! be right, and what the file changes of the set it extends.

mod common;

use std::path::Path;

use common::{lengthsman, parts};

/// Checks a file of that text and name; exit code, standard output, the report without frame and line breaks.
fn check(name: &str, text: &str, flags: &[&str]) -> (i32, String, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join(name);
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    std::fs::write(&path, text).unwrap();
    let path = path.display().to_string();
    let (code, stdout, stderr) = parts(&lengthsman(&[&["rules", "check", &path], flags].concat()));
    assert!(!stderr.contains("panicked"), "{stderr}");
    let here = format!("{}/", folder.path().display());
    let flat: Vec<&str> = stderr.split_whitespace().filter(|word| *word != "│").collect();
    // The frame may break a path; put it together again before it is taken off.
    (code, stdout.replace(&here, ""), flat.join(" ").replace(&here, ""))
}

#[test]
fn a_sound_file_is_used_and_what_it_changes_is_said_with_both_sources() {
    let text = "extends = \"us-mutcd\"\nname = \"county\"\n\n[advance]\nurban_low_speed_max = { value = 30, source = \"County manual, table 2\" }\n\n[taper]\none_lane_min = 60\n";
    let (code, stdout, stderr) = check("county.toml", text, &[]);
    assert_eq!((code, stderr.as_str()), (0, ""));
    for words in [
        "county.toml: traffic rules, extends rules/traffic/us-mutcd.toml",
        "county.toml:5:1: advance.urban_low_speed_max = 30 [County manual, table 2]",
        "in place of 25 [published: California MUTCD Table 6C-1 form",
        "rules/traffic/us-mutcd.toml]",
        "county.toml:8:1: taper.one_lane_min = 60 [no source given]",
        "in place of 50 [published: MUTCD 2009 6C.08, third-party copy",
        "2 values changed; the rest is as in rules/traffic/us-mutcd.toml",
        "it can be used",
    ] {
        assert!(stdout.contains(words), "no `{words}` in:\n{stdout}");
    }
}

#[test]
fn every_fault_is_said_at_once_where_it_stands() {
    let text = r#"extends = "us-mutcd"
name = "county"

[speed]
stepp = 5
greatest = "fast"

[taper]
one_lane_max = { value = 40, source = "County manual" }
low_speed_divisor = { value = 6000, source = "County manual" }
downstream_min = { value = "short", source = "County manual" }

[stopping.table]
source = "County manual"
value = [
    { speed = 20, distance = 115 },
    { speed = 40, distance = 305 },
    { speed = 60,
      distance = 300 },
]

[across]
open_width_min = { value = nan, source = "County manual" }
"#;
    let (code, stdout, stderr) = check("traffic/county.toml", text, &[]);
    assert_eq!(code, 1, "{stdout}{stderr}");
    let expected = [
        ("traffic/county.toml:5:1: speed.stepp: no rule of this kind has a key `stepp`", "did you mean `step`?"),
        ("traffic/county.toml:6:12: speed.greatest.value: invalid type: string", "write a number"),
        (
            "traffic/county.toml:9:1: taper.one_lane_min is 50 and taper.one_lane_max is 40",
            "the first may not be above",
        ),
        ("traffic/county.toml:10:1: taper.low_speed_divisor is 6000", "above 200 is not believed"),
        ("traffic/county.toml:11:28: taper.downstream_min.value: invalid type: string", "write a number"),
        (
            "traffic/county.toml:19:7: stopping.table row 3 distance is 300 after 305",
            "a faster road may not have a shorter distance",
        ),
        ("traffic/county.toml:23:1: across.open_width_min is NaN", "a number above zero is right"),
    ];
    for (wrong, right) in expected {
        assert!(stderr.contains(wrong), "no `{wrong}` in:\n{stderr}");
        assert!(stderr.contains(right), "no `{right}` in:\n{stderr}");
    }
    let mut from = 0;
    for (wrong, _) in expected {
        let at = stderr.find(wrong).unwrap();
        assert!(at >= from, "`{wrong}` is not in the order of the lines:\n{stderr}");
        from = at;
    }
    assert!(stdout.contains("it can't be used"), "{stdout}");
    // The same file is refused where it would be used.
    assert!(!stdout.contains("it can be used"));
}

#[test]
fn units_that_contradict_are_one_fault_and_not_a_hundred() {
    let text = "extends = \"low-volume-metric\"\nname = \"x\"\n[units]\ndistance = \"ft\"\n[across]\nopen_width_min = { value = 3.5, source = \"s\" }\n";
    let (code, stdout, stderr) = check("own.toml", text, &[]);
    assert_eq!(code, 1);
    assert!(stderr.contains("own.toml:4:12: units.distance: this file says `ft`, the set it extends"), "{stderr}");
    assert!(stdout.contains("1 problem: it can't be used"), "{stdout}\n{stderr}");
}

#[test]
fn rules_that_are_missing_are_all_named() {
    let text = std::fs::read_to_string(shipped("traffic/us-mutcd.toml")).unwrap();
    let text = text
        .replace("\ngreatest = {", "\n# {")
        .replace("\nmargin = {", "\n# {")
        .replace("name = \"US MUTCD Part 6\"", "name = \"own\"");
    let (code, _, stderr) = check("own.toml", &text, &[]);
    assert_eq!(code, 1);
    for field in ["greatest: missing field `greatest`", "margin: missing field `margin`"] {
        assert!(stderr.contains(field), "no `{field}` in:\n{stderr}");
    }
}

#[test]
fn every_shipped_set_passes_and_its_kind_is_found_from_its_tables_alone() {
    let mut count = 0;
    for kind in std::fs::read_dir(shipped("")).unwrap().map(|entry| entry.unwrap()) {
        for file in std::fs::read_dir(kind.path()).unwrap().map(|entry| entry.unwrap()) {
            let text = std::fs::read_to_string(file.path()).unwrap();
            let (code, stdout, stderr) = check("copy-of-a-set.toml", &text, &[]);
            assert_eq!(code, 0, "{:?}:\n{stdout}{stderr}", file.path());
            let says = format!("copy-of-a-set.toml: {} rules", kind.file_name().display());
            assert!(stdout.starts_with(&says), "{:?}: {stdout}", file.path());
            count += 1;
        }
    }
    assert!(count >= 14, "{count} sets");
}

#[test]
fn a_kind_that_can_not_be_told_is_asked_for() {
    let text = "extends = \"common-practice\"\nname = \"x\"\n";
    let (code, _, stderr) = check("own.toml", text, &[]);
    assert_eq!(code, 1);
    assert!(stderr.contains("which kind of rules this is can't be told") && stderr.contains("give --kind"), "{stderr}");
    assert_eq!(check("own.toml", text, &["--kind", "markout"]).0, 0);
    assert_eq!(check("markout/own.toml", text, &[]).0, 0);
    let (code, _, stderr) = check("own.toml", text, &["--kind", "traffik"]);
    assert_eq!(code, 2);
    assert!(stderr.contains("known kinds: repair, markout, traffic"), "{stderr}");
}

#[test]
fn what_is_no_rule_file_is_said() {
    assert!(check("own.toml", "name = \"x\nabout", &[]).2.contains("own.toml:1:"));
    let (code, _, stderr) = parts(&lengthsman(&["rules", "check", "/nowhere/own.toml"]));
    assert_eq!(code, 1);
    assert!(stderr.contains("/nowhere/own.toml"), "{stderr}");
    assert!(check("traffic/own.toml", "extends = \"us-mutdc\"\n", &[]).2.contains("did you mean `us-mutcd`?"));
}

#[test]
fn the_sets_that_come_with_the_program_are_listed() {
    let (code, stdout, _) = parts(&lengthsman(&["rules"]));
    assert_eq!(code, 0);
    assert!(
        stdout.contains("traffic: agency-template, agency-template-metric, low-volume-metric, us-mutcd\n"),
        "{stdout}"
    );
}

fn shipped(file: &str) -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rules").join(file)
}
