//! Whether the server is well.

use axum::extract::State;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::problem::Problem;
use crate::state::Server;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(alive)).routes(routes!(ready)).routes(routes!(metrics))
}

/// The process runs.
#[utoipa::path(get, path = "/healthz", responses((status = 200, description = "It runs", body = String)),
    extensions(("x-roles" = json!(["public"]))))]
async fn alive() -> &'static str {
    "alive\n"
}

/// The record can be read.
#[utoipa::path(get, path = "/readyz",
    responses((status = 200, description = "It is ready", body = String), (status = 503, description = "It is not", body = Problem)),
    extensions(("x-roles" = json!(["public"]))))]
async fn ready(State(server): State<Server>) -> Result<&'static str, Problem> {
    server.journal.ready().await?;
    Ok("ready\n")
}

/// Counts in the text form that Prometheus reads.
#[utoipa::path(get, path = "/metrics", responses((status = 200, description = "Counts", body = String)),
    extensions(("x-roles" = json!(["engineer", "auditor"]))))]
async fn metrics(State(server): State<Server>) -> Response {
    ([(header::CONTENT_TYPE, "text/plain; version=0.0.4")], server.metrics.text()).into_response()
}
