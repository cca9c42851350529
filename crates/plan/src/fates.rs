//! What became of each report of the list.

use std::collections::{BTreeMap, BTreeSet};

use model::hole::{Hole, HoleId};
use model::plan::{Fate, LeftOut, PlannedHole, PlannedJob, ReportFate};

use crate::locate::Located;

/// Reports that are of the same hole as another: whose, and why.
pub(crate) type Joined = BTreeMap<HoleId, (HoleId, String)>;

/// The reports that were joined to another's hole.
pub(crate) fn joined(located: &[Located]) -> Joined {
    let of_one = |found: &Located| {
        let leader = found.hole.id.clone();
        let others = found.reports.iter().skip(1);
        others.map(|report| (report.id.clone(), (leader.clone(), report.words.clone()))).collect::<Vec<_>>()
    };
    located.iter().flat_map(of_one).collect()
}

/// One fate for each report, in the order of the list; `done` are the sites of the round.
pub(crate) fn fates(
    list: &[Hole],
    joined: &Joined,
    holes: &[PlannedHole],
    jobs: &[PlannedJob],
    done: &BTreeSet<usize>,
    left_out: &[LeftOut],
) -> Vec<ReportFate> {
    let in_round: BTreeSet<&HoleId> =
        holes.iter().filter(|hole| done.contains(&jobs[hole.job].site)).map(|hole| &hole.hole.id).collect();
    let left_out: BTreeSet<&HoleId> = left_out.iter().map(|left| &left.hole).collect();
    let fate = |report: &Hole| match joined.get(&report.id) {
        Some((of, why)) => Fate::SameHoleAs(of.clone(), why.clone()),
        None if in_round.contains(&report.id) => Fate::InRound,
        None if left_out.contains(&report.id) => Fate::LeftOut,
        None => Fate::Refused,
    };
    list.iter()
        .map(|report| ReportFate { report: report.id.clone(), from: report.from.clone(), fate: fate(report) })
        .collect()
}
