//! The work of several crews or days: a folder for each round, and the whole in `work-plan.json`.

use std::fs;
use std::path::Path;

use jiff::Timestamp;
use model::plan::{Changed, CrewDay, Explained, Fate, MoreOf, Plan, WorkPlan};
use model::problem::{Problem, ProblemSeverity};
use model::programme::CrewRound;
use plan::{ProgrammeInput, plan_programme};
use words::Words;

use super::{failed, reasons, step_words, trouble, write, write_file};
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;
use crate::show::Summary;

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

/// One round in a line.
fn round(words: Words, plan: &Plan) -> String {
    let ends = plan.round.timetable.last().map(|stop| stop.to.to_string()).unwrap_or_default();
    let counted = |message: &str, count: usize| words.say_with(message, [("count", count.into())]);
    let values = [
        ("holes", counted("command-holes", plan.holes.len()).into()),
        ("zones", counted("command-zones", plan.sites.len()).into()),
        ("back", ends.into()),
    ];
    let said = match plan.suffices {
        None => words.say_with("command-round", values),
        Some(chance) => {
            let chance = words.say_with("sheet-percent", [("number", format!("{:.0}", 100.0 * chance).into())]);
            let [holes, zones, back] = values;
            words.say_with("command-round-loads", [holes, zones, back, ("chance", chance.into())])
        }
    };
    format!("{}  {:<20} {said}", plan.date, plan.district.crew.name)
}

/// Says what came of it, on standard output, and gives the exit code. Each row of the list is counted once.
fn tell(work: &WorkPlan, explained: &Explained, more: bool, rows: usize, out: &Path) -> Outcome {
    let currency = &work.district.prices.currency;
    let fates = |wanted: fn(&Fate) -> bool| work.fates.iter().filter(|report| wanted(&report.fate)).count();
    let done = fates(|fate| matches!(fate, Fate::InRound));
    let joined = fates(|fate| matches!(fate, Fate::SameHoleAs(..)));
    let later = work.left_out.len();
    let refused = rows.saturating_sub(done + later + joined + work.done_before);
    let words = jobpack::words_of(&work.district);
    let days = [("count", (work.days as usize).into()), ("day", work.first_day.to_string().into())];
    let mut told = Summary::default();
    told.row(words.say("command-rows"), rows.to_string());
    if work.done_before > 0 {
        told.row(words.say("command-mended-before"), work.done_before.to_string());
    }
    told.row(words.say("command-holes-in-rounds"), done.to_string());
    for day in &work.rounds {
        told.below(round(words, &day.plan));
    }
    told.row(words.say("command-holes-later"), later.to_string());
    for line in reasons(words, &work.left_out) {
        told.below(line);
    }
    told.row(words.say("command-more-reports"), joined.to_string());
    told.row(words.say("command-rows-refused"), refused.to_string());
    let cost = &work.programme.cost;
    let whole = |amount: f64| format!("{amount:.0}");
    let costs = [
        ("total", whole(cost.total()).into()),
        ("currency", currency.into()),
        ("waiting", whole(cost.waiting).into()),
        ("left", whole(cost.left).into()),
        ("time", whole(cost.time).into()),
        ("driving", whole(cost.driving).into()),
    ];
    told.row(words.say("command-cost"), words.say_with("command-costs", costs));
    if more && explained.more.is_empty() {
        told.below(words.say("command-not-worked-out"));
    }
    for more in &explained.more {
        let what = match more.more {
            MoreOf::Crew(crew) => {
                let like = work.district.of_crew(crew).crew.name;
                words.say_with("command-one-more-crew", [("crew", like.into())])
            }
            MoreOf::Hour => words.say("command-one-more-hour"),
            MoreOf::CubicMetre => words.say("command-one-more-cubic-metre"),
        };
        let values = [
            ("what", what.into()),
            ("saves", whole(more.saves).into()),
            ("currency", currency.into()),
            ("zones", format!("{:+}", more.sites).into()),
        ];
        told.below(words.say_with("command-saves", values));
    }
    for change in &work.changes {
        let holes: Vec<&str> = change.holes.iter().map(|hole| hole.0.as_str()).collect();
        let holes = ("holes", holes.join(" ").into());
        let what = match &change.changed {
            Changed::Added { to } => words.say_with("command-added", [holes, ("to", to.clone().into())]),
            Changed::Moved { from, to } => {
                words.say_with("command-moved", [holes, ("from", from.clone().into()), ("to", to.clone().into())])
            }
            Changed::Dropped { from } => words.say_with("command-dropped", [holes, ("from", from.clone().into())]),
        };
        told.row(words.say("command-changed"), format!("{what}: {}", change.words));
    }
    let looks = work.rounds.iter().map(|day| day.plan.looks.len()).sum();
    super::tell_looks(&mut told, words, looks, &work.looks_left);
    super::tell_learnt(&mut told, words, &work.learnt);
    told.row(words.say("command-work-plan"), out.join("work-plan.json").display().to_string());
    say!("{}: {}", work.district.name, words.say_with("command-days", days));
    told.print();
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
