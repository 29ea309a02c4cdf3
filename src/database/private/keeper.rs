//! A thread that keeps the server running: a server that was killed, or stopped because the disk was full, is started
//! again by itself, so that the service is well again as soon as its disk is.

use std::{
    fs::File,
    sync::mpsc::{self, Receiver, RecvTimeoutError, Sender},
    thread::{self, JoinHandle},
    time::Duration,
};

use anyhow::{Context, anyhow};

use super::server::{Place, Server};

/// How often it looks whether the server still runs.
const LOOK: Duration = Duration::from_millis(200);
/// The pause before the next try, doubled after each that fails, up to the second.
const PAUSES: (Duration, Duration) = (Duration::from_millis(500), Duration::from_secs(30));

/// The thread, and the way to tell it to stop. Dropping it stops the server too.
#[derive(Debug)]
pub(super) struct Keeper {
    tell: Option<Sender<()>>,
    thread: Option<JoinHandle<anyhow::Result<()>>>,
}

impl Keeper {
    /// Starts the server in a thread that lasts as long as it shall run: on Linux a server stops with the thread that
    /// started it. Returns when it takes connections. `lock` holds the folder until the server is gone.
    ///
    /// # Errors
    /// When it does not start the first time.
    pub fn start(place: Place, lock: File) -> anyhow::Result<Self> {
        let (tell, told) = mpsc::channel();
        let (say, said) = mpsc::channel();
        let keep = move || {
            let started = Server::start(&place, || is_told(&told, Duration::ZERO));
            let (server, first) = match started {
                Ok(server) => (Some(server), Ok(())),
                Err(error) => (None, Err(error)),
            };
            // Whoever waits for it is gone only if the program is ending.
            let _ = say.send(first);
            let kept = server.map_or(Ok(()), |server| keep_running(server, &place, &told));
            if let Err(error) = &kept {
                tracing::error!("nobody looks after the private database any more: {error:#}");
            }
            drop(lock);
            kept
        };
        let thread =
            thread::Builder::new().name("database".into()).spawn(keep).context("starting a thread")?;
        let keeper = Self { tell: Some(tell), thread: Some(thread) };
        said.recv().context("starting the database")??;
        Ok(keeper)
    }

    /// Stops the server and waits until it has written everything down.
    ///
    /// # Errors
    /// When it does not stop within a minute.
    pub fn stop(mut self) -> anyhow::Result<()> {
        self.end()
    }

    fn end(&mut self) -> anyhow::Result<()> {
        drop(self.tell.take());
        let ended = self.thread.take().map_or(Ok(Ok(())), JoinHandle::join);
        ended.map_err(|_| anyhow!("the thread that keeps the database running broke"))?
    }
}

impl Drop for Keeper {
    fn drop(&mut self) {
        if let Err(error) = self.end() {
            tracing::error!("the private database was left running: {error:#}");
        }
    }
}

fn keep_running(mut server: Server, place: &Place, told: &Receiver<()>) -> anyhow::Result<()> {
    while !is_told(told, LOOK) {
        let Some(status) = server.ended()? else { continue };
        let why = reason(place);
        tracing::error!("the private database stopped ({status}); starting it again ({why})");
        let mut pause = PAUSES.0;
        server = loop {
            match Server::start(place, || is_told(told, Duration::ZERO)) {
                Ok(server) => break server,
                Err(error) => {
                    let why = reason(place);
                    tracing::error!("{error:#}; trying again in {pause:?} ({why})");
                }
            }
            if is_told(told, pause) {
                return Ok(());
            }
            pause = (pause * 2).min(PAUSES.1);
        };
        tracing::info!("the private database runs again");
    }
    server.stop(place)
}

/// Why it may have stopped, as far as one can tell from here: a full disk keeps the server from writing that down.
fn reason(place: &Place) -> String {
    if place.folder.is_full() {
        let folder = place.folder.root.display();
        return format!("the disk that holds {folder} is full: make room, and it starts by itself");
    }
    format!("see {}", place.folder.log().display())
}

/// Waits for the word to stop, and no longer than `wait`.
fn is_told(told: &Receiver<()>, wait: Duration) -> bool {
    !matches!(told.recv_timeout(wait), Err(RecvTimeoutError::Timeout))
}
