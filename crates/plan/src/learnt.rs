//! What the record teaches of a plan's own roads and crews, and where a limit holds it back.

use model::district::District;
use model::learnt::{FactorOf, Learnt, LearntRoad};
use model::problem::{Locator, Problem, ProblemSeverity};
use roads::Network;

use crate::jobs::Job;

/// The part that counts for these jobs, done by these crews.
pub(crate) fn counting(learnt: &Learnt, jobs: &[Job], network: &Network, crews: &[&District]) -> Learnt {
    let mut roads: Vec<LearntRoad> = jobs.iter().map(|job| LearntRoad::of(network.section(job.section))).collect();
    roads.sort_unstable();
    roads.dedup();
    let crews: Vec<&str> = crews.iter().map(|district| district.crew.name.as_str()).collect();
    learnt.counting_for(&roads, &crews)
}

/// Warns of repairs that teach nothing, since rules or settings expected otherwise when they were planned.
pub(crate) fn planned_otherwise(learnt: &Learnt) -> Option<Problem> {
    let of_each: Vec<String> =
        learnt.planned_otherwise.iter().map(|left| format!("{} for {}", left.records, left.what.word())).collect();
    (!of_each.is_empty()).then(|| Problem {
        code: "learnt.planned_otherwise",
        severity: ProblemSeverity::Warning,
        at: Locator { file: "the record".to_owned(), line: 0, column: 0 },
        subject: String::new(),
        wrong: format!(
            "measured repairs do not count: {}; they were planned by other rules or settings, or it is not told by which",
            of_each.join(", ")
        ),
        right: "nothing, where the change was meant: what is planned from now on teaches anew".to_owned(),
    })
}

/// Warns of each factor that a limit keeps from being what the record says.
pub(crate) fn limited(learnt: &Learnt) -> impl Iterator<Item = Problem> {
    learnt.factors.iter().filter(|factor| factor.is_limited()).map(|factor| {
        let whose = match &factor.of {
            FactorOf::District => "the district",
            FactorOf::Kind(kind) => &kind.words(),
            FactorOf::Road(LearntRoad { name, .. }) | FactorOf::Crew(name) => name,
        };
        Problem {
            code: "learnt.limit",
            severity: ProblemSeverity::Warning,
            at: Locator { file: "the record".to_owned(), line: 0, column: 0 },
            subject: format!("{}, {whose}", factor.what.word()),
            wrong: format!(
                "{} repairs say {:.2} times what was planned; the plan takes {:.2}, the rule's limit ({})",
                factor.records, factor.believed.median, factor.factor, factor.source
            ),
            right: "look at these repairs: were they measured and told right? if they were, put right what is expected: the \
                    district's or the repair rules' own value; what was planned by the old one then teaches nothing more"
                .to_owned(),
        }
    })
}
