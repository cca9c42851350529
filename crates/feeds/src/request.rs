//! Which document a client asks for.

use crate::collection::Collection;
use crate::crs::Crs;
use crate::query::{FeatureQuery, read_crs, read_nothing};
use crate::refusal::Refusal;

/// What a client asks for, read and checked.
#[derive(Debug, Clone, PartialEq)]
pub enum Request {
    /// [`crate::Service::landing_page`].
    LandingPage,
    /// [`crate::Service::api_definition`].
    ApiDefinition,
    /// [`crate::Service::conformance`].
    Conformance,
    /// [`crate::Service::collections`].
    Collections,
    /// [`crate::Service::collection`].
    Collection(Collection),
    /// [`crate::Service::items`].
    Items(Collection, FeatureQuery),
    /// [`crate::Service::item`].
    Item {
        /// The collection.
        collection: Collection,
        /// Number of the feature, as it stands in the path with its percent signs read.
        id: String,
        /// The system that coordinates are wanted in.
        crs: Crs,
    },
}

/// Reads what a client asks for: the path below the service's root, still with its percent signs, and what is behind the `?`.
///
/// # Errors
/// [`Refusal::NotFound`] when there is nothing under the path, [`Refusal::BadParameters`] when a parameter is not known there or
/// can't be used.
pub fn read_request(path: &str, query: &str, offered: &[Crs]) -> Result<Request, Refusal> {
    let missing = || Refusal::NotFound(format!("page {path:?} in this service"));
    let below = path.strip_prefix('/').unwrap_or(path);
    let mut parts = below.strip_suffix('/').unwrap_or(below).split('/');
    let parts = [parts.next(), parts.next(), parts.next(), parts.next(), parts.next()];
    let nothing_more = |request: Request| read_nothing(query).map(|()| request);
    let named = |id: &str| Collection::of_id(id).ok_or_else(|| Refusal::NotFound(format!("collection {id:?}")));
    match parts {
        [Some(""), None, ..] => nothing_more(Request::LandingPage),
        [Some("api"), None, ..] => nothing_more(Request::ApiDefinition),
        [Some("conformance"), None, ..] => nothing_more(Request::Conformance),
        [Some("collections"), None, ..] => nothing_more(Request::Collections),
        [Some("collections"), Some(id), None, ..] => nothing_more(Request::Collection(named(id)?)),
        [Some("collections"), Some(id), Some("items"), None, _] => {
            let collection = named(id)?;
            FeatureQuery::read(collection, query, offered).map(|query| Request::Items(collection, query))
        }
        [Some("collections"), Some(id), Some("items"), Some(feature), None] => {
            let (collection, id) = (named(id)?, percent_read(feature).ok_or_else(missing)?);
            read_crs(query, offered).map(|crs| Request::Item { collection, id, crs })
        }
        _ => Err(missing()),
    }
}

/// A part of a path with `%2F` and the like read; `None` where that is no text. In paths a `+` is a plus sign.
fn percent_read(part: &str) -> Option<String> {
    let form = part.replace('+', "%2B").replace('&', "%26").replace('=', "%3D");
    let (read, _) = form_urlencoded::parse(form.as_bytes()).next()?;
    (!read.contains('\u{FFFD}')).then(|| read.into_owned())
}
