//! From the first connection to the last: listening, being told to stop, finishing what was begun.

use std::{
    future::IntoFuture,
    io::ErrorKind,
    net::{SocketAddr, TcpListener},
    process,
    time::Duration,
};

use anyhow::Context;
use axum::Router;
use tokio::{
    signal::unix::{Signal, SignalKind, signal},
    sync::watch,
    time::sleep,
};

use crate::refusal::{Refusal, reason};

/// How long requests in flight may take once the program has been told to stop.
pub const SHUTDOWN_GRACE: Duration = Duration::from_secs(10);

/// What a shell reports for a program that Ctrl-C ended; used when a second signal cuts the first one's work short.
const INTERRUPTED: i32 = 130;

/// Takes the address, before anything slow is begun.
///
/// # Errors
/// A [`Refusal`] when another program has it, or this one may not.
pub fn bind(address: SocketAddr) -> anyhow::Result<TcpListener> {
    let listener = TcpListener::bind(address).map_err(|error| match error.kind() {
        ErrorKind::AddrInUse => Refusal::new(format!(
            "Another program is listening on {address}: stop it, or choose another port with --listen."
        )),
        _ => Refusal::new(format!(
            "Cannot listen on {address} ({}): choose another with --listen.",
            reason(&error)
        )),
    })?;
    listener.set_nonblocking(true).context("preparing to listen")?;
    Ok(listener)
}

/// Whether the program has been told to stop; clones share the news.
#[derive(Debug, Clone)]
pub struct StopSignal(watch::Receiver<bool>);

impl StopSignal {
    /// Listens for SIGINT (Ctrl-C) and SIGTERM from now on. The first one is told to every clone; a second one ends
    /// the process at once. Must be called inside the runtime.
    ///
    /// # Errors
    /// When the system does not let us listen.
    pub fn listen() -> anyhow::Result<Self> {
        let mut interrupt = signal(SignalKind::interrupt()).context("listening for SIGINT")?;
        let mut terminate = signal(SignalKind::terminate()).context("listening for SIGTERM")?;
        let (tell, told) = watch::channel(false);
        tokio::spawn(async move {
            either(&mut interrupt, &mut terminate).await;
            tracing::info!("stopping: finishing requests in flight (a second signal stops at once)");
            tell.send_replace(true);
            either(&mut interrupt, &mut terminate).await;
            process::exit(INTERRUPTED);
        });
        Ok(Self(told))
    }

    /// Whether the signal has come.
    pub fn is_stopping(&self) -> bool {
        *self.0.borrow()
    }

    /// Waits until the signal comes.
    pub async fn stopping(mut self) {
        // The sender lives as long as the runtime; were it gone, stopping would be right too.
        let _ = self.0.wait_for(|stopping| *stopping).await;
    }
}

async fn either(interrupt: &mut Signal, terminate: &mut Signal) {
    tokio::select! {
        _ = interrupt.recv() => {}
        _ = terminate.recv() => {}
    }
}

/// Serves until `stop` comes, then takes no more connections, closes idle ones, and waits for requests in flight, but
/// no longer than `grace`. Handlers can ask for the visitor's address (`ConnectInfo<SocketAddr>`).
///
/// # Errors
/// When the listener fails.
pub async fn serve_until_stopped(
    router: Router,
    listener: TcpListener,
    stop: StopSignal,
    grace: Duration,
) -> anyhow::Result<()> {
    let listener = tokio::net::TcpListener::from_std(listener).context("listening")?;
    let service = router.into_make_service_with_connect_info::<SocketAddr>();
    let serving = axum::serve(listener, service).with_graceful_shutdown(stop.clone().stopping());
    tokio::select! {
        served = serving.into_future() => served.context("serving"),
        () = async { stop.stopping().await; sleep(grace).await } => {
            tracing::warn!("gave up on requests still running after {} s", grace.as_secs());
            Ok(())
        }
    }
}
