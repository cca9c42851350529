//! What is known: holes, repairs, zones, rounds, resurfacings.

use axum::extract::State;
use axum::http::HeaderMap;
use axum::response::Response;
use jiff::Timestamp;
use journal::chain::Digest;
use journal::{Query, Row};
use model::record::happened::{Position, Subject};
use model::record::known::{Known, KnownPhoto};
use serde::{Deserialize, Serialize};
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use crate::access::Who;
use crate::answer;
use crate::body::{InPath, InQuery};
use crate::photos::digest_of_name;
use crate::problem::Problem;
use crate::state::Server;

/// On a page at most.
const MOST_ON_PAGE: u32 = 1_000;

/// On a page where nothing is asked for.
const ON_PAGE: u32 = 100;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(page)).routes(routes!(one)).routes(routes!(history)).routes(routes!(contact))
}

/// Which of them.
#[derive(Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Which {
    /// Only those in one of these states, with commas between. Of rounds and resurfacings: only those of these days.
    state: Option<String>,
    /// Only those in this box, degrees: west,south,east,north.
    bbox: Option<String>,
    /// Only those of which something was told from this time on.
    told_from: Option<String>,
    /// Only those that changed after this position of the record: what is new since last time.
    changed_after: Option<u64>,
    /// How many at most.
    limit: Option<u32>,
    /// What `next_after` of the page before said.
    after: Option<Uuid>,
}

/// A page of what is known.
#[derive(Serialize, ToSchema)]
struct KnownPage {
    /// In the order of their numbers.
    known: Vec<KnownRow>,
    /// How many there are in all.
    matched: u64,
    /// What to ask for next; nothing: these are the last.
    next_after: Option<Uuid>,
    /// On the first page of what changed after a position: numbers of those of which nothing is known any more since then,
    /// because what was told of them was taken back.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    gone: Vec<Uuid>,
}

/// What is known of one.
#[derive(Serialize, ToSchema)]
struct KnownRow {
    /// Position in the record after which it was worked out.
    position: u64,
    /// Where it is.
    #[schema(value_type = Option<Object>)]
    place: Option<Position>,
    /// In the shape of `KnownHole`, `KnownRepair`, `KnownZone`, `KnownRound` or `KnownResurfacing`.
    #[schema(value_type = Object)]
    known: Known,
    /// Files of its photos, as far as they have come.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    photo_files: Vec<PhotoFileShown>,
}

/// The file of a photo.
#[derive(Serialize, ToSchema)]
struct PhotoFileShown {
    /// SHA-256 of it, hexadecimal.
    photo: String,
    media_type: String,
    bytes: u64,
    /// Where it was taken, as the camera wrote into it; cameras are often wrong about where they are. It is in no file that is given
    /// out.
    #[schema(value_type = Option<Object>)]
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<Position>,
}

/// Where a reporter can be reached.
#[derive(Serialize, ToSchema)]
struct ContactShown {
    name: String,
    email: String,
    phone: String,
}

/// Holes, repairs, zones, rounds or resurfacings, a page at a time.
#[utoipa::path(get, path = "/api/known/{what}",
    params(("what" = String, Path, description = "`holes`, `repairs`, `zones`, `rounds` or `resurfacings`"), Which),
    responses((status = 200, description = "A page", body = KnownPage)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn page(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath(what): InPath<String>,
    InQuery(which): InQuery<Which>,
) -> Result<Response, Problem> {
    let (what, subject) = kind(&what)?;
    let mut query = Query::all(what, which.limit.unwrap_or(ON_PAGE).clamp(1, MOST_ON_PAGE));
    query.count = true;
    query.states = which
        .state
        .iter()
        .flat_map(|states| states.split(','))
        .filter(|state| !state.is_empty())
        .map(str::to_owned)
        .take(20)
        .collect();
    query.within = which.bbox.as_deref().map(read_box).transpose()?;
    if query
        .states
        .iter()
        .any(|state| !state.chars().all(|letter| letter.is_ascii_alphanumeric() || "_-".contains(letter)))
    {
        return Err(Problem::bad_request("state is a word, or several with commas between"));
    }
    query.told.0 = which
        .told_from
        .map(|text| text.parse::<Timestamp>())
        .transpose()
        .map_err(|error| Problem::bad_request(format!("told_from is no time as of RFC 3339: {error}")))?;
    query.changed_after = which.changed_after.map(|position| position.min(i64::MAX.cast_unsigned()));
    query.after = which.after.map(subject);
    let page = server.journal.page(&query).await?;
    let next_after = page.rows.last().filter(|_| page.more).map(|row| row.subject.id());
    let gone = match (query.changed_after, query.after) {
        (Some(position), None) => server.journal.gone(what, position).await?,
        _ => Vec::new(),
    };
    let known = KnownPage {
        matched: page.matched.unwrap_or_default(),
        known: shown(&server, page.rows).await?,
        next_after,
        gone: gone.into_iter().map(Subject::id).collect(),
    };
    answer::json(&headers, &known)
}

/// What is known of one.
#[utoipa::path(get, path = "/api/known/{what}/{id}",
    params(("what" = String, Path, description = "`holes`, `repairs`, `zones`, `rounds` or `resurfacings`"), ("id" = Uuid, Path, description = "Its number")),
    responses((status = 200, description = "It", body = KnownRow), (status = 404, description = "Nothing is known", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn one(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath((what, id)): InPath<(String, Uuid)>,
) -> Result<Response, Problem> {
    let (_, subject) = kind(&what)?;
    let row = server.journal.known(subject(id)).await?;
    let row = row.ok_or_else(|| Problem::not_found("nothing is known of that number"))?;
    answer::json(&headers, &shown(&server, vec![row]).await?.pop())
}

/// Rows with the files of their photos.
async fn shown(server: &Server, rows: Vec<Row>) -> Result<Vec<KnownRow>, Problem> {
    let names: Vec<&KnownPhoto> = rows.iter().flat_map(|row| photos_of(&row.known)).collect();
    let digests: Vec<Digest> = names.iter().filter_map(|known| digest_of_name(&known.photo)).collect();
    let files = server.journal.photos(&digests).await?;
    let file = |known: &KnownPhoto| {
        let digest = digest_of_name(&known.photo)?;
        let file = files.binary_search_by_key(&digest, |file| file.digest).ok().map(|at| &files[at])?;
        Some(PhotoFileShown {
            photo: known.photo.clone(),
            media_type: file.media_type.clone(),
            bytes: file.bytes,
            place: file.place,
        })
    };
    let with_files = |row: Row| KnownRow {
        position: row.position,
        place: row.place,
        photo_files: photos_of(&row.known).iter().filter_map(file).collect(),
        known: row.known,
    };
    Ok(rows.into_iter().map(with_files).collect())
}

fn photos_of(known: &Known) -> &[KnownPhoto] {
    match known {
        Known::Hole(hole) => &hole.photos,
        Known::Repair(repair) => &repair.photos,
        Known::Zone(zone) => &zone.photos,
        Known::Resurfacing(resurfacing) => &resurfacing.photos,
        Known::Round(_) => &[],
    }
}

/// All that was told of one, as it came in.
#[utoipa::path(get, path = "/api/known/{what}/{id}/events",
    params(("what" = String, Path, description = "`holes`, `repairs`, `zones`, `rounds` or `resurfacings`"), ("id" = Uuid, Path, description = "Its number")),
    responses((status = 200, description = "Events in the shape of `Recorded`", body = Vec<Object>)),
    extensions(("x-roles" = json!(["planner", "engineer", "auditor"]))))]
async fn history(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath((what, id)): InPath<(String, Uuid)>,
) -> Result<Response, Problem> {
    let (_, subject) = kind(&what)?;
    answer::json(&headers, &server.journal.events_about(subject(id)).await?)
}

/// Where a hole's reporter can be reached. That it was read goes into the trail.
#[utoipa::path(get, path = "/api/contacts/{id}", params(("id" = Uuid, Path, description = "Number of the contact, of a report")),
    responses((status = 200, description = "Who reported", body = ContactShown), (status = 404, description = "Not or no more kept", body = Problem)),
    extensions(("x-roles" = json!(["planner", "engineer"]))))]
async fn contact(
    State(server): State<Server>,
    who: Who,
    InPath(id): InPath<Uuid>,
) -> Result<axum::Json<ContactShown>, Problem> {
    let found = server.journal.contact(id, server.now()).await?;
    let contact = found.ok_or_else(|| Problem::not_found("not kept, or forgotten when its time was over"))?;
    server.note(&who, "read_contact", &id.to_string(), true).await?;
    Ok(axum::Json(ContactShown { name: contact.name, email: contact.email, phone: contact.phone }))
}

/// The record's word for a kind, and what makes a number one of it.
type Kind = (&'static str, fn(Uuid) -> Subject);

/// The kind of a word in a path.
fn kind(word: &str) -> Result<Kind, Problem> {
    match word {
        "holes" => Ok(("hole", Subject::Hole)),
        "repairs" => Ok(("repair", Subject::Repair)),
        "zones" => Ok(("zone", Subject::Zone)),
        "rounds" => Ok(("round", Subject::Round)),
        "resurfacings" => Ok(("resurfacing", Subject::Resurfacing)),
        _ => Err(Problem::not_found("known are holes, repairs, zones, rounds and resurfacings")),
    }
}

fn read_box(text: &str) -> Result<[f64; 4], Problem> {
    let wrong = || Problem::bad_request("bbox is west,south,east,north in degrees, south not above north");
    let numbers: Vec<f64> =
        text.split(',').map(|part| part.trim().parse()).collect::<Result<_, _>>().map_err(|_| wrong())?;
    let sides: [f64; 4] = numbers.try_into().map_err(|_| wrong())?;
    let fine = sides.iter().all(|side| side.is_finite()) && sides[1] <= sides[3];
    if fine { Ok(sides) } else { Err(wrong()) }
}
