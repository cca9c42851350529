//! Files of a crew's day: of any plan by its job, and of the plan that the crew goes by.

use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;
use journal::chain::hexadecimal;
use serde::Serialize;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use super::jobs::{KIND, job_of};
use crate::answer;
use crate::body::InPath;
use crate::problem::Problem;
use crate::state::Server;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new()
        .routes(routes!(list_of_plan))
        .routes(routes!(file_of_plan))
        .routes(routes!(list_of_round))
        .routes(routes!(file_of_round))
}

/// A file of a crew's day.
#[derive(Serialize, ToSchema)]
struct DayFileShown {
    /// `plan.json`, `job-pack.pdf`, `numbers.json`, or a drawing: `zone-{site}.svg`, `place-{site}.svg`, `cut-{job}.svg`,
    /// `section-{job}.svg`, `pattern-{job}.svg`, with the indexes of `plan.json`.
    name: String,
    media_type: String,
    bytes: u64,
    /// Of its content, 64 hexadecimal digits.
    sha256: String,
}

/// Files of a round of a plan that is done. Those of a plan that nobody took go after a week.
#[utoipa::path(get, path = "/api/plans/{job}/rounds/{round}/files",
    params(("job" = Uuid, Path, description = "Number of the plan's job"), ("round" = Uuid, Path, description = "Number of the round")),
    responses((status = 200, description = "By name", body = Vec<DayFileShown>), (status = 404, description = "No such plan or round", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn list_of_plan(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath((job, round)): InPath<(Uuid, Uuid)>,
) -> Result<Response, Problem> {
    job_of(&server, KIND, job).await?;
    list(&server, &headers, job, round).await
}

/// One of them.
#[utoipa::path(get, path = "/api/plans/{job}/rounds/{round}/files/{name}",
    params(("job" = Uuid, Path, description = "Number of the plan's job"), ("round" = Uuid, Path, description = "Number of the round"),
        ("name" = String, Path, description = "Name of the file")),
    responses((status = 200, description = "It, of its own media type", body = Vec<u8>, content_type = "application/octet-stream"),
        (status = 404, description = "No such file", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn file_of_plan(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath((job, round, name)): InPath<(Uuid, Uuid, String)>,
) -> Result<Response, Problem> {
    job_of(&server, KIND, job).await?;
    file(&server, &headers, job, round, &name).await
}

/// Files of a round that its crew goes by: of the plan that was taken last for it.
#[utoipa::path(get, path = "/api/rounds/{round}/files", params(("round" = Uuid, Path, description = "Number of the round")),
    responses((status = 200, description = "By name", body = Vec<DayFileShown>), (status = 404, description = "No plan was taken for such a round", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn list_of_round(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath(round): InPath<Uuid>,
) -> Result<Response, Problem> {
    let job = taken(&server, round).await?;
    list(&server, &headers, job, round).await
}

/// One of them.
#[utoipa::path(get, path = "/api/rounds/{round}/files/{name}",
    params(("round" = Uuid, Path, description = "Number of the round"), ("name" = String, Path, description = "Name of the file")),
    responses((status = 200, description = "It, of its own media type", body = Vec<u8>, content_type = "application/octet-stream"),
        (status = 404, description = "No such file", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn file_of_round(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath((round, name)): InPath<(Uuid, String)>,
) -> Result<Response, Problem> {
    let job = taken(&server, round).await?;
    file(&server, &headers, job, round, &name).await
}

async fn taken(server: &Server, round: Uuid) -> Result<Uuid, Problem> {
    let job = server.journal.plan_of_round(round).await?;
    job.ok_or_else(|| Problem::not_found("no plan was taken for a round of that number"))
}

async fn list(server: &Server, headers: &HeaderMap, job: Uuid, round: Uuid) -> Result<Response, Problem> {
    let files = server.journal.plan_files(job, round).await?;
    if files.is_empty() {
        return Err(Problem::not_found("the plan has no files of a round of that number, or has them no more"));
    }
    let shown: Vec<DayFileShown> = files
        .into_iter()
        .map(|file| DayFileShown {
            name: file.name,
            media_type: file.media_type,
            bytes: file.size,
            sha256: hexadecimal(&file.digest),
        })
        .collect();
    answer::json(headers, &shown)
}

async fn file(server: &Server, headers: &HeaderMap, job: Uuid, round: Uuid, name: &str) -> Result<Response, Problem> {
    let found = server.journal.plan_file(job, round, name).await?;
    let (media_type, content) = found.ok_or_else(|| Problem::not_found("the plan has no such file of that round"))?;
    Ok(answer::kept(headers, &media_type, content))
}
