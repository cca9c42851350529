//! A hole marked out on the spot: bigger than planned, or measured from a photo.

use axum::extract::State;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::body::Json;
use crate::cutting::{CutAsked, CutShown};
use crate::problem::Problem;
use crate::state::Server;

/// Points of an outline: more than anybody traces by hand.
const MOST_POINTS: usize = 300;

/// Metres from the outline's origin; no hole reaches further.
const FURTHEST_M: f64 = 100.0;

/// Depths that are no hole's.
const MOST_DEPTH_MM: f64 = 3_000.0;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(cut))
}

/// Marks a hole out and works its repair out with the district's materials, plant and rules. Nothing is kept.
#[utoipa::path(post, path = "/api/cut", request_body = CutAsked,
    responses((status = 200, description = "Cut and repair", body = CutShown), (status = 422, description = "It can't be marked out", body = Problem)),
    extensions(("x-roles" = json!(["crew", "planner", "engineer"]))))]
async fn cut(State(server): State<Server>, Json(asked): Json<CutAsked>) -> Result<axum::Json<CutShown>, Problem> {
    if !(3..=MOST_POINTS).contains(&asked.outline.len()) {
        return Err(Problem::unusable(format!("an outline has 3 to {MOST_POINTS} points")));
    }
    if asked.outline.iter().flatten().any(|metres| metres.abs() > FURTHEST_M) {
        return Err(Problem::unusable(format!("an outline lies within {FURTHEST_M} m of its origin")));
    }
    if !(1.0..=MOST_DEPTH_MM).contains(&asked.depth_mm) {
        return Err(Problem::unusable(format!("depth_mm is 1 to {MOST_DEPTH_MM}")));
    }
    let planner = server.planner.clone();
    let made = tokio::task::spawn_blocking(move || planner.cut(&asked)).await.map_err(|_| Problem::ours())?;
    made.map(axum::Json).map_err(Problem::unusable)
}
