//! Each rule by itself: a sound plan broken in one way breaches that rule, and no other but those that go with it.

#[path = "../../jobpack/tests/fixture/mod.rs"]
mod fixture;

mod cases;

use std::collections::BTreeSet;

use check::check;
use fixture::{Recipe, make};
use model::plan::Plan;

/// One way to break a plan.
#[derive(Clone)]
pub struct Case {
    /// The rule that is broken.
    pub rule: &'static str,
    /// Rules that can't but be broken with it.
    pub also: &'static [&'static str],
    /// What is done to the plan.
    pub what: &'static str,
    /// A sound plan.
    pub sound: fn() -> Plan,
    /// Breaks it.
    pub spoil: fn(&mut Plan),
}

fn rules(plan: &Plan) -> BTreeSet<&'static str> {
    check(plan).iter().map(|breach| breach.rule).collect()
}

#[test]
fn a_sound_plan_breaks_no_rule() {
    for plan in [
        fixture::plan(),
        cases::waiting(),
        cases::taught(),
        cases::looking(),
        make(&Recipe { zones: vec![], ..Recipe::default() }),
    ] {
        assert_eq!(check(&plan), []);
    }
}

#[test]
fn a_plan_broken_in_one_way_breaks_that_rule() {
    let wrong = cases::all().into_iter().filter_map(|case| {
        let mut plan = (case.sound)();
        (case.spoil)(&mut plan);
        let expected: BTreeSet<&str> = case.also.iter().copied().chain([case.rule]).collect();
        (rules(&plan) != expected).then(|| format!("{}: {expected:?}, but {:#?}", case.what, check(&plan)))
    });
    let wrong: Vec<String> = wrong.collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The rules of a day's plan that the source names.
fn in_the_source() -> BTreeSet<String> {
    let folder = testkit::crate_folder().join("src");
    let files = std::fs::read_dir(&folder).expect("the source").map(|entry| entry.expect("an entry").path());
    let texts: Vec<String> =
        files.filter(|path| path.is_file()).map(|file| std::fs::read_to_string(file).expect("a source file")).collect();
    let is_word = |part: &str| !part.is_empty() && part.chars().all(|c| c.is_ascii_lowercase() || c == '_');
    let is_rule = |text: &&str| text.split_once('.').is_some_and(|(family, what)| is_word(family) && is_word(what));
    texts.iter().flat_map(|text| text.split('"').filter(is_rule)).map(str::to_owned).collect()
}

#[test]
fn every_rule_has_a_case() {
    let tried: BTreeSet<String> = cases::all().iter().map(|case| case.rule.to_owned()).collect();
    assert!(in_the_source().len() > 45, "the search finds rules");
    assert_eq!(tried, in_the_source());
}
