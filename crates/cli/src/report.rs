//! Problems of the input, shown with the line they stand in.

use std::collections::BTreeMap;

use miette::{Diagnostic, LabeledSpan, NamedSource, Report, Severity, SourceCode};
use model::problem::{Problem, ProblemSeverity};

/// Beyond this many, the rest are only counted: they all stand in `plan.json`.
const SHOWN_MAX: usize = 25;

/// Prints problems to standard error, in the order given.
pub(crate) fn print(problems: &[Problem]) {
    let mut files = BTreeMap::new();
    for problem in problems.iter().take(SHOWN_MAX) {
        let text = files
            .entry(problem.at.file.clone())
            .or_insert_with(|| std::fs::read(&problem.at.file).ok().and_then(|bytes| String::from_utf8(bytes).ok()));
        eprintln!("{:?}", Report::new(Shown::new(problem, text.as_deref())));
    }
    if problems.len() > SHOWN_MAX {
        eprintln!("... and {} more like these", problems.len() - SHOWN_MAX);
    }
}

/// A line longer than this is not shown: a whole GeoJSON file may be one line.
const LINE_SHOWN_MAX: usize = 400;

/// A problem dressed for miette.
#[derive(Debug)]
struct Shown {
    problem: Problem,
    source: Option<(NamedSource<String>, usize)>,
}

impl Shown {
    fn new(problem: &Problem, text: Option<&str>) -> Self {
        let line = |text: &str| text.lines().nth(problem.at.line.saturating_sub(1)).map_or(0, str::len);
        let source = text
            .filter(|text| problem.at.line > 0 && line(text) <= LINE_SHOWN_MAX)
            .and_then(|text| Some((NamedSource::new(&problem.at.file, text.to_owned()), offset(text, problem)?)));
        Shown { problem: problem.clone(), source }
    }
}

/// Byte of a line and column (in characters, both from 1).
fn offset(text: &str, problem: &Problem) -> Option<usize> {
    let start: usize = text.split_inclusive('\n').take(problem.at.line - 1).map(str::len).sum();
    let line = text.get(start..)?.lines().next().unwrap_or_default();
    let column = problem.at.column.saturating_sub(1);
    Some(start + line.char_indices().nth(column).map_or(line.len(), |(byte, _)| byte))
}

impl std::fmt::Display for Shown {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: ", self.problem.at)?;
        if !self.problem.subject.is_empty() {
            write!(f, "{}: ", self.problem.subject)?;
        }
        f.write_str(&self.problem.wrong)
    }
}

impl std::error::Error for Shown {}

impl Diagnostic for Shown {
    fn code<'a>(&'a self) -> Option<Box<dyn std::fmt::Display + 'a>> {
        Some(Box::new(self.problem.code))
    }

    fn severity(&self) -> Option<Severity> {
        Some(match self.problem.severity {
            ProblemSeverity::Warning => Severity::Warning,
            ProblemSeverity::Refused | ProblemSeverity::Fatal => Severity::Error,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn std::fmt::Display + 'a>> {
        Some(Box::new(&self.problem.right))
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.source.as_ref().map(|(source, _)| source as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let (_, offset) = self.source.as_ref()?;
        Some(Box::new(std::iter::once(LabeledSpan::new(None, *offset, 1))))
    }
}
