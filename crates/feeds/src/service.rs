//! The documents of OGC API - Features.

mod api;

use jiff::Timestamp;
use model::place::LonLat;
use serde_json::{Value, json};

use crate::collection::Collection;
use crate::crs::Crs;
use crate::document::Document;
use crate::feature::{Extent, Feature, Geometry, Page, utc};
use crate::query::{FeatureQuery, Interval};
use crate::refusal::Refusal;

const JSON: &str = "application/json";
const GEO_JSON: &str = "application/geo+json";
const OPEN_API: &str = "application/vnd.oai.openapi+json;version=3.0";
const GEO_PACKAGE: &str = "application/geopackage+sqlite3";
/// The calendar of the temporal extent, by its name on the web.
const GREGORIAN: &str = "http://www.opengis.net/def/uom/ISO-8601/0/Gregorian";

/// What the documents conform to.
const CONFORMS_TO: [&str; 4] = [
    "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/core",
    "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/oas30",
    "http://www.opengis.net/spec/ogcapi-features-1/1.0/conf/geojson",
    "http://www.opengis.net/spec/ogcapi-features-2/1.0/conf/crs",
];

/// The service that the documents belong to.
#[derive(Debug, Clone, PartialEq)]
pub struct Service {
    /// Address of the landing page as clients reach it, without a slash at its end: `https://roads.example/ogc`.
    pub root: String,
    /// Name of the service: the district's.
    pub title: String,
    /// What it is, in a sentence.
    pub about: String,
    /// The systems that coordinates are offered in, see [`Crs::offered`].
    pub crs: Vec<Crs>,
    /// Address of the `OpenAPI` 3.0 document, where it is not the service's own ([`Service::api_definition`], at `api`).
    pub api: Option<String>,
    /// Address of a GeoPackage with all collections, where there is one.
    pub geopackage: Option<String>,
    /// What the licence of the road file asks to be said.
    pub road_attribution: Option<String>,
}

impl Service {
    /// The first page.
    pub fn landing_page(&self) -> Document {
        let api = self.api.clone().unwrap_or_else(|| self.at("api"));
        plain(json!({
            "title": self.title,
            "description": self.about,
            "links": [
                link(&self.root, "self", JSON, "This document"),
                link(&api, "service-desc", OPEN_API, "What can be asked for"),
                link(&self.at("conformance"), "conformance", JSON, "What this service conforms to"),
                link(&self.at("collections"), "data", JSON, "The collections"),
            ],
        }))
    }

    /// What the service conforms to.
    pub fn conformance(&self) -> Document {
        plain(json!({"conformsTo": CONFORMS_TO}))
    }

    /// The `OpenAPI` 3.0 document of the service.
    pub fn api_definition(&self) -> Document {
        Document { media_type: OPEN_API, ..plain(api::definition(self)) }
    }

    /// All collections, each with where and when its features are.
    pub fn collections(&self, extent: impl Fn(Collection) -> Extent) -> Document {
        let collections: Vec<Value> = Collection::ALL.map(|each| self.described(each, &extent(each))).to_vec();
        let mut links = vec![link(&self.at("collections"), "self", JSON, "This document")];
        links.extend(
            self.geopackage.as_ref().map(|file| link(file, "enclosure", GEO_PACKAGE, "All collections in one file")),
        );
        plain(json!({"links": links, "collections": collections}))
    }

    /// One collection, with where and when its features are.
    pub fn collection(&self, collection: Collection, extent: &Extent) -> Document {
        plain(self.described(collection, extent))
    }

    /// A page of a collection's features. `now` is when it is sent.
    pub fn items(&self, collection: Collection, query: &FeatureQuery, page: &Page, now: Timestamp) -> Document {
        let items = self.at(&format!("collections/{}/items", collection.id()));
        let at = |cursor: Option<&str>| address(&items, &query.given, cursor.filter(|cursor| !cursor.is_empty()));
        let mut links = vec![
            link(&at(query.cursor.as_deref()), "self", GEO_JSON, "This document"),
            link(&self.at(&format!("collections/{}", collection.id())), "collection", JSON, collection.title()),
        ];
        links.extend(page.next.as_deref().map(|next| link(&at(Some(next)), "next", GEO_JSON, "The next page")));
        links.extend(page.previous.as_deref().map(|last| link(&at(Some(last)), "prev", GEO_JSON, "The page before")));
        let features: Vec<Value> = page.features.iter().map(|feature| geo_json(feature, query.crs)).collect();
        let mut body = json!({
            "type": "FeatureCollection",
            "features": features,
            "links": links,
            "timeStamp": utc(now),
            "numberReturned": page.features.len(),
        });
        if let Some(matched) = page.matched {
            body["numberMatched"] = matched.into();
        }
        if let Some(attribution) = self.attribution(collection) {
            body["attribution"] = attribution.into();
        }
        with_coordinates(body, query.crs)
    }

    /// One feature.
    ///
    /// # Errors
    /// [`Refusal::NotFound`] when there is none.
    pub fn item(
        &self,
        collection: Collection,
        id: &str,
        crs: Crs,
        found: Option<&Feature>,
    ) -> Result<Document, Refusal> {
        let feature = found
            .ok_or_else(|| Refusal::NotFound(format!("feature {id:?} in the collection {:?}", collection.id())))?;
        let own = self.at(&format!("collections/{}", collection.id()));
        let given: Vec<(String, String)> =
            (crs != Crs::Crs84).then(|| ("crs".to_owned(), crs.uri())).into_iter().collect();
        let name: String = form_urlencoded::byte_serialize(feature.id.as_bytes()).collect();
        let mut body = geo_json(feature, crs);
        body["links"] = json!([
            link(
                &address(&format!("{own}/items/{}", name.replace('+', "%20")), &given, None),
                "self",
                GEO_JSON,
                "This document"
            ),
            link(&own, "collection", JSON, collection.title()),
        ]);
        Ok(with_coordinates(body, crs))
    }

    fn described(&self, collection: Collection, extent: &Extent) -> Value {
        let own = self.at(&format!("collections/{}", collection.id()));
        let crs: Vec<String> = self.crs.iter().map(|crs| crs.uri()).collect();
        let mut links = vec![
            link(&own, "self", JSON, "This document"),
            link(&format!("{own}/items"), "items", GEO_JSON, collection.title()),
        ];
        links.extend(
            self.geopackage.as_ref().map(|file| link(file, "enclosure", GEO_PACKAGE, "All collections in one file")),
        );
        let mut described = json!({
            "id": collection.id(),
            "title": collection.title(),
            "description": collection.about(),
            "itemType": "feature",
            "crs": crs,
            "storageCrs": Crs::Crs84.uri(),
            "links": links,
        });
        let mut whole = json!({});
        if let Some(bounds) = extent.bounds {
            let bounds = [bounds.west, bounds.south, bounds.east, bounds.north];
            whole["spatial"] = json!({"bbox": [bounds], "crs": Crs::Crs84.uri()});
        }
        if let Some(Interval { from, to }) = extent.time.filter(|_| collection.has_time()) {
            whole["temporal"] = json!({"interval": [[from.map(utc), to.map(utc)]], "trs": GREGORIAN});
        }
        if whole.as_object().is_some_and(|whole| !whole.is_empty()) {
            described["extent"] = whole;
        }
        if let Some(attribution) = self.attribution(collection) {
            described["attribution"] = attribution.into();
        }
        described
    }

    fn attribution(&self, collection: Collection) -> Option<&str> {
        self.road_attribution.as_deref().filter(|_| collection == Collection::Roads)
    }

    fn at(&self, path: &str) -> String {
        format!("{}/{path}", self.root.trim_end_matches('/'))
    }
}

/// A feature as GeoJSON, its coordinates in a system's own order of axes (OGC 18-058, 6.3).
pub(crate) fn geo_json(feature: &Feature, crs: Crs) -> Value {
    json!({
        "type": "Feature",
        "id": feature.id,
        "geometry": feature.geometry.as_ref().and_then(|geometry| coordinates(geometry, crs)),
        "properties": feature.properties,
    })
}

/// `None` where a place has no image in the system: no geometry rather than half of it.
fn coordinates(geometry: &Geometry, crs: Crs) -> Option<Value> {
    let all = |places: &[LonLat]| places.iter().map(|place| crs.coordinates(*place)).collect::<Option<Vec<_>>>();
    Some(match geometry {
        Geometry::Point(place) => json!({"type": "Point", "coordinates": crs.coordinates(*place)?}),
        Geometry::Line(places) => json!({"type": "LineString", "coordinates": all(places)?}),
    })
}

fn plain(body: Value) -> Document {
    Document { media_type: JSON, content_crs: None, body }
}

fn with_coordinates(body: Value, crs: Crs) -> Document {
    Document { media_type: GEO_JSON, content_crs: Some(format!("<{}>", crs.uri())), body }
}

fn link(href: &str, rel: &str, media_type: &str, title: &str) -> Value {
    json!({"href": href, "rel": rel, "type": media_type, "title": title})
}

fn address(path: &str, given: &[(String, String)], cursor: Option<&str>) -> String {
    let mut query = form_urlencoded::Serializer::new(String::new());
    query.extend_pairs(given).extend_pairs(cursor.map(|cursor| ("cursor", cursor)));
    let query = query.finish();
    if query.is_empty() { path.to_owned() } else { format!("{path}?{query}") }
}
