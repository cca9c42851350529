//! Why a request is not answered, as problem details (RFC 9457).

use serde_json::{Value, json};
use thiserror::Error;

use crate::document::Document;

/// A parameter of a request that can't be used.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("`{name}`: {wrong}; {right}")]
pub struct BadParameter {
    /// The parameter's name.
    pub name: String,
    /// What was wrong.
    pub wrong: String,
    /// What would be right.
    pub right: String,
}

/// Why a request is not answered.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Refusal {
    /// Parameters that can't be used: all of them.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(". "))]
    BadParameters(Vec<BadParameter>),
    /// There is nothing under this path.
    #[error("there is no {0}")]
    NotFound(String),
}

impl Refusal {
    /// The HTTP status.
    pub fn status(&self) -> u16 {
        match self {
            Refusal::BadParameters(_) => 400,
            Refusal::NotFound(_) => 404,
        }
    }

    /// The answer as a document, with its media type.
    pub fn document(&self) -> Document {
        let mut body = json!({"type": "about:blank", "status": self.status(), "detail": self.to_string()});
        match self {
            Refusal::BadParameters(bad) => {
                body["title"] = "Bad Request".into();
                body["errors"] = bad
                    .iter()
                    .map(|bad| json!({"parameter": bad.name, "wrong": bad.wrong, "right": bad.right}))
                    .collect::<Vec<Value>>()
                    .into();
            }
            Refusal::NotFound(_) => body["title"] = "Not Found".into(),
        }
        Document { media_type: "application/problem+json", body, content_crs: None }
    }
}
