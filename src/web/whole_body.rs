//! Forms are read whole before anything else is done.
//!
//! A handler's first step opens a transaction; a phone with a weak signal must not hold one while its form trickles in.

use axum::body::{Body, Bytes};
use axum::extract::{DefaultBodyLimit, FromRequest, Request};
use axum::http::Method;
use axum::middleware::Next;
use axum::response::Response;

use crate::web::error::error_page;
use crate::web::practice::import;
use crate::web::{photos, sync};

/// Pages that take a whole file in a field, and the most that their form may send, in bytes. In a form every sign but
/// letters and numbers is three bytes.
const FILES: [(&str, usize); 3] =
    [("/library/import", 3 * 1024 * 1024), (import::PATH, import::FORM_BYTES), (sync::PATH, sync::BYTES)];

/// The most that may be sent to a path, where that is more than a form.
fn most(path: &str) -> Option<usize> {
    if path.starts_with("/dogs/") && path.ends_with("/photos") {
        return Some(photos::BYTES);
    }
    FILES.iter().find(|(known, _)| path == *known).map(|(_, most)| *most)
}

/// Reads the body of an unsafe request, as far as the limit on bodies allows, and only then lets the request on.
pub async fn read(mut request: Request, next: Next) -> Response {
    if matches!(*request.method(), Method::GET | Method::HEAD | Method::OPTIONS) {
        return next.run(request).await;
    }
    if let Some(most) = most(request.uri().path()) {
        DefaultBodyLimit::max(most).apply(&mut request);
    }
    let (parts, body) = request.into_parts();
    match Bytes::from_request(Request::from_parts(parts.clone(), body), &()).await {
        Ok(whole) => next.run(Request::from_parts(parts, Body::from(whole))).await,
        Err(refused) => error_page(refused.status()),
    }
}
