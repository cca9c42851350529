//! Photos, by the SHA-256 of their files, sent in pieces that can be taken up where they broke off.
//!
//! `PUT /api/photos/{sha256}` with `Content-Range: bytes 0-65535/200000`; `HEAD` says in `Upload-Offset` how much has come. The
//! last piece is acknowledged once the whole has the digest that it is named by. A photo is shown without what its camera wrote
//! into it; where it was taken is read before that and written into the record ([`PhotoFile`]), for those who are signed in.

use axum::body::Bytes;
use axum::extract::{DefaultBodyLimit, State};
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use journal::chain::Digest;
use journal::photos::PhotoFile;
use serde::Serialize;
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::answer;
use crate::body::InPath;
use crate::photos::{self, PhotoFault, Piece};
use crate::problem::Problem;
use crate::state::Server;

/// Bytes of a piece.
const MOST_BYTES: usize = 4 * 1024 * 1024;

pub(super) fn routes() -> OpenApiRouter<Server> {
    OpenApiRouter::new().routes(routes!(send, show, received)).layer(DefaultBodyLimit::max(MOST_BYTES))
}

/// How much of a photo has come.
#[derive(Serialize, ToSchema)]
struct Received {
    /// Bytes from the beginning.
    bytes: u64,
    /// Whether that is all of it.
    complete: bool,
}

/// Takes a piece of a photo.
#[utoipa::path(put, path = "/api/photos/{sha256}",
    params(("sha256" = String, Path, description = "SHA-256 of the whole file, 64 hexadecimal digits")),
    request_body(content = Vec<u8>, content_type = "image/jpeg"),
    responses((status = 200, description = "How much has come", body = Received), (status = 409, description = "Go on from `Upload-Offset`", body = Problem)),
    extensions(("x-roles" = json!(["crew", "planner", "storekeeper", "engineer"]))))]
async fn send(
    State(server): State<Server>,
    InPath(digest): InPath<String>,
    headers: HeaderMap,
    bytes: Bytes,
) -> Result<Response, Problem> {
    let media_type = headers.get(header::CONTENT_TYPE).and_then(|value| value.to_str().ok()).unwrap_or_default();
    if !matches!(media_type, "image/jpeg" | "image/png" | "image/webp") {
        return Err(Problem::wrong_type("photos are image/jpeg, image/png or image/webp"));
    }
    let range = headers.get(header::CONTENT_RANGE).and_then(|value| value.to_str().ok());
    let piece = match range {
        Some(text) => Piece::of_content_range(text, bytes.len()).ok_or_else(|| {
            Problem::bad_request("Content-Range is `bytes FIRST-LAST/WHOLE` and as long as what is sent")
        })?,
        None => Piece { first: 0, whole: bytes.len() as u64 },
    };
    let folder = server.settings.photos.clone();
    let name = digest.clone();
    let most_bytes = server.settings.uploads.photo_bytes;
    let put = tokio::task::spawn_blocking(move || {
        let put = photos::put(&folder, &name, piece, &bytes, most_bytes);
        let place = matches!(put, Ok((_, true))).then(|| photos::place_of(&folder, &name)).flatten();
        put.map(|(bytes, complete)| (bytes, complete, place))
    });
    match put.await.map_err(|_| Problem::ours())? {
        Ok((bytes, complete, place)) => {
            if let Some(digest) = photos::digest_of_name(&digest).filter(|_| complete) {
                let (media_type, finished_at) = (media_type.to_owned(), server.now());
                server.journal.keep_photo(&PhotoFile { digest, media_type, bytes, place, finished_at }).await?;
            }
            let mut response = axum::Json(Received { bytes, complete }).into_response();
            response.headers_mut().insert("upload-offset", HeaderValue::from(bytes));
            Ok(response)
        }
        Err(fault) => {
            let offset = match &fault {
                PhotoFault::GoOnFrom(bytes) => Some(*bytes),
                _ => None,
            };
            let mut response = problem_of(fault).into_response();
            if let Some(offset) = offset {
                response.headers_mut().insert("upload-offset", HeaderValue::from(offset));
            }
            Ok(response)
        }
    }
}

/// A photo, without what its camera wrote into it.
#[utoipa::path(get, path = "/api/photos/{sha256}",
    params(("sha256" = String, Path, description = "SHA-256 of the whole file, 64 hexadecimal digits")),
    responses((status = 200, description = "The photo", content_type = "image/jpeg", body = Vec<u8>), (status = 404, description = "None", body = Problem)),
    extensions(("x-roles" = json!(["anyone"]))))]
async fn show(
    State(server): State<Server>,
    headers: HeaderMap,
    InPath(digest): InPath<String>,
) -> Result<Response, Problem> {
    let folder = server.settings.photos.clone();
    let name = digest.clone();
    let read = tokio::task::spawn_blocking(move || photos::read_for_publication(&folder, &name))
        .await
        .map_err(|_| Problem::ours())?;
    if read == Err(PhotoFault::NotThere)
        && let Some(digest) = photos::digest_of_name(&digest)
        && !server.journal.photos(&[digest]).await?.is_empty()
    {
        return Err(Problem::not_found(
            "the record knows this photo, but its file is not in this server's folder; servers on one record share the folder",
        ));
    }
    let (media_type, bytes) = read.map_err(problem_of)?;
    Ok(answer::kept(&headers, media_type, bytes))
}

/// How much of a photo has come.
#[utoipa::path(head, path = "/api/photos/{sha256}",
    params(("sha256" = String, Path, description = "SHA-256 of the whole file, 64 hexadecimal digits")),
    responses((status = 204, description = "`Upload-Offset` says it")),
    extensions(("x-roles" = json!(["crew", "planner", "storekeeper", "engineer"]))))]
async fn received(State(server): State<Server>, InPath(digest): InPath<String>) -> Result<Response, Problem> {
    let folder = server.settings.photos.clone();
    let name = digest.clone();
    let (bytes, complete) = tokio::task::spawn_blocking(move || photos::received(&folder, &name))
        .await
        .map_err(|_| Problem::ours())?
        .map_err(problem_of)?;
    if complete && let Some(digest) = photos::digest_of_name(&digest) {
        tell_record(&server, digest, bytes).await?;
    }
    let mut response = StatusCode::NO_CONTENT.into_response();
    response.headers_mut().insert("upload-offset", HeaderValue::from(bytes));
    Ok(response)
}

/// Writes a whole file into the record that is not in it: the record could not be reached when its last piece came.
async fn tell_record(server: &Server, digest: Digest, bytes: u64) -> Result<(), Problem> {
    if !server.journal.photos(&[digest]).await?.is_empty() {
        return Ok(());
    }
    let folder = server.settings.photos.clone();
    let name = journal::chain::hexadecimal(&digest);
    let read = tokio::task::spawn_blocking(move || {
        let (media_type, _) = photos::read_for_publication(&folder, &name).ok()?;
        Some((media_type.to_owned(), photos::place_of(&folder, &name)))
    });
    // What is no picture is told when somebody wants to see it.
    let Some((media_type, place)) = read.await.map_err(|_| Problem::ours())? else { return Ok(()) };
    let finished_at = server.now();
    server.journal.keep_photo(&PhotoFile { digest, media_type, bytes, place, finished_at }).await?;
    Ok(())
}

fn problem_of(fault: PhotoFault) -> Problem {
    match fault {
        PhotoFault::NoName => {
            Problem::bad_request("a photo is named by the SHA-256 of its file: 64 hexadecimal digits")
        }
        PhotoFault::NotThere => Problem::not_found("no such photo, or not all of it has come"),
        PhotoFault::TooLarge(most) => Problem::too_large(format!("a photo has at most {most} bytes")),
        PhotoFault::GoOnFrom(bytes) => Problem::conflict(format!("{bytes} bytes have come; go on from there")),
        PhotoFault::OtherContent => {
            Problem::unusable("what came is not the file of that SHA-256; it is thrown away, begin again")
        }
        PhotoFault::NotAPicture => Problem::unusable("what came is no JPEG, PNG or WebP picture"),
        PhotoFault::Disk(what) => {
            tracing::error!(what, "a photo could not be kept");
            Problem::not_ready("the photo could not be kept; send it again later")
        }
    }
}
