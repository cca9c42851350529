//! A document to be sent.

use serde_json::Value;

/// A document to be sent, and what its headers say.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// `Content-Type`.
    pub media_type: &'static str,
    /// `Content-Crs`, where the document has coordinates.
    pub content_crs: Option<String>,
    /// The document.
    pub body: Value,
}
