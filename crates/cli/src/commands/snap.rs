//! `lengthsman snap`: where the holes of a list lie on the roads.

use model::place::{Side, Travel};
use model::quantity::InLength;
use plan::locate_on_roads;
use serde_json::json;

use super::hole_list::{HoleList, HoleListFlags, outcome};
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::report;
use crate::show::{Table, print_json};

pub(crate) fn run(flags: &HoleListFlags) -> Outcome {
    let mut progress = Progress::new();
    let HoleList { setting, network, holes, mut problems, .. } = match flags.read(&mut progress) {
        Ok(list) => list,
        Err(problems) => {
            report::print(&problems);
            return Outcome::NothingProduced;
        }
    };
    let located = match locate_on_roads(&holes, network, &setting.district, &setting.rules.planning) {
        Ok(located) => located,
        Err(error) => {
            eprintln!("{error}");
            return Outcome::NothingProduced;
        }
    };
    progress.done();
    problems.extend(located.problems);
    if flags.json {
        print_json(&json!(located.holes.iter().map(hole_json(&located.network)).collect::<Vec<_>>()));
    } else {
        let mut table = Table::default();
        table.row(["hole", "road", "chainage", "across", "side", "traffic", "from centre line"].map(str::to_owned));
        for hole in &located.holes {
            let position = &hole.position;
            table.row([
                hole.hole.id.0.clone(),
                located.network.section(position.section).label(),
                format!("{:.1} m", position.chainage.in_metres()),
                format!("{:+.1} m", position.across.in_metres()),
                side_word(position.side).to_owned(),
                travel_words(position.travel).to_owned(),
                format!("{:.1} m", position.distance.in_metres()),
            ]);
        }
        table.print();
        for left_out in &located.left_out {
            say!("not on this crew's roads: {}: {}", left_out.hole.0, left_out.words);
        }
    }
    report::print(&problems);
    outcome(located.holes.len(), &problems)
}

fn hole_json(network: &model::road::RoadNetwork) -> impl Fn(&plan::Located) -> serde_json::Value + '_ {
    |hole| {
        let position = &hole.position;
        let section = network.section(position.section);
        json!({
            "id": hole.hole.id.0,
            "road": section.label(),
            "section": position.section.0,
            "source_id": section.source_id,
            "chainage_m": position.chainage.in_metres(),
            "across_m": position.across.in_metres(),
            "side": side_word(position.side),
            "travel": travel_words(position.travel),
            "distance_m": position.distance.in_metres(),
            "azimuth_deg": position.azimuth_deg,
            "remark": hole.remark,
        })
    }
}

fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

fn travel_words(travel: Travel) -> &'static str {
    match travel {
        Travel::Forward => "with chainage",
        Travel::Backward => "against chainage",
    }
}
