//! What went wrong, in the form of RFC 9457 (problem details).

use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use journal::JournalError;
use serde::Serialize;
use utoipa::ToSchema;

/// A problem.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct Problem {
    /// Which kind: a name that stays, below `urn:lengthsman:problem:`.
    #[serde(rename = "type")]
    #[schema(value_type = String)]
    kind: String,
    /// The same in words.
    title: &'static str,
    /// HTTP status.
    status: u16,
    /// What was wrong, and what would be right.
    detail: String,
}

impl Problem {
    fn new(status: StatusCode, kind: &str, title: &'static str, detail: impl Into<String>) -> Self {
        Self { kind: format!("urn:lengthsman:problem:{kind}"), title, status: status.as_u16(), detail: detail.into() }
    }

    pub(crate) fn bad_request(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::BAD_REQUEST, "bad-request", "The request can't be understood", detail)
    }

    pub(crate) fn unusable(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::UNPROCESSABLE_ENTITY, "unusable", "The request is understood but can't be done", detail)
    }

    pub(crate) fn sign_in_first() -> Self {
        let detail = "send the cookie of a session or the token of a device";
        Self::new(StatusCode::UNAUTHORIZED, "sign-in-first", "Nobody is signed in", detail)
    }

    pub(crate) fn not_yours(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::FORBIDDEN, "not-yours", "Your role may not do this", detail)
    }

    pub(crate) fn not_found(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::NOT_FOUND, "not-found", "There is no such thing", detail)
    }

    pub(crate) fn no_such_method() -> Self {
        let detail = "the Allow header says what can be done here";
        Self::new(StatusCode::METHOD_NOT_ALLOWED, "no-such-method", "That can't be done here", detail)
    }

    pub(crate) fn conflict(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::CONFLICT, "conflict", "It is not as you think", detail)
    }

    pub(crate) fn too_large(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::PAYLOAD_TOO_LARGE, "too-large", "That is too much at once", detail)
    }

    pub(crate) fn wrong_type(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, "wrong-type", "The content is of another type", detail)
    }

    pub(crate) fn too_often(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::TOO_MANY_REQUESTS, "too-often", "Too many requests", detail)
    }

    pub(crate) fn not_ready(detail: impl Into<String>) -> Self {
        Self::new(StatusCode::SERVICE_UNAVAILABLE, "not-ready", "The record can't be reached", detail)
    }

    pub(crate) fn ours() -> Self {
        let detail = "this is a fault of the program; it is in the log";
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, "ours", "Something went wrong here", detail)
    }
}

impl IntoResponse for Problem {
    fn into_response(self) -> Response {
        let status = StatusCode::from_u16(self.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
        let body = serde_json::to_vec(&self).unwrap_or_default();
        let mut response = (status, body).into_response();
        response.headers_mut().insert(header::CONTENT_TYPE, HeaderValue::from_static("application/problem+json"));
        response
    }
}

impl From<JournalError> for Problem {
    /// What the database says is for the log: it may tell of more than its reader should know.
    fn from(error: JournalError) -> Self {
        match error {
            JournalError::TooMany(_) => Problem::too_large(error.to_string()),
            other => {
                tracing::error!(error = %other, "the record failed");
                Problem::not_ready("try again in a moment; what was sent is not stored")
            }
        }
    }
}
