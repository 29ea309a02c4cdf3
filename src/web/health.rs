//! Whether the process lives, and whether it can serve.

use axum::extract::State;
use axum::http::StatusCode;

use crate::app::App;

/// The process answers.
pub async fn live() -> &'static str {
    "alive\n"
}

/// The database answers, and the service is not stopping.
pub async fn ready(State(app): State<App>) -> (StatusCode, &'static str) {
    if app.is_stopping() || !app.db.answers().await {
        (StatusCode::SERVICE_UNAVAILABLE, "not ready\n")
    } else {
        (StatusCode::OK, "ready\n")
    }
}
