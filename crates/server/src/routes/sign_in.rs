//! Signing in and out, the first start, passwords.

use axum::extract::FromRequest as _;
use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum_extra::extract::CookieJar;
use axum_extra::extract::cookie::{Cookie, SameSite};
use journal::people::{Account, Pass, PassKind, Role, digest_of_secret};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use crate::access::{Who, address};
use crate::body::Json;
use crate::passwords;
use crate::problem::Problem;
use crate::secrets::{Secret, number};
use crate::state::Server;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new()
        .routes(routes!(set_up))
        .routes(routes!(sign_in))
        .routes(routes!(sign_out))
        .routes(routes!(me))
        .routes(routes!(set_password))
}

/// Name and password.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct Credentials {
    name: String,
    password: String,
}

/// The first account.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct FirstAccount {
    /// Of the link that the first start printed.
    token: String,
    name: String,
    password: String,
}

/// A new password.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct NewPassword {
    /// Of the link that an engineer gave.
    token: String,
    password: String,
}

/// Somebody who is signed in.
#[derive(Serialize, ToSchema)]
pub(super) struct Me {
    account: Uuid,
    name: String,
    /// `crew`, `planner`, `storekeeper`, `engineer` or `auditor`.
    role: String,
    crew: String,
    device: String,
}

/// Makes the first account, an engineer's, with the link of the first start.
#[utoipa::path(post, path = "/api/set-up", request_body = FirstAccount,
    responses((status = 201, description = "Made"), (status = 403, description = "The link doesn't work", body = Problem)),
    extensions(("x-roles" = json!(["public"]))))]
async fn set_up(State(server): State<Server>, request: Request) -> Result<StatusCode, Problem> {
    server.one_more_try(&request)?;
    let Json(first) = Json::<FirstAccount>::from_request(request, &server).await?;
    let name = believable_name(&first.name)?;
    if let Some(fault) = passwords::fault(&first.password) {
        return Err(Problem::unusable(fault));
    }
    let digest = digest_of_secret(&first.token);
    if server.journal.use_up(&digest, PassKind::SetUp, server.now()).await?.is_none() {
        server.note_of(&name, "browser", "set_up", "", false).await?;
        return Err(Problem::not_yours("the link was used or is over; start the server anew for another"));
    }
    let password = passwords::hash(first.password).await.map_err(|_| Problem::ours())?;
    let id = number(server.now());
    let account =
        Account { id, name: name.clone(), role: Role::Engineer, password, crew: String::new(), closed: false };
    if !server.journal.make_account(&account, server.now()).await? {
        return Err(Problem::conflict("there is an account of that name"));
    }
    server.note_of(&name, "browser", "set_up", "", true).await?;
    Ok(StatusCode::CREATED)
}

/// Signs in; the answer sets a cookie.
#[utoipa::path(post, path = "/api/sign-in", request_body = Credentials,
    responses((status = 200, description = "Signed in", body = Me), (status = 401, description = "Not these", body = Problem)),
    extensions(("x-roles" = json!(["public"]))))]
async fn sign_in(
    State(server): State<Server>,
    jar: CookieJar,
    request: Request,
) -> Result<(CookieJar, axum::Json<Me>), Problem> {
    server.one_more_try(&request)?;
    let Json(given) = Json::<Credentials>::from_request(request, &server).await?;
    // no account has such a name, and no database such a text
    let name = Some(given.name.as_str()).filter(|name| !name.contains('\0'));
    let account = match name {
        Some(name) => server.journal.account_named(name).await?.filter(|account| !account.closed),
        None => None,
    };
    let hash = account.as_ref().map(|account| account.password.clone()).filter(|hash| !hash.is_empty());
    let right = passwords::is_right(given.password, hash).await;
    let Some(account) = account.filter(|_| right) else {
        server.note_of(&given.name, "browser", "sign_in", "", false).await?;
        return Err(Problem::sign_in_first());
    };
    let now = server.now();
    let secret = Secret::new();
    let ends_at = now.checked_add(server.settings.session).unwrap_or(now);
    let pass = Pass { kind: PassKind::Session, account: Some(account.id), name: String::new(), ends_at };
    server.journal.give_pass(&secret.digest(), &pass, now).await?;
    server.note_of(&account.name, "browser", "sign_in", "", true).await?;
    let mut cookie = Cookie::new(server.cookie_name(), secret.text().to_owned());
    cookie.set_http_only(true);
    cookie.set_same_site(SameSite::Strict);
    cookie.set_secure(server.settings.secure_cookies);
    cookie.set_path("/");
    let me = Me {
        account: account.id,
        name: account.name,
        role: account.role.word().to_owned(),
        crew: account.crew,
        device: "browser".to_owned(),
    };
    Ok((jar.add(cookie), axum::Json(me)))
}

/// Ends the session.
#[utoipa::path(post, path = "/api/sign-out", responses((status = 204, description = "Signed out")),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn sign_out(State(server): State<Server>, who: Who, jar: CookieJar) -> Result<(CookieJar, StatusCode), Problem> {
    server.journal.end_pass(&who.pass).await?;
    server.note(&who, "sign_out", "", true).await?;
    let mut gone = Cookie::new(server.cookie_name(), "");
    gone.set_path("/");
    gone.set_secure(server.settings.secure_cookies);
    Ok((jar.remove(gone), StatusCode::NO_CONTENT))
}

/// Who is asking.
#[utoipa::path(get, path = "/api/me", responses((status = 200, description = "You", body = Me)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn me(who: Who) -> axum::Json<Me> {
    let Who { account, name, role, crew, device, .. } = who;
    axum::Json(Me { account, name, role: role.word().to_owned(), crew, device })
}

/// Sets a password with a link that works once. All sessions of the account end.
#[utoipa::path(post, path = "/api/password", request_body = NewPassword,
    responses((status = 204, description = "Set"), (status = 403, description = "The link doesn't work", body = Problem)),
    extensions(("x-roles" = json!(["public"]))))]
async fn set_password(State(server): State<Server>, request: Request) -> Result<StatusCode, Problem> {
    server.one_more_try(&request)?;
    let Json(new) = Json::<NewPassword>::from_request(request, &server).await?;
    if let Some(fault) = passwords::fault(&new.password) {
        return Err(Problem::unusable(fault));
    }
    let digest = digest_of_secret(&new.token);
    let used = server.journal.use_up(&digest, PassKind::Password, server.now()).await?;
    let account = match used.and_then(|pass| pass.account) {
        Some(id) => server.journal.account(id).await?.filter(|account| !account.closed),
        None => None,
    };
    let Some(mut account) = account else {
        return Err(Problem::not_yours("the link was used or is over; ask for another"));
    };
    account.password = passwords::hash(new.password).await.map_err(|_| Problem::ours())?;
    server.journal.end_passes_of(account.id).await?;
    server.journal.change_account(&account, server.now()).await?;
    server.note_of(&account.name, "browser", "set_password", "", true).await?;
    Ok(StatusCode::NO_CONTENT)
}

/// A name that people can read and type: letters, digits, a few signs.
pub(super) fn believable_name(name: &str) -> Result<String, Problem> {
    let name = name.trim();
    let fine = |letter: char| letter.is_alphanumeric() || matches!(letter, ' ' | '-' | '.' | '_' | '\'');
    if name.is_empty() || name.chars().count() > 60 || !name.chars().all(fine) {
        return Err(Problem::unusable("a name has 1 to 60 letters, digits, blanks and - . _ '"));
    }
    Ok(name.to_owned())
}

impl Server {
    /// Counts a try to get in from the request's address.
    pub(super) fn one_more_try(&self, request: &Request) -> Result<(), Problem> {
        self.sign_in_tries
            .check_key(&address(request))
            .map_err(|_| Problem::too_often("too many tries from this address; wait a minute"))
    }
}
