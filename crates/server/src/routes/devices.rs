//! Phones: made known with a code that is scanned once, let in by a token that they keep.

use std::collections::HashMap;

use axum::extract::{FromRequest as _, Request, State};
use axum::http::StatusCode;
use jiff::SignedDuration;
use journal::people::{Pass, PassKind, Role, digest_of_secret};
use qrcode::QrCode;
use qrcode::render::svg;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use super::sign_in::believable_name;
use crate::access::Who;
use crate::body::{InPath, Json};
use crate::problem::Problem;
use crate::secrets::Secret;
use crate::state::Server;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(offer)).routes(routes!(list, enrol)).routes(routes!(leave)).routes(routes!(end))
}

/// Whose device is to be made known.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct NewDevice {
    /// The account that the device acts for.
    account: Uuid,
}

/// A code to scan.
#[derive(Serialize, ToSchema)]
struct Offer {
    /// Where the device goes; works once, for ten minutes.
    link: String,
    /// The link as a picture to scan, SVG.
    picture: String,
}

/// A device that scanned it.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct Scanned {
    /// Of the link.
    token: String,
    /// Name of the device, for people.
    name: String,
}

/// What the device keeps.
#[derive(Serialize, ToSchema)]
struct DeviceToken {
    /// Sent as `Authorization: Bearer ...`.
    token: String,
    account: Uuid,
    name: String,
    role: String,
    crew: String,
}

/// A device that is known.
#[derive(Serialize, ToSchema)]
struct DeviceShown {
    /// Its number, to forget it by.
    device: Uuid,
    /// The account that it acts for.
    account: Uuid,
    account_name: String,
    /// Its own name.
    name: String,
    made_at: String,
    /// When it is forgotten of itself.
    ends_at: String,
    /// Whether it is the one that asks.
    is_this: bool,
}

/// Gives a code with which a device is made known once: for the own account, or by an engineer for any.
#[utoipa::path(post, path = "/api/enrolments", request_body = NewDevice,
    responses((status = 201, description = "To be scanned", body = Offer)), extensions(("x-roles" = json!(["crew", "planner", "storekeeper", "engineer"]))))]
async fn offer(
    State(server): State<Server>,
    who: Who,
    Json(new): Json<NewDevice>,
) -> Result<(StatusCode, axum::Json<Offer>), Problem> {
    if new.account != who.account && who.role != Role::Engineer {
        return Err(Problem::not_yours("a device for another person's account is made known by an engineer"));
    }
    let account = server.journal.account(new.account).await?.filter(|account| !account.closed);
    let account = account.ok_or_else(|| Problem::not_found("no such account"))?;
    let now = server.now();
    let secret = Secret::new();
    let ends_at = now.checked_add(SignedDuration::from_mins(10)).unwrap_or(now);
    let pass = Pass { kind: PassKind::Enrolment, account: Some(account.id), name: String::new(), ends_at };
    server.journal.give_pass(&secret.digest(), &pass, now).await?;
    server.note(&who, "offer_device", &account.name, true).await?;
    let link = format!("{}/#device={}", server.settings.address, secret.text());
    let picture = QrCode::new(&link)
        .map(|code| code.render::<svg::Color<'_>>().min_dimensions(240, 240).build())
        .map_err(|_| Problem::ours())?;
    Ok((StatusCode::CREATED, axum::Json(Offer { link, picture })))
}

/// Makes a device known with the code that it scanned.
#[utoipa::path(post, path = "/api/devices", request_body = Scanned,
    responses((status = 201, description = "Known", body = DeviceToken), (status = 403, description = "The code doesn't work", body = Problem)),
    extensions(("x-roles" = json!(["public"]))))]
async fn enrol(
    State(server): State<Server>,
    request: Request,
) -> Result<(StatusCode, axum::Json<DeviceToken>), Problem> {
    server.one_more_try(&request)?;
    let Json(scanned) = Json::<Scanned>::from_request(request, &server).await?;
    let name = believable_name(&scanned.name)?;
    let now = server.now();
    let used = server.journal.use_up(&digest_of_secret(&scanned.token), PassKind::Enrolment, now).await?;
    let account = match used.and_then(|pass| pass.account) {
        Some(id) => server.journal.account(id).await?.filter(|account| !account.closed),
        None => None,
    };
    let Some(account) = account else {
        server.note_of("", &name, "enrol_device", "", false).await?;
        return Err(Problem::not_yours("the code was used or is over; ask for another"));
    };
    let secret = Secret::new();
    let ends_at = now.checked_add(server.settings.device).unwrap_or(now);
    let pass = Pass { kind: PassKind::Device, account: Some(account.id), name: name.clone(), ends_at };
    server.journal.give_pass(&secret.digest(), &pass, now).await?;
    server.note_of(&account.name, &name, "enrol_device", "", true).await?;
    let token = DeviceToken {
        token: secret.text().to_owned(),
        account: account.id,
        name: account.name,
        role: account.role.word().to_owned(),
        crew: account.crew,
    };
    Ok((StatusCode::CREATED, axum::Json(token)))
}

/// Devices that are known: an engineer sees everybody's, others their own.
#[utoipa::path(get, path = "/api/devices", responses((status = 200, description = "The first made known first", body = Vec<DeviceShown>)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn list(State(server): State<Server>, who: Who) -> Result<axum::Json<Vec<DeviceShown>>, Problem> {
    let names: HashMap<Uuid, String> =
        server.journal.accounts().await?.into_iter().map(|account| (account.id, account.name)).collect();
    let devices = server.journal.devices(theirs(&who), server.now()).await?;
    let shown = devices.into_iter().map(|device| DeviceShown {
        device: device.number(),
        account: device.account,
        account_name: names.get(&device.account).cloned().unwrap_or_default(),
        is_this: device.digest == who.pass,
        name: device.name,
        made_at: device.made_at.to_string(),
        ends_at: device.ends_at.to_string(),
    });
    Ok(axum::Json(shown.collect()))
}

/// Forgets one device, such as a phone that was lost: its token works no more. An engineer may do so with any, others with their
/// own. What was told on it stays.
#[utoipa::path(delete, path = "/api/devices/{id}", params(("id" = Uuid, Path, description = "Its number, of the list")),
    responses((status = 204, description = "Forgotten"), (status = 404, description = "No such device of yours", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn end(State(server): State<Server>, who: Who, InPath(number): InPath<Uuid>) -> Result<StatusCode, Problem> {
    let devices = server.journal.devices(theirs(&who), server.now()).await?;
    let device = devices.into_iter().find(|device| device.number() == number);
    let device = device.ok_or_else(|| Problem::not_found("no such device, or it is another person's"))?;
    server.note(&who, "forget_device", &device.name, true).await?;
    server.journal.end_pass(&device.digest).await?;
    Ok(StatusCode::NO_CONTENT)
}

/// Whose devices somebody looks after: the own account's; `None`: everybody's.
fn theirs(who: &Who) -> Option<Uuid> {
    (who.role != Role::Engineer).then_some(who.account)
}

/// Forgets the device that asks.
#[utoipa::path(delete, path = "/api/devices/this", responses((status = 204, description = "Forgotten")),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn leave(State(server): State<Server>, who: Who) -> Result<StatusCode, Problem> {
    server.journal.end_pass(&who.pass).await?;
    server.note(&who, "forget_device", "", true).await?;
    Ok(StatusCode::NO_CONTENT)
}
