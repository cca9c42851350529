//! The routes, a file for each thing that they are about.

mod accounts;
pub(crate) mod books;
mod cut;
mod devices;
mod district;
mod events;
mod feeds;
mod health;
mod imports;
mod jobs;
mod known;
pub(crate) mod lasting;
mod open311;
mod photos;
mod plan_files;
mod sign_in;
mod trail;

use std::sync::Arc;
use std::time::Instant;

use axum::extract::{DefaultBodyLimit, MatchedPath, Request, State};
use axum::http::{Method, StatusCode};
use axum::middleware::{Next, from_fn, from_fn_with_state};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use axum::{Json, Router};
use serde_json::Value;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::compression::predicate::{DefaultPredicate, NotForContentType, Predicate as _};

use crate::access::{self, Allowed};
use crate::openapi;
use crate::problem::Problem;
use crate::state::Server;
use crate::web_files;

/// Bytes of a body where a route says nothing else.
const MOST_BYTES: usize = 64 * 1024;

/// Where the document is that describes the others.
const DOCUMENT: &str = "/api/openapi.json";

/// All routes, guarded, counted, each problem in the standard's form.
pub fn router(server: Server) -> Router {
    let (routes, described) = openapi::start()
        .merge(health::routes())
        .merge(sign_in::routes())
        .merge(accounts::routes())
        .merge(devices::routes())
        .merge(events::routes(server.settings.uploads))
        .merge(known::routes())
        .merge(photos::routes())
        .merge(jobs::routes())
        .merge(plan_files::routes())
        .merge(imports::routes())
        .merge(trail::routes())
        .merge(district::routes())
        .merge(cut::routes())
        .merge(feeds::routes())
        .merge(books::routes())
        .merge(lasting::routes())
        .merge(open311::routes())
        .split_for_parts();
    let document = openapi::finish(&described);
    let mut table = access::table(&document);
    // what other documents describe
    for path in [DOCUMENT, "/ogc", "/ogc/", "/ogc/{*below}"] {
        table.insert((Method::GET, path.to_owned()), Allowed::Everybody);
    }
    let table = Arc::new(table);
    let document: Arc<Value> = Arc::new(document);
    routes
        .route(DOCUMENT, get(move || async move { Json((*document).clone()) }))
        .route("/ogc", get(feeds::ogc))
        .route("/ogc/", get(feeds::ogc))
        .route("/ogc/{*below}", get(feeds::ogc))
        .method_not_allowed_fallback(|| async { Problem::no_such_method() })
        .fallback(web_files::file)
        .layer(DefaultBodyLimit::max(MOST_BYTES))
        // a path of the router is known only to what is inside of it
        .route_layer(from_fn_with_state((server.clone(), table), access::guard))
        .layer(from_fn_with_state(server.clone(), count))
        .layer(from_fn(access::headers))
        .layer(CatchPanicLayer::custom(|_| Problem::ours().into_response()))
        .layer(from_fn(open311::in_its_form))
        // asked for with `Accept-Encoding`; what is compressed by itself stays as it is
        .layer(
            CompressionLayer::new().compress_when(
                DefaultPredicate::new()
                    .and(NotForContentType::const_new("application/pdf"))
                    .and(NotForContentType::const_new("application/octet-stream")),
            ),
        )
        .with_state(server)
}

/// Counts and logs a request: route, status, time; never who, nor what.
#[allow(clippy::disallowed_methods)] // how long it took, for the log only
async fn count(State(server): State<Server>, path: Option<MatchedPath>, request: Request, next: Next) -> Response {
    let begun = Instant::now();
    let method = request.method().clone();
    let response = next.run(request).await;
    let took = begun.elapsed().as_secs_f64();
    let route = path.as_ref().map_or("none", |path| path.as_str());
    let status = response.status();
    server.metrics.requests.with_label_values(&[method.as_str(), route, status.as_str()]).observe(took);
    if status == StatusCode::INTERNAL_SERVER_ERROR {
        tracing::error!(%method, route, status = status.as_u16(), took, "request");
    } else {
        tracing::info!(%method, route, status = status.as_u16(), took, "request");
    }
    response
}
