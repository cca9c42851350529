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
    let content = WebFiles::get(name).map(|file| file.data.into_owned());
    given(name, content, &headers)
}

/// The answer with a file's content, if it is one of the app.
fn given(name: &str, content: Option<Vec<u8>>, headers: &HeaderMap) -> Response {
    let content = content.or_else(|| (name == INDEX).then(|| BUILT_WITHOUT.into()));
    let Some(content) = content else { return no_such_page() };
    let mut response = answer::kept(headers, media_type(name), content);
    let keep = if name.starts_with(HASHED) { "public, max-age=31536000, immutable" } else { "no-cache" };
    response.headers_mut().insert(header::CACHE_CONTROL, HeaderValue::from_static(keep));
    response
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hashed_files_stay_and_the_others_are_asked_for_anew() {
        let cases = [
            ("index.html", "text/html; charset=utf-8", "no-cache"),
            ("sw.js", "text/javascript; charset=utf-8", "no-cache"),
            ("manifest.webmanifest", "application/manifest+json", "no-cache"),
            ("assets/index-C0ffee.js", "text/javascript; charset=utf-8", "public, max-age=31536000, immutable"),
            ("assets/letters.woff2", "font/woff2", "public, max-age=31536000, immutable"),
        ];
        for (name, media_type, keep) in cases {
            let response = given(name, Some(vec![1, 2]), &HeaderMap::new());
            let header = |name: header::HeaderName| response.headers()[name].to_str().unwrap().to_owned();
            assert_eq!(
                (header(header::CONTENT_TYPE).as_str(), header(header::CACHE_CONTROL).as_str()),
                (media_type, keep)
            );
            let known = HeaderMap::from_iter([(header::IF_NONE_MATCH, response.headers()[header::ETAG].clone())]);
            assert_eq!(given(name, Some(vec![1, 2]), &known).status(), 304);
            assert_eq!(given(name, Some(vec![1, 3]), &known).status(), 200);
        }
        assert_eq!(given("index.html", None, &HeaderMap::new()).status(), 200, "says that it was built without");
        assert_eq!(given("sw.js", None, &HeaderMap::new()).status(), 404);
    }
}
