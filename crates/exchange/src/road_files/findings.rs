//! Collects what was wrong with a road file, and stops a broken file from flooding the report.

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};

use model::problem::{Locator, Problem, ProblemSeverity};

/// So many problems of one code are told one by one; the rest are counted in one line.
const TOLD_ONE_BY_ONE: usize = 20;

/// What was wrong with one file.
pub(super) struct Findings {
    file: String,
    told: Vec<Problem>,
    /// How often each code came up, with the worst of its severities.
    count: BTreeMap<&'static str, (usize, ProblemSeverity)>,
}

impl Findings {
    /// None yet, for the file of that name.
    pub(super) fn new(file: impl Into<String>) -> Self {
        Findings { file: file.into(), told: Vec::new(), count: BTreeMap::new() }
    }

    /// A place in the file; 0 where not known.
    pub(super) fn at(&self, line: usize, column: usize) -> Locator {
        Locator { file: self.file.clone(), line, column }
    }

    /// Used, but look at it.
    pub(super) fn warn(&mut self, code: &'static str, at: Locator, subject: &str, wrong: String, right: &str) {
        self.tell(code, ProblemSeverity::Warning, at, subject, wrong, right);
    }

    /// This record is refused.
    pub(super) fn refuse(&mut self, code: &'static str, at: Locator, subject: &str, wrong: String, right: &str) {
        self.tell(code, ProblemSeverity::Refused, at, subject, wrong, right);
    }

    /// Nothing can be done with this file.
    pub(super) fn fatal(&mut self, code: &'static str, wrong: String, right: &str) {
        let at = self.at(0, 0);
        self.tell(code, ProblemSeverity::Fatal, at, "", wrong, right);
    }

    fn tell(
        &mut self,
        code: &'static str,
        severity: ProblemSeverity,
        at: Locator,
        subject: &str,
        wrong: String,
        right: &str,
    ) {
        let (count, worst) = self.count.entry(code).or_insert((0, severity));
        *count += 1;
        *worst = severity.max(*worst);
        if *count <= TOLD_ONE_BY_ONE {
            self.told.push(Problem { code, severity, at, subject: subject.to_owned(), wrong, right: right.to_owned() });
        }
    }

    /// Everything found; codes that came up too often end with a line that counts the rest.
    pub(super) fn finish(self) -> Vec<Problem> {
        let mut problems = self.told;
        for (code, (count, severity)) in self.count {
            if count > TOLD_ONE_BY_ONE {
                problems.push(Problem {
                    code,
                    severity,
                    at: Locator { file: self.file.clone(), ..Locator::default() },
                    subject: String::new(),
                    wrong: format!("the same came up {} more times", count - TOLD_ONE_BY_ONE),
                    right: "put the ones above right and read the file again".to_owned(),
                });
            }
        }
        problems
    }
}

/// Runs a library's decoder over bytes that may be broken. Decoders trust lengths and offsets more than a damaged
/// file deserves; a panic in one is a broken record, not the end of the program.
pub(super) fn guarded<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    catch_unwind(AssertUnwindSafe(work)).map_err(|payload| {
        payload
            .downcast_ref::<&str>()
            .map(|text| (*text).to_owned())
            .or_else(|| payload.downcast_ref::<String>().cloned())
            .unwrap_or_else(|| "the decoder gave up".to_owned())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_flood_ends_in_a_count() {
        let mut findings = Findings::new("roads.x");
        for line in 1..=(TOLD_ONE_BY_ONE + 5) {
            let at = findings.at(line, 1);
            findings.refuse("road.test", at, "", "wrong".into(), "right");
        }
        let problems = findings.finish();
        assert_eq!(problems.len(), TOLD_ONE_BY_ONE + 1);
        assert_eq!(problems.last().unwrap().wrong, "the same came up 5 more times");
        assert_eq!(problems.last().unwrap().severity, ProblemSeverity::Refused);
    }
}
