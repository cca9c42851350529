//! Exports of offices put into the record: sent here, worked on as a job.

use axum::body::Body;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse as _, Response};
use futures_util::StreamExt as _;
use intake::bulk::{BulkField, SlashOrder};
use journal::jobs::Job;
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use super::jobs::{JobShown, follow_job, job_of, stop_job};
use crate::access::Who;
use crate::answer;
use crate::body::{InPath, InQuery};
use crate::import::job::{ImportAsked, KIND};
use crate::problem::Problem;
use crate::secrets::number;
use crate::state::Server;

/// Bytes that are written to the store together.
const PART: usize = 1024 * 1024;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(last, ask)).routes(routes!(look, stop)).routes(routes!(follow))
}

/// How to read the export.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct How {
    /// Who told of these holes, in a word, where the rows don't say; without it `public`.
    source: Option<String>,
    /// How dates with slashes are written: `day_first` or `month_first`; without it they are not used.
    slashes: Option<String>,
    /// Columns by name, where they would not be found: `longitude:East,latitude:North,depth:how_deep_mm`. Known are `number`,
    /// `longitude`, `latitude`, `time`, `note`, `address`, `source`, `length`, `width`, `depth`, `status` and `closed`.
    columns: Option<String>,
}

/// Sends an export, CSV or `GeoJSON`, to be put into the record. The answer says where to look how far it is.
#[utoipa::path(post, path = "/api/imports", params(How),
    request_body(content((Vec<u8> = "text/csv"), (Vec<u8> = "application/geo+json"), (Vec<u8> = "application/json"))),
    responses((status = 202, description = "Taken; it is worked on", body = JobShown)),
    extensions(("x-roles" = json!(["planner", "engineer"]))))]
async fn ask(
    State(server): State<Server>,
    who: Who,
    InQuery(how): InQuery<How>,
    headers: HeaderMap,
    body: Body,
) -> Result<Response, Problem> {
    let media_type = headers.get(header::CONTENT_TYPE).and_then(|value| value.to_str().ok()).unwrap_or_default();
    let media_type = media_type.split(';').next().unwrap_or_default().trim().to_ascii_lowercase();
    if !matches!(media_type.as_str(), "text/csv" | "application/geo+json" | "application/json") {
        return Err(Problem::wrong_type("an export is text/csv or application/geo+json"));
    }
    let asked = asked(&how, &who)?;
    let id = number(server.now());
    let bytes = match keep(&server, id, body).await {
        Ok(bytes) => bytes,
        Err(problem) => {
            server.journal.forget_upload(id).await?;
            return Err(problem);
        }
    };
    let input = serde_json::to_string(&ImportAsked { bytes, ..asked }).map_err(|_| Problem::ours())?;
    server.journal.ask_for(id, KIND, &input, &who.name, server.now()).await?;
    server.note(&who, "import", &id.to_string(), true).await?;
    let job = server.journal.job(id).await?.ok_or_else(Problem::ours)?;
    let location = [("location", format!("/api/imports/{id}"))];
    Ok((StatusCode::ACCEPTED, location, axum::Json(JobShown::from(job))).into_response())
}

/// The last imports asked for, without what they came to.
#[utoipa::path(get, path = "/api/imports", responses((status = 200, description = "The newest first", body = Vec<JobShown>)),
    extensions(("x-roles" = json!(["planner", "engineer", "auditor"]))))]
async fn last(State(server): State<Server>, headers: HeaderMap) -> Result<Response, Problem> {
    let jobs: Vec<JobShown> = server.journal.last_jobs(KIND).await?.into_iter().map(JobShown::from).collect();
    answer::json(&headers, &jobs)
}

/// How far an import is, and what it came to once it is done.
#[utoipa::path(get, path = "/api/imports/{job}", params(("job" = Uuid, Path, description = "Its number")),
    responses((status = 200, description = "It", body = JobShown), (status = 404, description = "No such job", body = Problem)),
    extensions(("x-roles" = json!(["planner", "engineer", "auditor"]))))]
async fn look(State(server): State<Server>, headers: HeaderMap, InPath(id): InPath<Uuid>) -> Result<Response, Problem> {
    let job: Job = job_of(&server, KIND, id).await?;
    answer::json(&headers, &JobShown::from(job))
}

/// Stops an import. What is in the record stays there; sent again it goes on from there.
#[utoipa::path(delete, path = "/api/imports/{job}", params(("job" = Uuid, Path, description = "Its number")),
    responses((status = 204, description = "Stopped"), (status = 409, description = "It had ended", body = Problem)),
    extensions(("x-roles" = json!(["planner", "engineer"]))))]
async fn stop(State(server): State<Server>, InPath(id): InPath<Uuid>) -> Result<StatusCode, Problem> {
    stop_job(&server, KIND, id).await
}

/// Tells how far an import is as it goes on, as server-sent events; ends when it ends.
#[utoipa::path(get, path = "/api/imports/{job}/progress", params(("job" = Uuid, Path, description = "Its number")),
    responses((status = 200, description = "Events named `progress`, in the shape of `JobShown` without what it came to", content_type = "text/event-stream", body = String),
        (status = 404, description = "No such job", body = Problem)),
    extensions(("x-roles" = json!(["planner", "engineer", "auditor"]))))]
async fn follow(State(server): State<Server>, InPath(id): InPath<Uuid>) -> Result<Response, Problem> {
    follow_job(server, KIND, id).await
}

/// Keeps what comes, in parts, until it is worked on; how much may come is counted here. Gives how many bytes it is.
async fn keep(server: &Server, id: Uuid, body: Body) -> Result<u64, Problem> {
    let most = server.settings.uploads.import_bytes;
    let mut stream = body.into_data_stream();
    let (mut part, mut parts, mut bytes) = (Vec::with_capacity(PART), 0, 0_u64);
    while let Some(chunk) = stream.next().await {
        let chunk =
            chunk.map_err(|_| Problem::bad_request("the connection broke before all had come; send it again"))?;
        bytes += chunk.len() as u64;
        if bytes > most {
            return Err(Problem::too_large(format!("an export has at most {most} bytes; send it in parts")));
        }
        part.extend_from_slice(&chunk);
        if part.len() >= PART {
            server.journal.keep_upload(id, parts, &part, server.now()).await?;
            part.clear();
            parts += 1;
        }
    }
    server.journal.keep_upload(id, parts, &part, server.now()).await?;
    Ok(bytes)
}

fn asked(how: &How, who: &Who) -> Result<ImportAsked, Problem> {
    let source = how.source.as_deref().unwrap_or("public").trim().to_lowercase();
    if source.is_empty() || source.chars().count() > 60 || source.chars().any(char::is_control) {
        return Err(Problem::bad_request("source is a word of at most 60 letters"));
    }
    let slashes = match how.slashes.as_deref() {
        None => None,
        Some("day_first") => Some(SlashOrder::DayFirst),
        Some("month_first") => Some(SlashOrder::MonthFirst),
        Some(_) => return Err(Problem::bad_request("slashes is day_first or month_first")),
    };
    let mut columns = Vec::new();
    for pair in how.columns.iter().flat_map(|pairs| pairs.split(',')).filter(|pair| !pair.trim().is_empty()) {
        let wrong = || {
            Problem::bad_request("columns is field:name, several with commas between; the fields are in the document")
        };
        let (word, name) = pair.split_once(':').ok_or_else(wrong)?;
        let field = BulkField::ALL.into_iter().find(|field| field.key() == word.trim()).ok_or_else(wrong)?;
        columns.push((field.key().to_owned(), name.trim().to_owned()));
    }
    Ok(ImportAsked {
        bytes: 0,
        source,
        day_first: slashes.map(|order| order == SlashOrder::DayFirst),
        columns,
        actor: who.name.clone(),
        device: who.device.clone(),
    })
}
