//! The trail of who did what, for those who look after it.

use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;
use journal::audit::Entry;
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::answer;
use crate::body::InQuery;
use crate::problem::Problem;
use crate::state::Server;

/// Entries on a page.
const ON_PAGE: u32 = 1_000;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(trail))
}

/// Which entries.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct After {
    /// Only those after this position.
    #[serde(default)]
    after: u32,
}

/// A page of the trail.
#[derive(Serialize, ToSchema)]
struct TrailPage {
    /// The first first.
    #[schema(value_type = Vec<Object>)]
    entries: Vec<Entry>,
    /// What to ask for next; nothing: these are the last.
    next_after: Option<u64>,
}

/// Who did what with the program.
#[utoipa::path(get, path = "/api/trail", params(After), responses((status = 200, description = "A page", body = TrailPage)),
    extensions(("x-roles" = json!(["engineer", "auditor"]))))]
async fn trail(
    State(server): State<Server>,
    headers: HeaderMap,
    InQuery(after): InQuery<After>,
) -> Result<Response, Problem> {
    let entries = server.journal.trail_after(u64::from(after.after), ON_PAGE).await?;
    let next_after = entries.last().filter(|_| entries.len() == ON_PAGE as usize).map(|entry| entry.position);
    answer::json(&headers, &TrailPage { entries, next_after })
}
