//! What is known of the district, written for other software.
//!
//! Values in, documents out: no clock, no network, no database. Whoever serves them reads a request with [`read_request`],
//! fetches what it asks for from the record, makes [`Feature`]s of it ([`hole_feature`], [`repair_feature`], [`zone_feature`],
//! [`road_features`]) and answers with the documents of [`Service`].
//!
//! - OGC API - Features, part 1 core (OGC 17-069r4) and part 2 coordinate reference systems by reference (OGC 18-058).
//! - GeoPackage 1.3 (OGC 12-128r17): [`write_geopackage`], the one function here that writes a file.
//! - Mapbox Vector Tiles 2.1: [`RoadTiles`], the roads for a map on the screen.
//! - `WZDx` 4.2: [`open_zone_feed`], the work zones that stand on the road now.
//!
//! Nothing here says who told something, where a reporter can be reached, or what anybody wrote in words of his own.

mod collection;
mod crs;
mod document;
mod feature;
#[cfg(feature = "geopackage")]
mod geopackage;
mod known;
mod lon_lat_box;
mod open_zones;
mod query;
mod refusal;
mod request;
mod roads;
mod service;
mod tiles;

pub use collection::{Collection, Property, PropertyKind};
pub use crs::Crs;
pub use document::Document;
pub use feature::{Extent, Feature, Geometry, Page, page_of};
#[cfg(feature = "geopackage")]
pub use geopackage::{GeoPackageError, Layer, write_geopackage};
pub use known::{hole_feature, repair_feature, zone_feature};
pub use lon_lat_box::LonLatBox;
pub use open_zones::{FeedPublisher, OpenZone, open_zone_feed};
pub use query::{FeatureQuery, Filter, Interval, LIMIT_DEFAULT, LIMIT_MOST};
pub use refusal::{BadParameter, Refusal};
pub use request::{Request, read_request};
pub use roads::road_features;
pub use service::Service;
pub use tiles::{DEEPEST_TILES, RoadTiles};
