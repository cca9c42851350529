//! The standard's errors: a list of code and description. The code is also that of the HTTP answer.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::lenient;
use super::wire::{Format, write};

/// One error.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Fault {
    /// As in HTTP: 400 missing or wrong, 403 the key, 404 not found.
    #[serde(deserialize_with = "lenient::code")]
    pub code: u16,
    /// What is wrong and what would be right.
    #[serde(deserialize_with = "lenient::text")]
    pub description: String,
}

/// Everything wrong with a request; at least one error.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    first: Fault,
    others: Vec<Fault>,
}

impl Refusal {
    /// Of what was found; `None` where nothing was.
    pub fn of(faults: Vec<Fault>) -> Option<Refusal> {
        let mut faults = faults.into_iter();
        faults.next().map(|first| Refusal { first, others: faults.collect() })
    }

    /// The request lacks something, or something in it is wrong.
    pub fn bad(description: impl Into<String>) -> Refusal {
        Refusal::from(Fault::bad(description))
    }

    /// The key is missing or not known.
    pub fn key() -> Refusal {
        let description = "api_key is missing or not known: ask the office for a key and send it as api_key";
        Refusal::from(Fault { code: 403, description: description.into() })
    }

    /// What was asked for is not there.
    pub fn not_found(description: impl Into<String>) -> Refusal {
        Refusal::from(Fault { code: 404, description: description.into() })
    }

    /// The code of the HTTP answer: that of the first error.
    pub fn status(&self) -> u16 {
        self.first.code
    }

    /// All errors.
    pub fn faults(&self) -> Vec<Fault> {
        std::iter::once(&self.first).chain(&self.others).cloned().collect()
    }

    /// As the body of the answer.
    pub fn write(&self, format: Format) -> String {
        write(&self.faults(), format)
    }
}

impl Fault {
    /// Something missing or wrong.
    pub fn bad(description: impl Into<String>) -> Fault {
        Fault { code: 400, description: description.into() }
    }
}

impl From<Fault> for Refusal {
    fn from(first: Fault) -> Self {
        Refusal { first, others: Vec::new() }
    }
}
