//! The work of several crews or days: a folder for each round, and the whole in `work-plan.json`.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use jiff::Timestamp;
use model::plan::{Changed, CrewDay, Explained, Fate, MoreOf, WorkPlan};
use model::problem::{Problem, ProblemSeverity};
use model::programme::CrewRound;
use plan::{ProgrammeInput, plan_programme};

use super::{failed, step_words, trouble, write, write_file};
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;

/// Plans, writes and tells.
pub(super) fn produce(
    input: ProgrammeInput,
    district_file: &Path,
    out: &Path,
    rows: usize,
    more: bool,
    feed_updated: Option<Timestamp>,
    progress: &mut Progress,
) -> Result<Outcome, Vec<Problem>> {
    let (seed, iterations) = (input.plan.seed, input.plan.district.planning.iterations);
    let work = plan_programme(input, &mut |step, done| {
        progress.at(step_words(step), done);
        true
    })
    .map_err(|error| {
        let right = "correct the district file or the roads";
        vec![failed(district_file, "plan.impossible", &error.to_string(), right)]
    })?;
    let explained = plan::explain(&work, more.then_some(iterations / 2), seed, &mut |done| {
        progress.at("searching with one more of each", done);
        true
    });
    progress.at("setting the job packs", 0.0);
    fs::create_dir_all(out).map_err(|error| trouble(out, &error))?;
    for (index, day) in work.rounds.iter().enumerate() {
        progress.at("setting the job packs", index as f64 / work.rounds.len() as f64);
        write(&day.plan, feed_updated, &out.join(folder(day)))?;
    }
    write_file(out, "work-plan.json", jobpack::work_plan_json(&work, &explained).into_bytes())?;
    progress.done();
    report::print(&work.problems);
    Ok(tell(&work, &explained, more, rows, out))
}

/// `2026-06-09-crew-fulmar`.
fn folder(day: &CrewDay) -> String {
    let name: String = day
        .plan
        .district
        .crew
        .name
        .chars()
        .map(|letter| if letter.is_alphanumeric() { letter.to_ascii_lowercase() } else { '-' })
        .collect();
    format!("{}-{}-{}", day.plan.date, day.crew + 1, name.trim_matches('-'))
}

/// Says what came of it, on standard output, and gives the exit code. Each row of the list is counted once.
fn tell(work: &WorkPlan, explained: &Explained, more: bool, rows: usize, out: &Path) -> Outcome {
    let currency = &work.district.prices.currency;
    let fates = |wanted: fn(&Fate) -> bool| work.fates.iter().filter(|report| wanted(&report.fate)).count();
    let done = fates(|fate| matches!(fate, Fate::InRound));
    let joined = fates(|fate| matches!(fate, Fate::SameHoleAs(..)));
    let later = work.left_out.len();
    let refused = rows.saturating_sub(done + later + joined + work.done_before);
    let days = if work.days == 1 { "1 day".to_owned() } else { format!("{} days", work.days) };
    say!("{}: {days} from {}", work.district.name, work.first_day);
    say!("rows in the list     {rows}");
    if work.done_before > 0 {
        say!("mended before        {}", work.done_before);
    }
    say!("holes in the rounds  {done}");
    for day in &work.rounds {
        let plan = &day.plan;
        let ends = plan.round.timetable.last().map(|stop| stop.to.to_string()).unwrap_or_default();
        let suffices = plan.suffices.map_or(String::new(), |chance| format!(", loads hold {:.0} %", 100.0 * chance));
        let counted = |count: usize, one: &str| format!("{count} {one}{}", if count == 1 { "" } else { "s" });
        let (holes, zones) = (counted(plan.holes.len(), "hole"), counted(plan.sites.len(), "zone"));
        say!("  {}  {:<20} {holes} at {zones}, back {ends}{suffices}", plan.date, plan.district.crew.name);
    }
    say!("holes left for later {later}");
    let mut reasons: BTreeMap<&str, usize> = BTreeMap::new();
    for left_out in &work.left_out {
        *reasons.entry(&left_out.words).or_default() += 1;
    }
    let mut reasons: Vec<(&str, usize)> = reasons.into_iter().collect();
    reasons.sort_by_key(|&(_, count)| std::cmp::Reverse(count));
    for (reason, count) in reasons {
        say!("  {count:>6}  {reason}");
    }
    say!("more reports of them {joined}");
    say!("rows refused         {refused}");
    let cost = &work.programme.cost;
    say!(
        "cost                 {:.0} {currency}: risk until mended {:.0}, risk left {:.0}, crews {:.0}, driving {:.0}",
        cost.total(),
        cost.waiting,
        cost.left,
        cost.time,
        cost.driving
    );
    if more && explained.more.is_empty() {
        say!("  what one more crew, hour or cubic metre would bring is not worked out where there are so many sites");
    }
    for more in &explained.more {
        let what = match more.more {
            MoreOf::Crew(crew) => format!("one more crew like {}", work.district.of_crew(crew).crew.name),
            MoreOf::Hour => "one hour more a shift".to_owned(),
            MoreOf::CubicMetre => "one cubic metre more a truck".to_owned(),
        };
        say!("  {what}: saves {:.0} {currency}, {:+} zones", more.saves, more.sites);
    }
    for change in &work.changes {
        let holes: Vec<&str> = change.holes.iter().map(|hole| hole.0.as_str()).collect();
        let what = match &change.changed {
            Changed::Added { to } => format!("added to {to}"),
            Changed::Moved { from, to } => format!("from {from} to {to}"),
            Changed::Dropped { from } => format!("no longer in the round of {from}"),
        };
        say!("changed              {} {what}: {}", holes.join(" "), change.words);
    }
    super::tell_looks(work.rounds.iter().map(|day| day.plan.looks.len()).sum(), &work.looks_left);
    super::tell_learnt(&work.learnt);
    say!("work plan            {}", out.join("work-plan.json").display());
    let breaches = check::programme_breaches(&work.problem, &work.programme);
    let of_days = work.rounds.iter().flat_map(|day| check::check(&day.plan));
    for breach in breaches.into_iter().chain(of_days).chain(check::look_breaches(work)) {
        eprintln!("this plan breaks a rule (a fault of the program, please report it): {breach}");
    }
    let any = work.programme.rounds.iter().flat_map(CrewRound::sites).next().is_some();
    let any_refused = work.problems.iter().any(|problem| problem.severity != ProblemSeverity::Warning);
    match (any, any_refused) {
        (false, _) => Outcome::NothingProduced,
        (true, false) => Outcome::AllUsed,
        (true, true) => Outcome::SomeRefused,
    }
}
