//! No request takes for ever: one that takes too long is given up, with a page that says so.

use std::time::Duration;

use axum::extract::{Request, State};
use axum::http::StatusCode;
use axum::middleware::Next;
use axum::response::Response;

use crate::web::error::error_page;

/// Gives a request up after `limit`.
pub async fn within(State(limit): State<Duration>, request: Request, next: Next) -> Response {
    match tokio::time::timeout(limit, next.run(request)).await {
        Ok(response) => response,
        Err(_) => {
            tracing::warn!("a request took too long");
            error_page(StatusCode::REQUEST_TIMEOUT)
        }
    }
}

#[cfg(test)]
mod tests {
    use axum::Router;
    use axum::body::{Body, to_bytes};
    use axum::middleware::from_fn_with_state;
    use axum::routing::get;
    use tower::ServiceExt;

    use super::*;

    #[tokio::test]
    async fn a_request_that_takes_too_long_gets_a_page() {
        let router = Router::new()
            .route("/never", get(std::future::pending::<Response>))
            .layer(from_fn_with_state(Duration::ZERO, within));
        let request = Request::get("/never").body(Body::empty()).expect("a request");
        let Ok(response) = router.oneshot(request).await;
        assert_eq!(response.status(), StatusCode::REQUEST_TIMEOUT);
        let body = to_bytes(response.into_body(), 1 << 20).await.expect("a page");
        assert!(String::from_utf8_lossy(&body).contains("<h1>That took too long</h1>"));
    }
}
