//! Sync: events from phones and desks, in batches, each with an answer of its own.

use axum::extract::{DefaultBodyLimit, State};
use axum::http::HeaderMap;
use axum::response::Response;
use journal::Appended;
use journal::people::Role;
use model::record::event::Event;
use model::record::happened::Happened;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::access::Who;
use crate::answer;
use crate::believed::{Bounds, fault};
use crate::body::{InQuery, Json};
use crate::problem::Problem;
use crate::state::Server;

/// Bytes of a batch.
const MOST_BYTES: usize = 4 * 1024 * 1024;

/// Events of a batch.
const MOST_EVENTS: usize = 2_000;

/// Events on a page.
const MOST_ON_PAGE: u32 = 1_000;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(list, send)).layer(DefaultBodyLimit::max(MOST_BYTES))
}

/// Events to take in.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct Sent {
    /// In any order; each in the shape of `Event`.
    #[schema(value_type = Vec<Object>)]
    events: Vec<Value>,
}

/// What became of the events sent.
#[derive(Serialize, ToSchema)]
struct Taken {
    /// The server's time, so that a device can tell how its clock stands.
    now: String,
    /// One for each event sent, in their order.
    events: Vec<TakenEvent>,
}

/// What became of one event.
#[derive(Serialize, ToSchema)]
struct TakenEvent {
    /// `recorded`: it is on disk now; `known`: it was before; `refused`: it is not taken.
    outcome: &'static str,
    /// Its place in the record.
    #[serde(skip_serializing_if = "Option::is_none")]
    position: Option<u64>,
    /// Why it is refused, and what would be right.
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<String>,
}

/// Which events.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct After {
    /// Only those after this position.
    #[serde(default)]
    after: u64,
    /// How many at most.
    limit: Option<u32>,
}

/// A page of the record.
#[derive(Serialize, ToSchema)]
struct EventPage {
    /// In the order in which they came in.
    #[schema(value_type = Vec<Object>)]
    events: Vec<model::record::event::Recorded>,
    /// What to ask for next; nothing: these are the last.
    next_after: Option<u64>,
}

/// Takes events in. Sending again what was sent is harmless; one that is refused keeps no other back.
#[utoipa::path(post, path = "/api/events", request_body = Sent,
    responses((status = 200, description = "What became of each", body = Taken)),
    extensions(("x-roles" = json!(["crew", "planner", "storekeeper", "engineer"]))))]
async fn send(State(server): State<Server>, who: Who, Json(sent): Json<Sent>) -> Result<axum::Json<Taken>, Problem> {
    if sent.events.len() > MOST_EVENTS {
        return Err(Problem::too_large(format!("{} events; send at most {MOST_EVENTS}", sent.events.len())));
    }
    let now = server.now();
    let bounds = Bounds { district: server.settings.district, now, clock_tolerance: server.settings.clock_tolerance };
    let mut taken: Vec<Option<TakenEvent>> = Vec::with_capacity(sent.events.len());
    let mut events = Vec::new();
    for value in sent.events {
        match read(value, &who, &bounds) {
            Ok(event) => {
                events.push(event);
                taken.push(None);
            }
            Err(why) => taken.push(Some(TakenEvent { outcome: "refused", position: None, why: Some(why) })),
        }
    }
    server.metrics.refused.inc_by(taken.iter().flatten().count() as u64);
    let mut appended = server.journal.append(events, now).await?.into_iter();
    let events: Vec<TakenEvent> =
        taken.into_iter().filter_map(|refused| refused.or_else(|| appended.next().map(taken_event))).collect();
    let recorded = events.iter().filter(|event| event.outcome == "recorded").count();
    server.metrics.events.inc_by(recorded as u64);
    Ok(axum::Json(Taken { now: now.to_string(), events }))
}

/// The record itself, in the order in which it came in.
#[utoipa::path(get, path = "/api/events", params(After), responses((status = 200, description = "A page", body = EventPage)),
    extensions(("x-roles" = json!(["engineer", "auditor"]))))]
async fn list(
    State(server): State<Server>,
    headers: HeaderMap,
    InQuery(after): InQuery<After>,
) -> Result<Response, Problem> {
    let limit = after.limit.unwrap_or(MOST_ON_PAGE).clamp(1, MOST_ON_PAGE);
    if after.after > i64::MAX.cast_unsigned() {
        return Err(Problem::bad_request("after is no position"));
    }
    let events = server.journal.events_after(after.after, limit).await?;
    let next_after = events.last().filter(|_| events.len() == limit as usize).map(|last| last.position);
    answer::json(&headers, &EventPage { events, next_after })
}

fn taken_event(appended: Appended) -> TakenEvent {
    match appended {
        Appended::Recorded { position } => TakenEvent { outcome: "recorded", position: Some(position), why: None },
        Appended::KnownBefore { position } => TakenEvent { outcome: "known", position: Some(position), why: None },
        Appended::OtherOfThatNumber { position } => TakenEvent {
            outcome: "refused",
            position: Some(position),
            why: Some("another event of that id is in the record; give each event an id of its own".to_owned()),
        },
    }
}

/// Reads an event, and whether the one who sends it may tell it.
fn read(value: Value, who: &Who, bounds: &Bounds) -> Result<Event, String> {
    let event: Event = serde_json::from_value(value).map_err(|error| error.to_string())?;
    if event.actor != who.name {
        return Err(format!("actor has to be `{}`, who is signed in", who.name));
    }
    if event.device != who.device {
        return Err(format!("device has to be `{}`, which sends it", who.device));
    }
    let kind = event.happened.kind();
    if !may_tell(who.role, &event.happened) {
        return Err(format!("`{kind}` is not for the role {}", who.role.word()));
    }
    fault(&event, bounds).map_or(Ok(event), Err)
}

/// Who may tell what. An engineer may tell anything; what happens on the road the crew tells; what is moved and counted, crew
/// and storekeeper.
fn may_tell(role: Role, happened: &Happened) -> bool {
    let by: &[Role] = match happened {
        Happened::HoleReported { .. } | Happened::HoleMeasured { .. } | Happened::PhotoTaken { .. } => {
            &[Role::Crew, Role::Planner, Role::Storekeeper]
        }
        Happened::HolesMerged { .. } | Happened::HoleDismissed { .. } | Happened::RoundPlanned { .. } => {
            &[Role::Planner]
        }
        Happened::ZoneOpened { .. }
        | Happened::ZoneClosed { .. }
        | Happened::HoleCut { .. }
        | Happened::LayerPlaced { .. }
        | Happened::Sealed { .. }
        | Happened::OpenedToTraffic { .. } => &[Role::Crew],
        Happened::Inspected { .. } | Happened::Failed { .. } | Happened::TimeBooked { .. } => {
            &[Role::Crew, Role::Planner]
        }
        Happened::StockMoved { .. } => &[Role::Crew, Role::Storekeeper],
        Happened::StockCounted { .. } => &[Role::Storekeeper],
        Happened::Corrected { instead, .. } => {
            return match instead {
                Some(instead) => may_tell(role, instead),
                None => role != Role::Auditor,
            };
        }
        Happened::Signed { role: signed_as, .. } => {
            return role == Role::Engineer || (role != Role::Auditor && signed_as != "engineer");
        }
    };
    role == Role::Engineer || by.contains(&role)
}
