//! What people are shown of the district besides the record: itself, the weather to come, its roads for a map.

use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use feeds::DEEPEST_TILES;
use model::district::{DrivingSide, UnitSystem};
use serde::Serialize;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::answer;
use crate::body::InPath;
use crate::problem::Problem;
use crate::shown::{CrewShown, YardKind};
use crate::state::Server;
use crate::weather::Weather;

/// The media type of tiles (IANA).
const TILE: &str = "application/vnd.mapbox-vector-tile";

/// Roads change when the server is started anew; until then a map need not ask for each tile again.
const KEEP_TILE: &str = "private, max-age=600";

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(district)).routes(routes!(weather)).routes(routes!(tile))
}

/// The district.
#[derive(Serialize, ToSchema)]
struct DistrictShown {
    name: String,
    language: String,
    /// `si` or `us_customary`.
    units: &'static str,
    /// `right` or `left`: the side of the road that traffic keeps to.
    driving_side: &'static str,
    /// By its IANA name.
    time_zone: String,
    /// The date there.
    today: String,
    /// By its ISO 4217 code.
    currency: String,
    /// West, south, east, north of its roads.
    bounds: Option<[f64; 4]>,
    /// Whether there is a file of the district; without one nothing can be planned.
    has_district_file: bool,
    /// What must be said wherever the roads are drawn.
    road_attribution: Option<String>,
    crews: Vec<CrewShown>,
    depots: Vec<DepotShown>,
    binders: Vec<String>,
}

/// A place where trucks load or tip.
#[derive(Serialize, ToSchema)]
struct DepotShown {
    name: String,
    position: PlaceShown,
    /// `depot`, `stockpile` or `tip`.
    #[schema(value_type = String)]
    kind: YardKind,
}

/// A place on the globe, WGS 84 degrees.
#[derive(Serialize, ToSchema)]
struct PlaceShown {
    lon: f64,
    lat: f64,
}

/// The district as its file has it.
#[utoipa::path(get, path = "/api/district", responses((status = 200, description = "It", body = DistrictShown)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn district(State(server): State<Server>, headers: HeaderMap) -> Result<Response, Problem> {
    let shown = &server.settings.shown;
    let zone = &shown.books.time_zone;
    let file = shown.file.as_ref();
    let bounds = shown.road_extent.bounds.map(|around| [around.west, around.south, around.east, around.north]);
    let depot = |yard: &crate::shown::YardShown| DepotShown {
        name: yard.name.clone(),
        position: PlaceShown { lon: yard.position.lon, lat: yard.position.lat },
        kind: yard.kind,
    };
    let district = DistrictShown {
        name: shown.name.clone(),
        language: file.map_or_else(|| "en".to_owned(), |file| file.language.clone()),
        units: match file.map(|file| file.units) {
            Some(UnitSystem::UsCustomary) => "us_customary",
            Some(UnitSystem::Si) | None => "si",
        },
        driving_side: match file.map(|file| file.driving_side) {
            Some(DrivingSide::Left) => "left",
            Some(DrivingSide::Right) | None => "right",
        },
        time_zone: zone.iana_name().unwrap_or("UTC").to_owned(),
        today: zone.to_datetime(server.now()).date().to_string(),
        currency: shown.books.currency.clone(),
        bounds,
        has_district_file: file.is_some(),
        road_attribution: shown.road_attribution.clone(),
        crews: file.map(|file| file.crews.clone()).unwrap_or_default(),
        depots: file.iter().flat_map(|file| &file.yards).map(depot).collect(),
        binders: file.map(|file| file.binders.clone()).unwrap_or_default(),
    };
    answer::json(&headers, &district)
}

/// The weather to come by the forecast in the data folder, and the hours in which it allows work.
#[utoipa::path(get, path = "/api/weather",
    responses((status = 200, description = "Day by day; none where there is no forecast", body = Weather),
        (status = 422, description = "The forecast can't be used", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn weather(State(server): State<Server>, headers: HeaderMap) -> Result<Response, Problem> {
    let planner = server.planner.clone();
    let read = tokio::task::spawn_blocking(move || planner.weather()).await.map_err(|_| Problem::ours())?;
    answer::json(&headers, &read.map_err(Problem::unusable)?)
}

/// Roads of a tile of the web Mercator square, as a Mapbox Vector Tile with the layer `roads`: `name`, `class`, `section` (as in
/// the road file), `surface`. Of small zooms, the main roads only.
#[utoipa::path(get, path = "/api/tiles/roads/{z}/{x}/{y}",
    params(("z" = u8, Path, description = "Zoom, 0 to 16"), ("x" = u32, Path, description = "Column, from the west"), ("y" = u32, Path, description = "Row, from the north")),
    responses((status = 200, description = "The tile", body = Vec<u8>, content_type = "application/vnd.mapbox-vector-tile"), (status = 204, description = "No road lies there"),
        (status = 404, description = "No such tile", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn tile(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath((zoom, column, row)): InPath<(u8, u32, u32)>,
) -> Result<Response, Problem> {
    let across = 1_u64 << zoom.min(63);
    if zoom > DEEPEST_TILES || u64::from(column) >= across || u64::from(row) >= across {
        return Err(Problem::not_found(format!(
            "tiles have zooms 0 to {DEEPEST_TILES}, and columns and rows from 0 to 2^zoom - 1"
        )));
    }
    let Some(tiles) = server.settings.shown.tiles.clone() else { return Ok(nothing_there()) };
    let made = tokio::task::spawn_blocking(move || tiles.tile(zoom, column, row)).await.map_err(|_| Problem::ours())?;
    let Some(made) = made else { return Ok(nothing_there()) };
    let mut response = answer::kept(&headers, TILE, made);
    response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static(KEEP_TILE));
    Ok(response)
}

fn nothing_there() -> Response {
    (StatusCode::NO_CONTENT, [(header::CACHE_CONTROL, KEEP_TILE)]).into_response()
}
