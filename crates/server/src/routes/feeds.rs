//! Open feeds: OGC API - Features below `/ogc`, today's zones as a `WZDx` feed at `/wzdx`, everything as a GeoPackage.

use axum::body::Bytes;
use axum::extract::State;
use axum::http::{HeaderMap, HeaderValue, StatusCode, Uri, header};
use axum::response::{IntoResponse, Response};
use feeds::{
    Collection, Crs, Document, Extent, Feature, FeatureQuery, FeedPublisher, Interval, Layer, LonLatBox, OpenZone,
    Page, Refusal, Request, Service, hole_feature, open_zone_feed, page_of, read_request, repair_feature,
    write_geopackage, zone_feature,
};
use jiff::SignedDuration;
use journal::{Query, Row};
use model::record::happened::Subject;
use model::record::known::{Known, KnownZone};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;
use uuid::Uuid;

use crate::access::Who;
use crate::answer;
use crate::believed::ZONE_REACH_DEG;
use crate::problem::Problem;
use crate::secrets::number;
use crate::state::Server;

/// Rows read from the record at a time.
const AT_A_TIME: u32 = 1_000;

/// How long signs stand where nobody said: a shift. Common practice, no source.
const SHIFT: SignedDuration = SignedDuration::from_hours(10);

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(open_zones)).routes(routes!(geopackage))
}

/// Zones that stand now, as a feed of road events (`WZDx` 4.2).
#[utoipa::path(get, path = "/wzdx", responses((status = 200, description = "GeoJSON", content_type = "application/geo+json", body = Object)),
    extensions(("x-roles" = json!(["public"]))))]
async fn open_zones(State(server): State<Server>, headers: HeaderMap) -> Result<Response, Problem> {
    let mut query = Query::all("zone", AT_A_TIME);
    query.states = vec!["open".to_owned()];
    let zones: Vec<KnownZone> = all(&server, query)
        .await?
        .into_iter()
        .filter_map(|row| match row.known {
            Known::Zone(zone) => Some(zone),
            _ => None,
        })
        .collect();
    let now = server.now();
    let open: Vec<OpenZone<'_>> = zones
        .iter()
        .map(|zone| {
            let begun = zone.opened.as_ref().map_or(now, |opened| opened.at);
            OpenZone { zone, expected_end: begun.checked_add(SHIFT).unwrap_or(now) }
        })
        .collect();
    let district = &server.settings.shown;
    let publisher = FeedPublisher { name: district.name.clone(), road_attribution: district.road_attribution.clone() };
    let (feed, without_place) = open_zone_feed(&open, &publisher, now);
    if !without_place.is_empty() {
        tracing::warn!(zones = without_place.len(), "zones stand whose place nobody told; they are not in the feed");
    }
    let body = serde_json::to_vec(&feed).map_err(|_| Problem::ours())?;
    Ok(answer::kept(&headers, "application/geo+json", body))
}

/// Holes, repairs, zones and roads in one file (GeoPackage 1.3).
#[utoipa::path(get, path = "/api/exports/district.gpkg",
    responses((status = 200, description = "The file", content_type = "application/geopackage+sqlite3", body = Vec<u8>)),
    extensions(("x-roles" = json!(["planner", "engineer", "auditor"]))))]
async fn geopackage(State(server): State<Server>, who: Who) -> Result<Response, Problem> {
    let mut layers = Vec::new();
    for collection in [Collection::Holes, Collection::Repairs, Collection::Zones] {
        let rows = all(&server, Query::all(what(collection), AT_A_TIME)).await?;
        layers.push((collection, rows.iter().filter_map(feature).collect::<Vec<Feature>>()));
    }
    let mut layers: Vec<Layer<'_>> =
        layers.iter().map(|(collection, features)| Layer { collection: *collection, features }).collect();
    layers.push(Layer { collection: Collection::Roads, features: &server.settings.shown.roads });
    let path = std::env::temp_dir().join(format!("lengthsman-{}.gpkg", number(server.now())));
    let written = write_geopackage(&path, &layers, server.now()).await;
    let read = match written {
        Ok(()) => tokio::fs::read(&path).await.map_err(|error| error.to_string()),
        Err(error) => Err(error.to_string()),
    };
    // read or not, it is not needed any more
    let _ = tokio::fs::remove_file(&path).await;
    let bytes = read.map_err(|error| {
        tracing::error!(error, "a GeoPackage could not be written");
        Problem::not_ready("the file could not be written; try again later")
    })?;
    server.note(&who, "export", "district.gpkg", true).await?;
    let headers = [
        (header::CONTENT_TYPE, "application/geopackage+sqlite3"),
        (header::CONTENT_DISPOSITION, "attachment; filename=\"district.gpkg\""),
    ];
    Ok((headers, Bytes::from(bytes)).into_response())
}

/// Everything below `/ogc`: the standard's own paths, documents and refusals, described by its own definition at `/ogc/api`.
pub(super) async fn ogc(State(server): State<Server>, uri: Uri) -> Result<Response, Problem> {
    let district = &server.settings.shown;
    let service = Service {
        root: format!("{}/ogc", server.settings.address),
        title: district.name.clone(),
        about: "Holes, repairs, work zones and roads of a district with surface-treated roads".to_owned(),
        crs: Crs::offered(district.middle),
        api: None,
        geopackage: None,
        road_attribution: district.road_attribution.clone(),
    };
    let below = uri.path().strip_prefix("/ogc").unwrap_or_default();
    let answer = match read_request(below, uri.query().unwrap_or_default(), &service.crs) {
        Ok(request) => document(&server, &service, request).await?,
        Err(refusal) => Err(refusal),
    };
    let (status, document) = match answer {
        Ok(document) => (StatusCode::OK, document),
        Err(refusal) => (StatusCode::from_u16(refusal.status()).unwrap_or(StatusCode::BAD_REQUEST), refusal.document()),
    };
    let body = serde_json::to_vec(&document.body).map_err(|_| Problem::ours())?;
    let mut response = (status, [(header::CONTENT_TYPE, document.media_type)], body).into_response();
    if let Some(crs) = document.content_crs.and_then(|crs| HeaderValue::from_str(&crs).ok()) {
        response.headers_mut().insert("content-crs", crs);
    }
    // maps in browsers read it from pages of other sites
    response.headers_mut().insert(header::ACCESS_CONTROL_ALLOW_ORIGIN, HeaderValue::from_static("*"));
    Ok(response)
}

async fn document(server: &Server, service: &Service, request: Request) -> Result<Result<Document, Refusal>, Problem> {
    Ok(match request {
        Request::LandingPage => Ok(service.landing_page()),
        Request::ApiDefinition => Ok(service.api_definition()),
        Request::Conformance => Ok(service.conformance()),
        Request::Collections => {
            let mut extents = Vec::new();
            for collection in Collection::ALL {
                extents.push((collection, extent(server, collection).await?));
            }
            let of = |wanted: Collection| {
                extents
                    .iter()
                    .find(|(collection, _)| *collection == wanted)
                    .map_or_else(Extent::default, |found| found.1)
            };
            Ok(service.collections(of))
        }
        Request::Collection(collection) => Ok(service.collection(collection, &extent(server, collection).await?)),
        Request::Items(collection, query) => {
            let page = page(server, collection, &query).await?;
            Ok(service.items(collection, &query, &page, server.now()))
        }
        Request::Item { collection, id, crs } => {
            let found = one(server, collection, &id).await?;
            service.item(collection, &id, crs, found.as_ref())
        }
    })
}

/// The page that a query asks for. The record looks in the box; what else is asked is looked for among what it finds.
async fn page(server: &Server, collection: Collection, asked: &FeatureQuery) -> Result<Page, Problem> {
    if collection == Collection::Roads {
        return Ok(page_of(&server.settings.shown.roads, asked));
    }
    let mut query = Query::all(what(collection), AT_A_TIME);
    query.within = asked.bounds.map(|bounds| [bounds.west, bounds.south, bounds.east, bounds.north]);
    if collection == Collection::Zones {
        query.within = query.within.map(with_zones_around);
    }
    let cursor = asked.cursor.as_deref().filter(|cursor| !cursor.is_empty());
    query.after = match cursor.map(Uuid::parse_str) {
        Some(Ok(id)) => Some(subject(collection)(id)),
        // no page of ours ends there
        Some(Err(_)) => return Ok(Page::default()),
        None => None,
    };
    // of zones in a box the record knows too many
    let is_exact = collection != Collection::Zones || asked.bounds.is_none();
    query.count = asked.time.is_none() && asked.filters.is_empty() && is_exact;
    let mut features = Vec::new();
    let mut matched = None;
    loop {
        let page = server.journal.page(&query).await?;
        matched = matched.or(page.matched.and_then(|count| usize::try_from(count).ok()));
        query.count = false;
        query.after = page.rows.last().map(|row| row.subject);
        features.extend(page.rows.iter().filter_map(feature).filter(|feature| feature.answers(asked)));
        if features.len() > asked.limit || !page.more {
            break;
        }
    }
    let more = features.len() > asked.limit;
    features.truncate(asked.limit);
    let next = features.last().filter(|_| more).map(|last| last.id.clone());
    Ok(Page { features, matched, next, previous: None })
}

/// A box with all places whose zones may reach into it: the record knows of a zone where it is, not how far it reaches.
fn with_zones_around([west, south, east, north]: [f64; 4]) -> [f64; 4] {
    let (south, north) = ((south - ZONE_REACH_DEG).max(-90.0), (north + ZONE_REACH_DEG).min(90.0));
    let aside = ZONE_REACH_DEG / south.abs().max(north.abs()).to_radians().cos().max(1e-9);
    let wide = if west <= east { east - west } else { east - west + 360.0 };
    if wide + 2.0 * aside >= 360.0 {
        return [-180.0, south, 180.0, north];
    }
    let on_the_globe = |lon: f64| (lon + 180.0).rem_euclid(360.0) - 180.0;
    [on_the_globe(west - aside), south, on_the_globe(east + aside), north]
}

async fn one(server: &Server, collection: Collection, id: &str) -> Result<Option<Feature>, Problem> {
    if collection == Collection::Roads {
        return Ok(server.settings.shown.roads.iter().find(|road| road.id == id).cloned());
    }
    let Ok(id) = Uuid::parse_str(id) else { return Ok(None) };
    Ok(server.journal.known(subject(collection)(id)).await?.as_ref().and_then(feature))
}

async fn extent(server: &Server, collection: Collection) -> Result<Extent, Problem> {
    if collection == Collection::Roads {
        return Ok(server.settings.shown.road_extent);
    }
    let span = server.journal.span(what(collection)).await?;
    let bounds = span.within.map(|[west, south, east, north]| LonLatBox { west, south, east, north });
    let time = span.first_told.map(|first| Interval { from: Some(first), to: span.last_told });
    Ok(Extent { bounds, time })
}

/// All rows of a query, page by page.
async fn all(server: &Server, mut query: Query) -> Result<Vec<Row>, Problem> {
    let mut rows = Vec::new();
    loop {
        let page = server.journal.page(&query).await?;
        query.after = page.rows.last().map(|row| row.subject);
        rows.extend(page.rows);
        if !page.more {
            return Ok(rows);
        }
    }
}

fn feature(row: &Row) -> Option<Feature> {
    match &row.known {
        Known::Hole(hole) => Some(hole_feature(hole)),
        Known::Repair(repair) => {
            let mut feature = repair_feature(repair);
            feature.geometry = feature.geometry.or_else(|| {
                let place = row.place?;
                Some(feeds::Geometry::Point(model::place::LonLat { lon: place.lon, lat: place.lat }))
            });
            Some(feature)
        }
        Known::Zone(zone) => Some(zone_feature(zone)),
        Known::Round(_) | Known::Resurfacing(_) => None,
    }
}

fn what(collection: Collection) -> &'static str {
    match collection {
        Collection::Holes => "hole",
        Collection::Repairs => "repair",
        // roads are not in the record
        Collection::Zones | Collection::Roads => "zone",
    }
}

fn subject(collection: Collection) -> fn(Uuid) -> Subject {
    match collection {
        Collection::Holes => Subject::Hole,
        Collection::Repairs => Subject::Repair,
        Collection::Zones | Collection::Roads => Subject::Zone,
    }
}
