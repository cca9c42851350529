//! How a command ended.

use std::process::ExitCode;

/// How a command ended, as an exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Everything given was used.
    AllUsed,
    /// Nothing was produced.
    NothingProduced,
    /// A flag's value can't be used.
    WrongUsage,
    /// Produced, but some input was refused.
    SomeRefused,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        ExitCode::from(match outcome {
            Outcome::AllUsed => 0,
            Outcome::NothingProduced => 1,
            Outcome::WrongUsage => 2,
            Outcome::SomeRefused => 3,
        })
    }
}
