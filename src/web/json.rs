//! JSON, for the few requests that a script of ours sends: read like a form, answered in a few words.

use axum::body::Bytes;
use axum::extract::{FromRequest, Request};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::web::WebError;

/// An object of JSON: 415 where it is something else, 422 where it is not what was asked for.
pub struct Json<T>(pub T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequest<S> for Json<T> {
    type Rejection = WebError;

    async fn from_request(request: Request, state: &S) -> Result<Self, WebError> {
        let kind =
            request.headers().get(header::CONTENT_TYPE).and_then(|v| v.to_str().ok()).unwrap_or_default();
        if kind.split(';').next().map(str::trim) != Some("application/json") {
            return Err(WebError::Status(StatusCode::UNSUPPORTED_MEDIA_TYPE));
        }
        let body = Bytes::from_request(request, state).await.map_err(|e| WebError::Status(e.status()))?;
        // a list would be read as the fields of an object in their order
        let is_object = body.trim_ascii_start().starts_with(b"{");
        let read = is_object.then(|| serde_json::from_slice(&body).ok()).flatten();
        read.map(Self).ok_or(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY))
    }
}

/// An answer of JSON.
pub fn answer(status: StatusCode, said: &impl Serialize) -> Response {
    match serde_json::to_vec(said) {
        Ok(body) => {
            (status, [(header::CONTENT_TYPE, "application/json; charset=utf-8")], body).into_response()
        }
        Err(error) => WebError::Inside(error.into()).into_response(),
    }
}
