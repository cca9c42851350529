//! `lengthsman same-hole`: which reports of a list are of one hole, and why.

use model::hole::HoleId;
use model::plan::HoleReport;
use model::quantity::InLength;
use plan::{HolesOnRoads, holes_on_roads};
use serde_json::{Value, json};

use super::hole_list::{HoleList, HoleListFlags, outcome};
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;
use crate::show::{Table, print_json};

pub(crate) fn run(flags: &HoleListFlags) -> Outcome {
    let mut progress = Progress::new();
    let HoleList { setting, network, holes, rows, mut problems } = match flags.read(&mut progress) {
        Ok(list) => list,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let found = match holes_on_roads(&holes, network, &setting.district, &setting.rules) {
        Ok(found) => found,
        Err(error) => {
            eprintln!("{error}");
            return Outcome::NothingProduced;
        }
    };
    progress.done();
    problems.extend(found.located.problems.iter().cloned());
    if flags.json {
        print_json(&as_json(&found));
    } else {
        tell(&found, rows);
    }
    report::print(&problems);
    outcome(found.located.holes.len(), &problems)
}

fn tell(found: &HolesOnRoads, rows: usize) {
    let holes = &found.located.holes;
    let reports: usize = holes.iter().map(|hole| hole.reports.len()).sum();
    say!("{rows} rows, {reports} reports on this crew's roads, {} holes", holes.len());
    let mut table = Table::default();
    table.row(["hole", "road", "chainage", "report", "source", "seen", "why"].map(str::to_owned));
    for hole in holes.iter().filter(|hole| hole.reports.len() > 1) {
        for (index, report) in hole.reports.iter().enumerate() {
            let first = |text: String| if index == 0 { text } else { String::new() };
            table.row([
                first(hole.hole.id.0.clone()),
                first(found.located.network.section(hole.position.section).label()),
                first(format!("{:.1} m", hole.position.chainage.in_metres())),
                report.id.0.clone(),
                report.source.clone(),
                report.seen.map(|day| day.to_string()).unwrap_or_default(),
                report.words.clone(),
            ]);
        }
    }
    table.print();
    for (one, other, words) in &found.told_apart {
        say!("two holes, though close: {} and {}: {words}", one.0, other.0);
    }
    for left_out in &found.located.left_out {
        say!("not on this crew's roads: {}: {}", left_out.hole.0, left_out.words);
    }
}

fn as_json(found: &HolesOnRoads) -> Value {
    let report = |report: &HoleReport| {
        json!({
            "id": report.id.0,
            "source": report.source,
            "seen": report.seen.map(|day| day.to_string()),
            "from": report.from.to_string(),
            "words": report.words,
        })
    };
    let hole = |hole: &plan::Located| {
        json!({
            "id": hole.hole.id.0,
            "road": found.located.network.section(hole.position.section).label(),
            "chainage_m": hole.position.chainage.in_metres(),
            "depth_m": hole.hole.depth.in_metres(),
            "first_seen": hole.hole.seen.map(|day| day.to_string()),
            "reports": hole.reports.iter().map(report).collect::<Vec<_>>(),
        })
    };
    let apart =
        |(one, other, words): &(HoleId, HoleId, String)| json!({ "one": one.0, "other": other.0, "words": words });
    json!({
        "holes": found.located.holes.iter().map(hole).collect::<Vec<_>>(),
        "told_apart": found.told_apart.iter().map(apart).collect::<Vec<_>>(),
    })
}
