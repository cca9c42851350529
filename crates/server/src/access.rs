//! Who is asking, and whether they may.
//!
//! Every request passes through here. What a route's entry in the `OpenAPI` document says under `x-roles` is what counts: roles by
//! name, `anyone` for the signed-in, `public` for everybody. Nothing said: nobody.

use std::collections::HashMap;
use std::net::SocketAddr;
use std::sync::Arc;

use axum::extract::{ConnectInfo, FromRequestParts, MatchedPath, Request, State};
use axum::http::request::Parts;
use axum::http::{HeaderMap, HeaderValue, Method, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use axum_extra::extract::CookieJar;
use journal::people::{PassKind, Role, digest_of_secret};
use uuid::Uuid;

use crate::problem::Problem;
use crate::state::Server;

/// Name of the cookie of a session. The prefix makes browsers refuse it from other hosts and over open connections.
pub const COOKIE: &str = "__Host-lengthsman-session";

/// Name of the cookie where connections are open, in tests.
pub const OPEN_COOKIE: &str = "lengthsman-session";

/// Header that scripts of our own pages send. No form of another site can.
pub const OWN_SCRIPT: &str = "x-lengthsman";

/// Somebody who is signed in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Who {
    /// Number of the account.
    pub account: Uuid,
    /// Its name.
    pub name: String,
    /// What the person may do.
    pub role: Role,
    /// Crew of the person.
    pub crew: String,
    /// The device's name, or `browser`.
    pub device: String,
    /// The secret's digest, to end it.
    pub pass: journal::chain::Digest,
}

/// Who may use a route.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Allowed {
    Everybody,
    SignedIn,
    Roles(Vec<Role>),
}

/// Who may use which route.
pub(crate) type Table = HashMap<(Method, String), Allowed>;

/// Reads the table from the document.
pub(crate) fn table(document: &serde_json::Value) -> Table {
    let mut table = Table::new();
    let paths = document["paths"].as_object().into_iter().flatten();
    for (path, operations) in paths {
        for (method, operation) in operations.as_object().into_iter().flatten() {
            let Ok(method) = Method::from_bytes(method.to_uppercase().as_bytes()) else { continue };
            let words: Vec<&str> =
                operation["x-roles"].as_array().into_iter().flatten().filter_map(|word| word.as_str()).collect();
            let allowed = match words[..] {
                ["public"] => Allowed::Everybody,
                ["anyone"] => Allowed::SignedIn,
                _ => Allowed::Roles(words.into_iter().filter_map(Role::of_word).collect()),
            };
            table.insert((method, path.clone()), allowed);
        }
    }
    table
}

/// Lets a request through or not, and puts who is asking into it.
pub(crate) async fn guard(
    State((server, table)): State<(Server, Arc<Table>)>,
    path: Option<MatchedPath>,
    mut request: Request,
    next: Next,
) -> Response {
    let address = address(&request);
    if server.requests.check_key(&address).is_err() {
        return Problem::too_often("wait a second").into_response();
    }
    let Some(path) = path else {
        return Problem::not_found("no such page").into_response();
    };
    let method = request.method().clone();
    let entry = |method: Method| table.get(&(method, path.as_str().to_owned()));
    // what can be read can be asked about, unless the document says otherwise
    let allowed = entry(method.clone()).or_else(|| (method == Method::HEAD).then(|| entry(Method::GET)).flatten());
    let Some(allowed) = allowed else {
        // a path of ours with another method answers for itself, whoever asks
        return if table.keys().any(|(_, known)| known == path.as_str()) {
            next.run(request).await
        } else {
            Problem::not_found("no such page").into_response()
        };
    };
    let who = match server.who(request.headers()).await {
        Ok(who) => who,
        Err(problem) => return problem.into_response(),
    };
    let let_in = match (allowed, &who) {
        (Allowed::Everybody, _) | (Allowed::SignedIn, Some(_)) => Ok(()),
        (Allowed::Roles(roles), Some((who, _))) if roles.contains(&who.role) => Ok(()),
        (_, None) => Err(Problem::sign_in_first()),
        (Allowed::Roles(roles), Some((who, _))) => {
            let words: Vec<&str> = roles.iter().map(|role| role.word()).collect();
            let refused = server.note(who, "refused", &format!("{method} {}", request.uri().path()), false).await;
            Err(refused.err().unwrap_or_else(|| Problem::not_yours(format!("this is for: {}", words.join(", ")))))
        }
    };
    if let Err(problem) = let_in {
        return problem.into_response();
    }
    if let Some((who, by_cookie)) = who {
        let changes = !matches!(method, Method::GET | Method::HEAD | Method::OPTIONS);
        if by_cookie && changes && !of_our_own(request.headers()) {
            return Problem::not_yours(format!("requests of browsers carry the header `{OWN_SCRIPT}: 1`"))
                .into_response();
        }
        request.extensions_mut().insert(who);
    }
    next.run(request).await
}

/// Whether a request was made by a page of this server: other sites can't set that header, nor hide where they are.
fn of_our_own(headers: &HeaderMap) -> bool {
    let site = headers.get("sec-fetch-site").map(HeaderValue::as_bytes);
    headers.contains_key(OWN_SCRIPT) && matches!(site, None | Some(b"same-origin" | b"none"))
}

/// Address that a request comes from; behind a proxy, the proxy's.
pub(crate) fn address(request: &Request) -> String {
    request
        .extensions()
        .get::<ConnectInfo<SocketAddr>>()
        .map_or_else(|| "unknown".to_owned(), |info| info.0.ip().to_string())
}

impl Server {
    /// Who sends these headers, and whether by a cookie. A token that has ended is nobody's.
    async fn who(&self, headers: &HeaderMap) -> Result<Option<(Who, bool)>, Problem> {
        let token = headers
            .get(header::AUTHORIZATION)
            .and_then(|value| value.to_str().ok())
            .and_then(|value| value.strip_prefix("Bearer "))
            .map(|token| token.trim().to_owned());
        let (secret, by_cookie) = match token {
            Some(token) => (token, false),
            None => match self.cookie(headers) {
                Some(secret) => (secret, true),
                None => return Ok(None),
            },
        };
        let digest = digest_of_secret(&secret);
        let wanted = if by_cookie { PassKind::Session } else { PassKind::Device };
        let found = self.journal.pass_with_account(&digest, self.now()).await?;
        let Some((pass, account)) = found.filter(|(pass, account)| pass.kind == wanted && !account.closed) else {
            return Ok(None);
        };
        let who = Who {
            account: account.id,
            name: account.name,
            role: account.role,
            crew: account.crew,
            device: if pass.name.is_empty() { "browser".to_owned() } else { pass.name },
            pass: digest,
        };
        Ok(Some((who, by_cookie)))
    }

    fn cookie(&self, headers: &HeaderMap) -> Option<String> {
        let name = self.cookie_name();
        CookieJar::from_headers(headers).get(name).map(|cookie| cookie.value().to_owned())
    }

    pub(crate) fn cookie_name(&self) -> &'static str {
        if self.settings.secure_cookies { COOKIE } else { OPEN_COOKIE }
    }
}

impl<S: Send + Sync> FromRequestParts<S> for Who {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, Problem> {
        parts.extensions.get::<Who>().cloned().ok_or_else(Problem::sign_in_first)
    }
}

/// Headers that every answer carries: no script of others, no frame around, no guess at types (OWASP secure headers, from
/// memory). The map draws its tiles in workers made from blobs.
pub(crate) async fn headers(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    let all = [
        (
            "content-security-policy",
            "default-src 'self'; img-src 'self' data: blob:; worker-src 'self' blob:; style-src 'self' 'unsafe-inline'; \
             object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'",
        ),
        ("x-content-type-options", "nosniff"),
        ("referrer-policy", "no-referrer"),
        ("permissions-policy", "camera=(self), geolocation=(self), microphone=()"),
        ("cross-origin-opener-policy", "same-origin"),
        ("strict-transport-security", "max-age=31536000"),
    ];
    for (name, value) in all {
        response.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    response
}
