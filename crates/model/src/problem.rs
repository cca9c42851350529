//! What was wrong with the input: said so that somebody can put it right.

use std::fmt;

/// A place in an input file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Locator {
    /// File as the user named it.
    pub file: String,
    /// Line, from 1; 0 where the file has none (binary formats).
    pub line: usize,
    /// Column, from 1; 0 where not known.
    pub column: usize,
}

/// One thing wrong with the input.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Stable code, e.g. `hole.depth.absurd`; the handbook has a page of them.
    pub code: &'static str,
    /// How bad it is.
    pub severity: ProblemSeverity,
    /// Where.
    pub at: Locator,
    /// Which record, e.g. the hole's id; empty where none could be read.
    pub subject: String,
    /// What was wrong.
    pub wrong: String,
    /// What would be right.
    pub right: String,
}

/// How bad a problem is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ProblemSeverity {
    /// Used, but look at it.
    Warning,
    /// This record is refused; the others go on.
    Refused,
    /// Nothing can be done with this file.
    Fatal,
}

impl fmt::Display for Locator {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if self.line > 0 {
            write!(f, ":{}", self.line)?;
            if self.column > 0 {
                write!(f, ":{}", self.column)?;
            }
        }
        Ok(())
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: ", self.at)?;
        if !self.subject.is_empty() {
            write!(f, "{}: ", self.subject)?;
        }
        write!(f, "{}; {} [{}]", self.wrong, self.right, self.code)
    }
}
