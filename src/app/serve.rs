//! Serving: the demo's practice if it is wanted, a set-up link if none was ever used, then requests until told to stop.

use std::net::TcpListener;
use std::path::PathBuf;

use sqlx::PgPool;
use time::Duration;

use super::lifecycle::{SHUTDOWN_GRACE, StopSignal, serve_until_stopped};
use super::{App, router};
use crate::actions::offer_set_up::{needs_set_up, offer_set_up};
use crate::clock::{Clock, Ids};
use crate::config::BaseUrl;
use crate::demo;
use crate::store::Db;

/// How long a printed set-up link works.
const LINK_WORKS: Duration = Duration::days(2);

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
    /// Whether the invented practice is served, and the folder its passwords are kept in.
    pub demo: Option<PathBuf>,
}

/// Serves until stopped.
///
/// # Errors
/// When the database or the listener fails.
pub async fn serve(serving: Serving) -> anyhow::Result<()> {
    let Serving { pool, listener, base_url, stop, demo: demo_folder } = serving;
    let app = App::new(Db::new(pool), &base_url.to_string(), Clock::System, Ids::Random);
    match demo_folder {
        Some(folder) => demo::open(&app, &folder).await?,
        None if needs_set_up(&app.db).await? => {
            println!("Set up your practice here, once: {}", set_up_link(&app).await?)
        }
        None => {}
    }
    println!("Settlebrook is at {base_url}");
    let stopping = app.clone();
    let told = stop.clone();
    tokio::spawn(async move {
        told.stopping().await;
        stopping.stop();
    });
    serve_until_stopped(router(app), listener, stop, SHUTDOWN_GRACE).await
}

/// Prints a one-time link for setting up a practice.
///
/// # Errors
/// When the database fails.
pub async fn print_setup_link(pool: &PgPool, base_url: &BaseUrl) -> anyhow::Result<()> {
    let app = App::new(Db::new(pool.clone()), &base_url.to_string(), Clock::System, Ids::Random);
    println!("{}", set_up_link(&app).await?);
    Ok(())
}

async fn set_up_link(app: &App) -> anyhow::Result<String> {
    let token = offer_set_up(&app.db, LINK_WORKS, &app.moment()).await?;
    Ok(format!("{}/set-up/{}", app.base_url, token.text()))
}
