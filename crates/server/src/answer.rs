//! Answers that a client may keep: each with an `ETag`, and short where nothing changed (RFC 9110, 8.8 and 13.1).

use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use journal::chain::{hexadecimal, sha256};
use serde::Serialize;

use crate::problem::Problem;

/// JSON with an `ETag` over its content; `304 Not Modified` where the client has it.
pub fn json(headers: &HeaderMap, value: &impl Serialize) -> Result<Response, Problem> {
    let body = serde_json::to_vec(value).map_err(|error| {
        tracing::error!(%error, "an answer could not be written");
        Problem::ours()
    })?;
    Ok(kept(headers, "application/json", body))
}

/// Any content with an `ETag`.
pub fn kept(headers: &HeaderMap, media_type: &str, body: Vec<u8>) -> Response {
    let tag = format!("\"{}\"", &hexadecimal(&sha256(&body))[..32]);
    let has_it = headers
        .get_all(header::IF_NONE_MATCH)
        .iter()
        .filter_map(|value| value.to_str().ok())
        .flat_map(|value| value.split(','))
        .any(|known| known.trim().trim_start_matches("W/") == tag || known.trim() == "*");
    let mut response =
        if has_it { StatusCode::NOT_MODIFIED.into_response() } else { (StatusCode::OK, body).into_response() };
    if let Ok(tag) = HeaderValue::from_str(&tag) {
        response.headers_mut().insert(header::ETAG, tag);
    }
    if let Ok(media_type) = HeaderValue::from_str(media_type)
        && !has_it
    {
        response.headers_mut().insert(header::CONTENT_TYPE, media_type);
    }
    // asked for anew each time: what is known changes
    response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static("private, no-cache"));
    response
}
