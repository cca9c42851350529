//! Sync: events from phones and desks, in batches, each with an answer of its own.

use axum::extract::{DefaultBodyLimit, State};
use axum::http::HeaderMap;
use axum::response::Response;
use journal::Appended;
use journal::people::Role;
use journal::refused::{MostRefused, NotTaken};
use model::record::event::Event;
use model::record::happened::Happened;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use serde_json::value::RawValue;
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::access::Who;
use crate::answer;
use crate::believed::{Bounds, fault};
use crate::body::{InQuery, Json};
use crate::photos::digest_of_name;
use crate::problem::Problem;
use crate::state::{Server, UploadLimits};

/// Events on a page.
const MOST_ON_PAGE: u32 = 1_000;

/// What was refused, on a page: each may be large.
const ON_PAGE: u32 = 100;

/// Refused events that are kept of one account: more than it can have sent by mistake.
const MOST_REFUSED: MostRefused = MostRefused { count: 50_000, bytes: 100_000_000 };

/// Why an event is refused whose number another has.
const OTHER_OF_THAT_NUMBER: &str = "another event of that id is in the record; give each event an id of its own";

/// What the sender is told where that is passed.
const NOT_KEPT: &str =
    "; it is not kept here either, since too much of what this account sent was refused: keep it on the device";

pub(super) fn routes(limits: UploadLimits) -> OpenApiRouter<Server> {
    OpenApiRouter::new()
        .routes(routes!(list, send))
        .routes(routes!(not_taken))
        .layer(DefaultBodyLimit::max(limits.batch_bytes))
}

/// Events to take in.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct Sent {
    /// In any order; each in the shape of `Event`.
    #[schema(value_type = Vec<Object>)]
    events: Vec<Box<RawValue>>,
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

/// Which of the refused.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct AfterRefused {
    /// What `next_after` of the page before said.
    after: Option<String>,
    /// How many at most.
    limit: Option<u32>,
}

/// A page of what was refused.
#[derive(Serialize, ToSchema)]
struct RefusedPage {
    /// The first first.
    events: Vec<RefusedShown>,
    /// What to ask for next; nothing: these are the last.
    next_after: Option<String>,
}

/// What was refused.
#[derive(Serialize, ToSchema)]
struct RefusedShown {
    /// When it was first sent, by the server's clock.
    at: String,
    /// Account that sent it.
    actor: String,
    /// Device that sent it.
    device: String,
    /// Why it was refused, and what would be right.
    why: String,
    /// What was sent.
    #[schema(value_type = Value)]
    sent: Option<Box<RawValue>>,
}

/// Takes events in. Sending again what was sent is harmless; one that is refused keeps no other back.
#[utoipa::path(post, path = "/api/events", request_body = Sent,
    responses((status = 200, description = "What became of each", body = Taken)),
    extensions(("x-roles" = json!(["crew", "planner", "storekeeper", "engineer"]))))]
async fn send(State(server): State<Server>, who: Who, Json(sent): Json<Sent>) -> Result<axum::Json<Taken>, Problem> {
    let most = server.settings.uploads.batch_events;
    if sent.events.len() > most {
        return Err(Problem::too_large(format!("{} events; send at most {most}", sent.events.len())));
    }
    let now = server.now();
    let bounds = Bounds { district: server.settings.district, now, clock_tolerance: server.settings.clock_tolerance };
    let mut taken: Vec<Option<TakenEvent>> = Vec::with_capacity(sent.events.len());
    let mut events = Vec::new();
    let mut refused = Vec::new();
    // Of those that are read, where in the batch they stand.
    let mut places = Vec::new();
    for (place, value) in sent.events.iter().enumerate() {
        match read(value.get(), &who, &bounds) {
            Ok(event) => {
                events.push(event);
                places.push(place);
                taken.push(None);
            }
            Err(why) => {
                refused.push((place, not_taken_of(&who, &why, value)));
                taken.push(Some(TakenEvent { outcome: "refused", position: None, why: Some(why) }));
            }
        }
    }
    let mut appended = server.journal.append(events, now).await?;
    for (&place, appended) in places.iter().zip(&appended) {
        if matches!(appended, Appended::OtherOfThatNumber { .. }) {
            refused.push((place, not_taken_of(&who, OTHER_OF_THAT_NUMBER, &sent.events[place])));
        }
    }
    server.metrics.refused.inc_by(refused.len() as u64);
    let (places, refused): (Vec<usize>, Vec<NotTaken>) = refused.into_iter().unzip();
    let kept = server.journal.keep_refused(&refused, MOST_REFUSED, server.now()).await?;
    let mut appended = appended.drain(..);
    let mut events: Vec<TakenEvent> =
        taken.into_iter().filter_map(|refused| refused.or_else(|| appended.next().map(taken_event))).collect();
    for (place, _) in places.into_iter().zip(kept).filter(|(_, kept)| !kept) {
        if let Some(why) = &mut events[place].why {
            why.push_str(NOT_KEPT);
        }
    }
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

/// What devices sent and was refused, with the reason, the first first.
#[utoipa::path(get, path = "/api/refused", params(AfterRefused), responses((status = 200, description = "A page", body = RefusedPage)),
    extensions(("x-roles" = json!(["engineer", "auditor"]))))]
async fn not_taken(
    State(server): State<Server>,
    headers: HeaderMap,
    InQuery(after): InQuery<AfterRefused>,
) -> Result<Response, Problem> {
    let limit = after.limit.unwrap_or(ON_PAGE).clamp(1, ON_PAGE);
    let from = after.after.as_deref().map(|text| {
        let (at, number) = text.split_once('_')?;
        Some((at.parse().ok()?, digest_of_name(number)?))
    });
    let from = match from {
        Some(None) => return Err(Problem::bad_request("after is what `next_after` of the page before said")),
        from => from.flatten(),
    };
    let refused = server.journal.refused_after(from, limit).await?;
    let next_after = refused.last().filter(|_| refused.len() == limit as usize);
    let next_after = next_after.map(|last| format!("{}_{}", last.at, last.number));
    let events = refused
        .into_iter()
        .map(|one| RefusedShown {
            at: one.at.to_string(),
            actor: one.actor,
            device: one.device,
            why: one.why,
            sent: RawValue::from_string(one.body).ok(),
        })
        .collect();
    answer::json(&headers, &RefusedPage { events, next_after })
}

fn taken_event(appended: Appended) -> TakenEvent {
    match appended {
        Appended::Recorded { position } => TakenEvent { outcome: "recorded", position: Some(position), why: None },
        Appended::KnownBefore { position } => TakenEvent { outcome: "known", position: Some(position), why: None },
        Appended::OtherOfThatNumber { position } => {
            TakenEvent { outcome: "refused", position: Some(position), why: Some(OTHER_OF_THAT_NUMBER.to_owned()) }
        }
    }
}

/// What was not taken, to be kept.
fn not_taken_of(who: &Who, why: &str, sent: &RawValue) -> NotTaken {
    // what is too deep, or has half a letter in it, would break whoever reads it: that is kept as text
    let body = serde_json::from_str(sent.get()).unwrap_or_else(|_| Value::String(sent.get().to_owned())).to_string();
    // what was wrong may be quoted in it, letter for letter
    let why = why.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    NotTaken { actor: who.name.clone(), device: who.device.clone(), why, body }
}

/// Reads an event, and whether the one who sends it may tell it.
fn read(text: &str, who: &Who, bounds: &Bounds) -> Result<Event, String> {
    let event: Event = serde_json::from_str(text).map_err(|error| error.to_string())?;
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
/// and storekeeper; what others do to the road, who plans.
fn may_tell(role: Role, happened: &Happened) -> bool {
    let by: &[Role] = match happened {
        Happened::HoleReported { .. } | Happened::HoleMeasured { .. } | Happened::PhotoTaken { .. } => {
            &[Role::Crew, Role::Planner, Role::Storekeeper]
        }
        Happened::HolesMerged { .. }
        | Happened::HoleDismissed { .. }
        | Happened::RoundPlanned { .. }
        | Happened::RoadResurfaced { .. } => &[Role::Planner],
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
