//! Accounts, as engineers give them.

use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use jiff::SignedDuration;
use journal::people::{Account, Pass, PassKind, Role};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use super::sign_in::believable_name;
use crate::access::Who;
use crate::answer;
use crate::body::{InPath, Json};
use crate::problem::Problem;
use crate::secrets::{Secret, number};
use crate::state::Server;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(all, make)).routes(routes!(change)).routes(routes!(password_link))
}

/// An account to make.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct NewAccount {
    name: String,
    /// `crew`, `planner`, `storekeeper`, `engineer` or `auditor`.
    role: String,
    /// Crew of the person, where it is one.
    #[serde(default)]
    crew: String,
}

/// What to change.
#[derive(Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
struct AccountChange {
    role: Option<String>,
    crew: Option<String>,
    /// A closed account signs in no more; what its person told stays.
    closed: Option<bool>,
}

/// An account.
#[derive(Serialize, ToSchema)]
struct AccountShown {
    account: Uuid,
    name: String,
    role: String,
    crew: String,
    closed: bool,
    /// Whether a password is set.
    ready: bool,
}

/// A link that works once.
#[derive(Serialize, ToSchema)]
struct Link {
    account: Uuid,
    /// Where the person sets a password, within a day.
    link: String,
}

impl From<Account> for AccountShown {
    fn from(account: Account) -> Self {
        AccountShown {
            account: account.id,
            ready: !account.password.is_empty(),
            name: account.name,
            role: account.role.word().to_owned(),
            crew: account.crew,
            closed: account.closed,
        }
    }
}

/// All accounts.
#[utoipa::path(get, path = "/api/accounts", responses((status = 200, description = "By name", body = Vec<AccountShown>)),
    extensions(("x-roles" = json!(["engineer", "auditor"]))))]
async fn all(State(server): State<Server>, headers: HeaderMap) -> Result<Response, Problem> {
    let accounts: Vec<AccountShown> = server.journal.accounts().await?.into_iter().map(AccountShown::from).collect();
    answer::json(&headers, &accounts)
}

/// Makes an account; the person sets a password with the link in the answer.
#[utoipa::path(post, path = "/api/accounts", request_body = NewAccount,
    responses((status = 201, description = "Made", body = Link), (status = 409, description = "The name is taken", body = Problem)),
    extensions(("x-roles" = json!(["engineer"]))))]
async fn make(
    State(server): State<Server>,
    who: Who,
    Json(new): Json<NewAccount>,
) -> Result<(StatusCode, axum::Json<Link>), Problem> {
    let account = Account {
        id: number(server.now()),
        name: believable_name(&new.name)?,
        role: role(&new.role)?,
        password: String::new(),
        crew: crew(&new.crew)?,
        closed: false,
    };
    if !server.journal.make_account(&account, server.now()).await? {
        return Err(Problem::conflict(format!("there is an account named `{}`", account.name)));
    }
    let link = server.link_for(&account).await?;
    server.note(&who, "make_account", &format!("{} as {}", account.name, account.role.word()), true).await?;
    Ok((StatusCode::CREATED, axum::Json(link)))
}

/// Changes an account.
#[utoipa::path(patch, path = "/api/accounts/{account}", params(("account" = Uuid, Path, description = "Its number")),
    request_body = AccountChange, responses((status = 200, description = "Changed", body = AccountShown)),
    extensions(("x-roles" = json!(["engineer"]))))]
async fn change(
    State(server): State<Server>,
    who: Who,
    InPath(id): InPath<Uuid>,
    Json(change): Json<AccountChange>,
) -> Result<axum::Json<AccountShown>, Problem> {
    let mut account = server.journal.account(id).await?.ok_or_else(|| Problem::not_found("no such account"))?;
    if id == who.account && (change.closed == Some(true) || change.role.is_some()) {
        return Err(Problem::conflict("nobody closes the own account or changes its role; another engineer can"));
    }
    if let Some(word) = &change.role {
        account.role = role(word)?;
    }
    if let Some(name) = &change.crew {
        account.crew = crew(name)?;
    }
    if let Some(closed) = change.closed {
        account.closed = closed;
    }
    server.journal.change_account(&account, server.now()).await?;
    let to = format!("{}: {}, {}", account.name, account.role.word(), if account.closed { "closed" } else { "open" });
    server.note(&who, "change_account", &to, true).await?;
    Ok(axum::Json(account.into()))
}

/// Gives a link with which the person sets a new password.
#[utoipa::path(post, path = "/api/accounts/{account}/password-link", params(("account" = Uuid, Path, description = "Its number")),
    responses((status = 201, description = "Given", body = Link)), extensions(("x-roles" = json!(["engineer"]))))]
async fn password_link(
    State(server): State<Server>,
    who: Who,
    InPath(id): InPath<Uuid>,
) -> Result<(StatusCode, axum::Json<Link>), Problem> {
    let account = server.journal.account(id).await?.ok_or_else(|| Problem::not_found("no such account"))?;
    let link = server.link_for(&account).await?;
    server.note(&who, "password_link", &account.name, true).await?;
    Ok((StatusCode::CREATED, axum::Json(link)))
}

fn role(word: &str) -> Result<Role, Problem> {
    Role::of_word(word).ok_or_else(|| {
        let words: Vec<&str> = Role::ALL.iter().map(|role| role.word()).collect();
        Problem::unusable(format!("a role is one of {}", words.join(", ")))
    })
}

fn crew(name: &str) -> Result<String, Problem> {
    if name.is_empty() { Ok(String::new()) } else { believable_name(name) }
}

impl Server {
    async fn link_for(&self, account: &Account) -> Result<Link, Problem> {
        let now = self.now();
        let secret = Secret::new();
        let ends_at = now.checked_add(SignedDuration::from_hours(24)).unwrap_or(now);
        let pass = Pass { kind: PassKind::Password, account: Some(account.id), name: String::new(), ends_at };
        self.journal.give_pass(&secret.digest(), &pass, now).await?;
        Ok(Link { account: account.id, link: format!("{}/#password={}", self.settings.address, secret.text()) })
    }
}
