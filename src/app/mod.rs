//! The running service: what requests share, its routes, its start and its end.

pub mod lifecycle;

use std::net::TcpListener;

use axum::{Router, http::StatusCode, routing::get};
use sqlx::PgPool;

use self::lifecycle::{SHUTDOWN_GRACE, StopSignal, serve_until_stopped};
use crate::config::BaseUrl;

/// What serving needs.
#[derive(Debug)]
pub struct Serving {
    /// Connections as the service's own role.
    pub pool: PgPool,
    /// Already bound.
    pub listener: TcpListener,
    /// The address people use.
    pub base_url: BaseUrl,
    /// When to stop.
    pub stop: StopSignal,
    /// Whether the invented practice is served, and the folder its secrets are kept in.
    pub demo: Option<std::path::PathBuf>,
}

/// Serves until stopped.
///
/// # Errors
/// When the listener fails.
pub async fn serve(serving: Serving) -> anyhow::Result<()> {
    let Serving { pool, listener, base_url, stop, .. } = serving;
    let ready = {
        let stop = stop.clone();
        move || async move {
            let reached = sqlx::query("select 1").execute(&pool).await.is_ok();
            if reached && !stop.is_stopping() { StatusCode::OK } else { StatusCode::SERVICE_UNAVAILABLE }
        }
    };
    let router = Router::new().route("/livez", get(|| async { "alive" })).route("/readyz", get(ready));
    println!("Settlebrook is at {base_url}");
    serve_until_stopped(router, listener, stop, SHUTDOWN_GRACE).await
}

/// Prints a one-time link for setting up a practice.
///
/// # Errors
/// When the database fails.
pub async fn print_setup_link(pool: &PgPool, base_url: &BaseUrl) -> anyhow::Result<()> {
    let role: String = sqlx::query_scalar("select current_user::text").fetch_one(pool).await?;
    println!("{base_url}/ as {role}");
    Ok(())
}
