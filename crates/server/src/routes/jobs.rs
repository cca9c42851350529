//! Planning: long work, asked for now and looked at later.

use std::collections::BTreeSet;
use std::convert::Infallible;
use std::time::Duration;

use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::sse::{Event, KeepAlive, Sse};
use axum::response::{IntoResponse, Response};
use jiff::civil::Date;
use journal::Query;
use journal::jobs::{Job, JobState};
use model::learnt::Factored;
use model::record::event::{Event as Told, SCHEMA_VERSION};
use model::record::happened::{Happened, PlannedRepair, PlannedZone, Subject};
use model::record::known::{Known, RepairState};
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use crate::access::Who;
use crate::answer;
use crate::background::NOT_TAKEN;
use crate::body::{InPath, Json};
use crate::problem::Problem;
use crate::secrets::number;
use crate::state::Server;

/// Holes in a plan that the server makes.
const MOST_HOLES: usize = 20_000;

/// How often progress is looked at.
const LOOK: Duration = Duration::from_millis(300);

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new()
        .routes(routes!(last, ask))
        .routes(routes!(look, stop))
        .routes(routes!(follow))
        .routes(routes!(accept))
}

/// The kind of jobs that plan.
pub(super) const KIND: &str = "plan";

/// A job.
#[derive(Serialize, ToSchema)]
pub(super) struct JobShown {
    job: Uuid,
    /// `waiting`, `working`, `done`, `failed` or `stopped`.
    #[schema(value_type = String)]
    state: JobState,
    asked_by: String,
    asked_at: String,
    ended_at: Option<String>,
    /// How much is done, 0 to 1.
    progress: f64,
    /// What is going on, or what went wrong.
    words: String,
    /// The plan, once it is done.
    #[schema(value_type = Option<Object>)]
    plan: Option<Box<RawValue>>,
    /// What an import came to, once it is done: rows, and every problem with its line.
    #[schema(value_type = Option<Object>)]
    #[serde(skip_serializing_if = "Option::is_none")]
    import: Option<Box<RawValue>>,
}

impl From<Job> for JobShown {
    fn from(job: Job) -> Self {
        let (plan, import) = if job.kind == KIND { (job.output, String::new()) } else { (String::new(), job.output) };
        JobShown {
            job: job.id,
            state: job.state,
            asked_by: job.asked_by,
            asked_at: job.asked_at.to_string(),
            ended_at: job.ended_at.map(|at| at.to_string()),
            progress: job.progress,
            words: job.words,
            plan: RawValue::from_string(plan).ok(),
            import: RawValue::from_string(import).ok(),
        }
    }
}

/// What to plan.
#[derive(Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct PlanAsked {
    /// First day.
    #[schema(value_type = String)]
    date: Date,
    /// How many days, 1 to 31.
    #[serde(default = "one")]
    days: u32,
    /// Seed of the search: the same holes and seed give the same plan.
    #[serde(default = "one")]
    seed: u32,
    /// What is wanted otherwise than the search would have it; what can't be is told in the plan's `refused`.
    #[serde(default)]
    changes: Vec<PlanChange>,
    /// What the record teaches and this plan does without: `all`, or some of `growth`, `base`, `water`, `binder`, `cover_stone`,
    /// `time`. Without any it is the plan that survey and rules alone give.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    without_learnt: Vec<String>,
    /// Puts no looks at repairs on the way.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    without_looks: bool,
}

/// Holes that somebody wants to be mended on that day, by that crew, or not at all. It counts for their whole work zones.
#[derive(Deserialize, Serialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct PlanChange {
    /// One or more.
    holes: Vec<Uuid>,
    /// One of the days that are planned; left out: any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(value_type = Option<String>)]
    date: Option<Date>,
    /// A crew by its name; left out: any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    crew: Option<String>,
    /// Not to be mended in this plan.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    out: bool,
}

fn one() -> u32 {
    1
}

/// What the planner is given.
#[derive(Serialize)]
struct PlanInput {
    asked: PlanAsked,
    /// All holes that wait to be mended.
    holes: Vec<Known>,
}

/// What the planner gives.
#[derive(Deserialize)]
struct PlanOutput {
    /// A round for each crew and day, ready to be told.
    rounds: Vec<Happened>,
}

/// Asks for a plan of all holes that wait to be mended; the answer says where to look.
#[utoipa::path(post, path = "/api/plans", request_body = PlanAsked,
    responses((status = 202, description = "Asked for", body = JobShown)), extensions(("x-roles" = json!(["planner", "engineer"]))))]
async fn ask(State(server): State<Server>, who: Who, Json(asked): Json<PlanAsked>) -> Result<Response, Problem> {
    if !(1..=31).contains(&asked.days) {
        return Err(Problem::unusable("days is 1 to 31"));
    }
    if !(1950..=2150).contains(&asked.date.year()) {
        return Err(Problem::unusable("date lies in the years 1950 to 2150"));
    }
    if let Some(word) = asked.without_learnt.iter().find(|word| Factored::named(word).is_none()) {
        let known: Vec<&str> = Factored::ALL.into_iter().map(Factored::word).collect();
        return Err(Problem::unusable(format!("`{word}` is nothing that plans learn: all, {}", known.join(", "))));
    }
    for change in &asked.changes {
        if change.holes.is_empty() {
            return Err(Problem::unusable("a change names one hole or more"));
        }
        if change.out && (change.date.is_some() || change.crew.is_some()) {
            return Err(Problem::unusable("holes that shall stay out have neither date nor crew"));
        }
    }
    let input = PlanInput { asked, holes: waiting_holes(&server).await? };
    let input = serde_json::to_string(&input).map_err(|_| Problem::ours())?;
    let id = number(server.now());
    server.journal.ask_for(id, KIND, &input, &who.name, server.now()).await?;
    let job = server.journal.job(id).await?.ok_or_else(Problem::ours)?;
    let location = [("location", format!("/api/plans/{id}"))];
    Ok((StatusCode::ACCEPTED, location, axum::Json(JobShown::from(job))).into_response())
}

/// Holes that nobody has begun to mend.
async fn waiting_holes(server: &Server) -> Result<Vec<Known>, Problem> {
    let mut query = Query::all("hole", 1_000);
    query.states = vec!["reported".to_owned(), "planned".to_owned()];
    let mut holes = Vec::new();
    loop {
        let page = server.journal.page(&query).await?;
        query.after = page.rows.last().map(|row| row.subject);
        holes.extend(page.rows.into_iter().map(|row| row.known));
        if holes.len() > MOST_HOLES {
            return Err(Problem::too_large(format!(
                "more than {MOST_HOLES} holes wait; plan them from the command line"
            )));
        }
        if !page.more {
            return Ok(holes);
        }
    }
}

/// Takes a plan that is done as the crews' rounds: they see it from now on. Taking it twice is the same as once; taken again after
/// another plan of the same rounds, it counts again.
#[utoipa::path(post, path = "/api/plans/{job}/rounds", params(("job" = Uuid, Path, description = "Its number")),
    responses((status = 200, description = "Rounds of the record", body = Vec<Uuid>),
        (status = 409, description = "It is not done, or so old that its files were thrown away", body = Problem)),
    extensions(("x-roles" = json!(["planner", "engineer"]))))]
async fn accept(
    State(server): State<Server>,
    who: Who,
    InPath(id): InPath<Uuid>,
) -> Result<axum::Json<Vec<Uuid>>, Problem> {
    let now = server.now();
    let job = job_of(&server, KIND, id).await?;
    let ended_at = job.ended_at.filter(|_| job.state == JobState::Done);
    let ended_at = ended_at.ok_or_else(|| Problem::conflict("the plan is not done"))?;
    let output: PlanOutput = serde_json::from_str(&job.output).map_err(|_| Problem::ours())?;
    let rounds: Vec<Uuid> = output.rounds.iter().filter_map(round_of).collect();
    let mut stand = Vec::new();
    for round in &rounds {
        stand.push(server.journal.plan_of_round(*round).await?);
    }
    if !rounds.is_empty() && stand.iter().all(|plan| *plan == Some(id)) {
        return Ok(axum::Json(rounds));
    }
    if ended_at.saturating_add(NOT_TAKEN).is_ok_and(|gone| gone < now) {
        return Err(Problem::conflict("the plan is too old to be taken: its files were thrown away; ask for it anew"));
    }
    let mut planned = output.rounds;
    for happened in &mut planned {
        keep_what_was_begun(&server, happened).await?;
    }
    let events = planned.into_iter().enumerate().map(|(index, happened)| {
        let replaces = round_of(&happened).zip(stand.get(index).copied().flatten()).is_some();
        // Taken first, made of the job's own number and time, so that two who take it at once make the same events. In place of
        // another plan, told now: what was told last counts.
        let (event, device_time) = if replaces { (number(now), now) } else { (beside(id, index), ended_at) };
        Told {
            id: event,
            schema: SCHEMA_VERSION,
            actor: who.name.clone(),
            device: "planner".to_owned(),
            device_time,
            clock_ahead_ms: 0,
            happened,
        }
    });
    // An event of that number by another planner, who took the same plan and got no further than this, stands as well.
    server.journal.append(events.collect(), now).await?;
    server.journal.take_plan(id, &rounds, now).await?;
    server.note(&who, "accept_plan", &id.to_string(), true).await?;
    Ok(axum::Json(rounds))
}

fn round_of(happened: &Happened) -> Option<Uuid> {
    match happened {
        Happened::RoundPlanned { round, .. } => Some(*round),
        _ => None,
    }
}

/// Repairs of the round that stands stay in it once they are begun: a plan is of holes that wait, and they wait no more. Where the
/// plan, made before they were begun, has the same holes again, what was begun stays.
async fn keep_what_was_begun(server: &Server, happened: &mut Happened) -> Result<(), Problem> {
    let Happened::RoundPlanned { round, repairs, zones, .. } = happened else { return Ok(()) };
    let Some(Known::Round(before)) = server.journal.known(Subject::Round(*round)).await?.map(|row| row.known) else {
        return Ok(());
    };
    let named: Vec<PlannedRepair> = before.repairs.map(|told| told.value).unwrap_or_default();
    let subjects: Vec<Subject> = named.iter().map(|repair| Subject::Repair(repair.repair)).collect();
    let known = server.journal.known_of(&subjects).await?;
    let is_begun = |planned: &PlannedRepair| {
        known.iter().any(|row| matches!(&row.known, Known::Repair(repair) if repair.repair == planned.repair && repair.state != RepairState::Planned))
    };
    let mut kept: Vec<PlannedRepair> = named.into_iter().filter(is_begun).collect();
    let in_hand: BTreeSet<Uuid> = kept.iter().flat_map(|repair| repair.holes.iter().copied()).collect();
    repairs.retain(|repair| !repair.holes.iter().any(|hole| in_hand.contains(hole)));
    kept.append(repairs);
    *repairs = kept;
    let of_them = |zone: &PlannedZone| zone.holes.iter().any(|hole| in_hand.contains(hole));
    let mut stay: Vec<PlannedZone> = before.planned_zones.into_iter().filter(of_them).collect();
    zones.retain(|zone| !of_them(zone));
    stay.append(zones);
    *zones = stay;
    Ok(())
}

/// Another number for each index, always the same.
fn beside(id: Uuid, index: usize) -> Uuid {
    let mut bytes = id.into_bytes();
    bytes[15] ^= u8::try_from(index + 1).unwrap_or(u8::MAX);
    Uuid::from_bytes(bytes)
}

/// The last plans asked for, without the plans themselves.
#[utoipa::path(get, path = "/api/plans", responses((status = 200, description = "The newest first", body = Vec<JobShown>)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn last(State(server): State<Server>, headers: HeaderMap) -> Result<Response, Problem> {
    let jobs: Vec<JobShown> = server.journal.last_jobs(KIND).await?.into_iter().map(JobShown::from).collect();
    answer::json(&headers, &jobs)
}

/// How far a plan is, and the plan once it is done.
#[utoipa::path(get, path = "/api/plans/{job}", params(("job" = Uuid, Path, description = "Its number")),
    responses((status = 200, description = "It", body = JobShown), (status = 404, description = "No such job", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn look(State(server): State<Server>, headers: HeaderMap, InPath(id): InPath<Uuid>) -> Result<Response, Problem> {
    let job = job_of(&server, KIND, id).await?;
    answer::json(&headers, &JobShown::from(job))
}

/// Stops a plan that nobody needs any more.
#[utoipa::path(delete, path = "/api/plans/{job}", params(("job" = Uuid, Path, description = "Its number")),
    responses((status = 204, description = "Stopped"), (status = 409, description = "It had ended", body = Problem)),
    extensions(("x-roles" = json!(["planner", "engineer"]))))]
async fn stop(State(server): State<Server>, InPath(id): InPath<Uuid>) -> Result<StatusCode, Problem> {
    stop_job(&server, KIND, id).await
}

/// The job of a number, if it is of that kind.
pub(super) async fn job_of(server: &Server, kind: &str, id: Uuid) -> Result<Job, Problem> {
    let job = server.journal.job(id).await?.filter(|job| job.kind == kind);
    job.ok_or_else(|| Problem::not_found(format!("no such {kind} was asked for")))
}

/// Stops a job that nobody needs any more.
pub(super) async fn stop_job(server: &Server, kind: &str, id: Uuid) -> Result<StatusCode, Problem> {
    job_of(server, kind, id).await?;
    if server.journal.stop_job(id, server.now()).await? {
        Ok(StatusCode::NO_CONTENT)
    } else {
        Err(Problem::conflict("it had ended before"))
    }
}

/// Tells how far a plan is as it goes on, as server-sent events; ends when it ends.
#[utoipa::path(get, path = "/api/plans/{job}/progress", params(("job" = Uuid, Path, description = "Its number")),
    responses((status = 200, description = "Events named `progress`, in the shape of `JobShown` without the plan", content_type = "text/event-stream", body = String),
        (status = 404, description = "No such job", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn follow(State(server): State<Server>, InPath(id): InPath<Uuid>) -> Result<Response, Problem> {
    follow_job(server, KIND, id).await
}

/// Tells how far a job is as it goes on.
pub(super) async fn follow_job(server: Server, kind: &str, id: Uuid) -> Result<Response, Problem> {
    job_of(&server, kind, id).await?;
    let begin = (server, String::new(), false);
    let stream = futures_util::stream::unfold(begin, move |(server, mut said, ended)| async move {
        if ended {
            return None;
        }
        loop {
            let mut job = server.journal.job(id).await.ok().flatten()?;
            job.output.clear();
            let over = !matches!(job.state, JobState::Waiting | JobState::Working);
            let text = serde_json::to_string(&JobShown::from(job)).ok()?;
            if text != said {
                said.clone_from(&text);
                let event: Result<Event, Infallible> = Ok(Event::default().event("progress").data(text));
                return Some((event, (server, said, over)));
            }
            tokio::time::sleep(LOOK).await;
        }
    });
    Ok(Sse::new(stream).keep_alive(KeepAlive::default()).into_response())
}
