//! The web app: what `cargo xtask web` built into `web/dist`, inside of the program.

use axum::http::{HeaderMap, HeaderValue, Method, Uri, header};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;

use crate::answer;
use crate::problem::Problem;

#[derive(RustEmbed)]
#[folder = "../../web/dist"]
// a program for tests, or without people before a screen
#[allow_missing = true]
struct WebFiles;

/// Whoever starts the app.
const INDEX: &str = "index.html";

/// Files with a digest of their content in their names.
const HASHED: &str = "assets/";

const BUILT_WITHOUT: &str = "<!doctype html>\n<html lang=\"en\">\n<meta charset=\"utf-8\">\n<title>lengthsman</title>\n\
    <p>This program was built without its web app. Run <code>cargo xtask web</code> and build it again.\n\
    <p>The record is served all the same: see <a href=\"/api/openapi.json\">/api/openapi.json</a>.\n</html>\n";

/// Gives a file of the app; what is none of its files is no page.
pub(crate) async fn file(method: Method, uri: Uri, headers: HeaderMap) -> Response {
    if !matches!(method, Method::GET | Method::HEAD) {
        return no_such_page();
    }
    let path = uri.path().trim_start_matches('/');
    let name = if path.is_empty() { INDEX } else { path };
    match WebFiles::get(name) {
        Some(file) => {
            let mut response = answer::kept(&headers, media_type(name), file.data.into_owned());
            let keep = if name.starts_with(HASHED) { "public, max-age=31536000, immutable" } else { "no-cache" };
            response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static(keep));
            response
        }
        None if name == INDEX => answer::kept(&headers, media_type(INDEX), BUILT_WITHOUT.into()),
        None => no_such_page(),
    }
}

fn no_such_page() -> Response {
    Problem::not_found("no such page").into_response()
}

/// By the name's ending: what a build of the app has in it.
fn media_type(name: &str) -> &'static str {
    match name.rsplit_once('.').map_or("", |(_, ending)| ending) {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "webp" => "image/webp",
        "ico" => "image/x-icon",
        "json" | "map" => "application/json",
        "webmanifest" => "application/manifest+json",
        "woff2" => "font/woff2",
        "wasm" => "application/wasm",
        "pbf" => "application/x-protobuf",
        "txt" | "ftl" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
