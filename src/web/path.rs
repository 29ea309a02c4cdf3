//! The ids in a path.

use axum::extract::{FromRequestParts, Path};
use axum::http::request::Parts;
use serde::de::DeserializeOwned;

use crate::web::WebError;

/// The ids in a path. One that cannot be an id of ours names nothing: 404, the same as an unknown one.
pub struct At<T>(pub T);

impl<S: Send + Sync, T: DeserializeOwned + Send> FromRequestParts<S> for At<T> {
    type Rejection = WebError;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, WebError> {
        Path::<T>::from_request_parts(parts, state)
            .await
            .map(|Path(ids)| Self(ids))
            .map_err(|_| WebError::NotFound)
    }
}
