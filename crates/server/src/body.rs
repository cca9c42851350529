//! Bodies, paths and queries read from requests; what is wrong with them is said as a problem.

use axum::extract::rejection::{JsonRejection, PathRejection, QueryRejection};
use axum::extract::{FromRequest, FromRequestParts, Path, Query, Request};
use axum::http::StatusCode;
use axum::http::request::Parts;
use serde::de::DeserializeOwned;

use crate::problem::Problem;

/// A JSON body.
pub struct Json<T>(pub T);

/// Parts of the path.
pub struct InPath<T>(pub T);

/// The query.
pub struct InQuery<T>(pub T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequest<S> for Json<T> {
    type Rejection = Problem;

    async fn from_request(request: Request, state: &S) -> Result<Self, Problem> {
        match axum::Json::<T>::from_request(request, state).await {
            Ok(axum::Json(value)) => Ok(Json(value)),
            Err(JsonRejection::MissingJsonContentType(_)) => {
                Err(Problem::wrong_type("send `Content-Type: application/json`"))
            }
            Err(rejection) if rejection.status() == StatusCode::PAYLOAD_TOO_LARGE => {
                Err(Problem::too_large("the body is longer than this place takes; send it in parts"))
            }
            Err(rejection) => Err(Problem::bad_request(rejection.body_text())),
        }
    }
}

impl<T: DeserializeOwned + Send, S: Send + Sync> FromRequestParts<S> for InPath<T> {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, Problem> {
        let read: Result<Path<T>, PathRejection> = Path::from_request_parts(parts, state).await;
        read.map(|Path(value)| InPath(value)).map_err(|rejection| Problem::bad_request(rejection.body_text()))
    }
}

impl<T: DeserializeOwned, S: Send + Sync> FromRequestParts<S> for InQuery<T> {
    type Rejection = Problem;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, Problem> {
        let read: Result<Query<T>, QueryRejection> = Query::from_request_parts(parts, state).await;
        read.map(|Query(value)| InQuery(value)).map_err(|rejection| Problem::bad_request(rejection.body_text()))
    }
}
