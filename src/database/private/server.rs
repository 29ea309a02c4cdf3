//! The server of a private database: started, waited for, stopped.

use std::{
    path::{Path, PathBuf},
    process::{Child, ExitStatus, Stdio},
    thread,
    time::{Duration, Instant},
};

use anyhow::{Context, bail};

use super::{PORT, command::Runner, find::Programs, folder::Folder, orphan};

/// How often a start that takes long is told about: recovering after a power cut reads the whole log of changes, and
/// ending it would only make the next one begin again.
const STILL_STARTING: Duration = Duration::from_secs(30);

/// Where a server runs, with whose programs and as whom.
#[derive(Debug)]
pub(super) struct Place {
    pub folder: Folder,
    pub socket: PathBuf,
    pub programs: Programs,
    pub runner: Runner,
}

/// A server that was started here. On Linux it is told to stop when the *thread* that started it ends.
#[derive(Debug)]
pub(super) struct Server {
    child: Child,
    data: PathBuf,
}

impl Server {
    /// Starts the server and waits until it takes connections, however long it needs, or until it `is_told` to stop.
    ///
    /// # Errors
    /// When it stops instead, or was told to.
    pub fn start(place: &Place, is_told: impl Fn() -> bool) -> anyhow::Result<Self> {
        let data = place.folder.data();
        orphan::reap(&data, &place.programs, &place.runner)?;
        orphan::clear(&place.socket)?;
        let mut server = Self { child: spawn(place)?, data };
        let ready = server.wait_until_ready(&place.folder.log(), is_told);
        if ready.is_err()
            && let Err(error) = server.stop(place)
        {
            tracing::error!("{error:#}");
        }
        ready.map(|()| server)
    }

    fn wait_until_ready(&mut self, log: &Path, is_told: impl Fn() -> bool) -> anyhow::Result<()> {
        let mut told = Instant::now();
        while !orphan::is_ready(&self.data, self.child.id()) {
            if let Some(status) = self.ended()? {
                bail!("the database stopped while starting ({status}); see {}", log.display());
            }
            if is_told() {
                bail!("the database was told to stop while it was starting");
            }
            if told.elapsed() > STILL_STARTING {
                tracing::warn!("the database is still starting; see {}", log.display());
                told = Instant::now();
            }
            thread::sleep(Duration::from_millis(10));
        }
        Ok(())
    }

    /// How it ended, if it has.
    pub fn ended(&mut self) -> anyhow::Result<Option<ExitStatus>> {
        self.child.try_wait().context("looking at the database")
    }

    /// Stops it and waits until it has written everything down.
    ///
    /// # Errors
    /// When it does not stop within a minute.
    pub fn stop(&mut self, place: &Place) -> anyhow::Result<()> {
        if self.ended()?.is_some() {
            return Ok(());
        }
        orphan::stop(&self.data, &place.programs, &place.runner)?;
        self.child.wait().context("waiting for the database to stop")?;
        Ok(())
    }
}

fn spawn(place: &Place) -> anyhow::Result<Child> {
    let log = place.folder.open_log()?;
    let mut postgres = place.runner.tied(&place.programs.folder.join("postgres"));
    postgres.arg("-D").arg(place.folder.data()).arg("-k").arg(&place.socket).args(["-p", &PORT.to_string()]);
    for setting in [
        "listen_addresses=",
        "unix_socket_permissions=0700",
        "max_connections=60",
        // Queries are planned by what is known of the tables' size, and a new database grows fast when much is loaded.
        "autovacuum_naptime=3s",
        "log_min_messages=warning",
        "log_checkpoints=off",
        // The details of an error may quote what somebody wrote.
        "log_error_verbosity=terse",
        "timezone=UTC",
        "log_timezone=UTC",
    ] {
        postgres.args(["-c", setting]);
    }
    postgres.stdout(Stdio::null()).stderr(log).spawn().context("starting the database")
}
