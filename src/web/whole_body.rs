//! Forms are read whole before anything else is done.
//!
//! A handler's first step opens a transaction; a phone with a weak signal must not hold one while its form trickles in.

use axum::body::{Body, Bytes};
use axum::extract::{FromRequest, Request};
use axum::http::Method;
use axum::middleware::Next;
use axum::response::Response;

use crate::web::error::error_page;

/// Reads the body of an unsafe request, as far as the limit on bodies allows, and only then lets the request on.
pub async fn read(request: Request, next: Next) -> Response {
    if matches!(*request.method(), Method::GET | Method::HEAD | Method::OPTIONS) {
        return next.run(request).await;
    }
    let (parts, body) = request.into_parts();
    match Bytes::from_request(Request::from_parts(parts.clone(), body), &()).await {
        Ok(whole) => next.run(Request::from_parts(parts, Body::from(whole))).await,
        Err(refused) => error_page(refused.status()),
    }
}
