//! A PostgreSQL of our own, for whoever has not set one up: made, started and stopped with the program, safe to keep
//! real data in (writes are flushed, pages carry checksums), and reachable through a socket that only its user can
//! enter.

mod account;
mod choose;
mod command;
mod fetch;
mod find;
mod folder;
mod init;
mod orphan;
mod socket;

use std::{
    fs::File,
    path::{Path, PathBuf},
    process::{Child, Stdio},
    thread,
    time::{Duration, Instant},
};

use anyhow::{Context, bail};
use sqlx::postgres::{PgConnectOptions, PgSslMode};

use self::{
    account::Account,
    command::Runner,
    find::Programs,
    folder::Folder,
    init::{Existing, SUPERUSER},
};
use crate::{
    config::{PrivateDatabase, Purpose},
    refusal::Refusal,
};

/// How long a start may take; recovering after a power cut reads the whole log of changes.
const START_LIMIT: Duration = Duration::from_secs(120);

/// Only names the socket: the server listens to no network.
const PORT: u16 = 5432;

/// A running private database; stopped when it is dropped, unless another instance runs it.
#[derive(Debug)]
pub struct PrivateCluster {
    socket: PathBuf,
    server: Option<Server>,
}

#[derive(Debug)]
struct Server {
    child: Child,
    data: PathBuf,
    programs: Programs,
    runner: Runner,
    /// Given back last, when the server is gone.
    _lock: File,
}

impl PrivateCluster {
    /// Starts the database, making it first if there is none. Blocks for about half a second the first time (longer if
    /// programs are fetched) and a twentieth later.
    ///
    /// Call it from the main thread: on Linux the server is told to stop when the *thread* that started it ends.
    ///
    /// # Errors
    /// A [`Refusal`] when the folder, the programs or the user is not fit for it or another instance runs it; other
    /// errors when PostgreSQL itself fails.
    pub fn start(settings: &PrivateDatabase) -> anyhow::Result<Self> {
        let folder = Folder::prepare(settings)?;
        let socket = socket::place(&folder.cluster(), &settings.process);
        let Some(lock) = folder.claim()? else {
            return Self::join(settings, &folder, socket);
        };
        let account = Account::choose(&settings.process, &folder.data(), &folder.root)?;
        let runner = Runner { account, search_path: settings.process.search_path.clone() };
        choose::refuse_unreachable(&folder, &runner)?;
        let reset = settings.purpose == (Purpose::Demo { reset: true });
        // A demo that is to be made afresh may be of a version that is not installed any more.
        let existing = if reset { Existing::Nothing } else { init::existing(&folder)? };
        let programs = choose::programs(settings, &folder, existing, &runner)?;
        orphan::reap(&folder.data(), &programs, &runner)?;
        if reset {
            folder.empty_demo()?;
        }
        for private in [&folder.cluster(), &socket] {
            socket::make_private(private, runner.account.as_ref(), &settings.process)?;
        }
        if existing == Existing::Nothing {
            init::init(&folder, &programs, &runner)?;
        }
        let child = spawn(&folder, &socket, &programs, &runner)?;
        let data = folder.data();
        let mut server = Server { child, data, programs, runner, _lock: lock };
        server.wait_until_ready(&folder)?;
        Ok(Self { socket, server: Some(server) })
    }

    /// Uses the database that another instance runs.
    fn join(settings: &PrivateDatabase, folder: &Folder, socket: PathBuf) -> anyhow::Result<Self> {
        let shown = folder.root.display();
        if !settings.join {
            return Err(Refusal::new(format!(
                "Settlebrook is already running with the data in “{shown}”: stop that one, or choose another --data-dir."
            ))
            .into());
        }
        if !orphan::says_ready(&folder.data()) {
            return Err(Refusal::new(format!(
                "The Settlebrook running with the data in “{shown}” is starting or stopping: try again in a moment."
            ))
            .into());
        }
        Ok(Self { socket, server: None })
    }

    /// Whether another instance runs the server, and has prepared what is in it.
    pub fn is_joined(&self) -> bool {
        self.server.is_none()
    }

    /// How to connect as `role` to `database`.
    pub fn options(&self, role: &str, database: &str) -> PgConnectOptions {
        PgConnectOptions::new_without_pgpass()
            .socket(&self.socket)
            .port(PORT)
            .ssl_mode(PgSslMode::Disable)
            .username(role)
            .database(database)
    }

    /// How to connect as the database's superuser, to make roles and nothing else.
    pub(super) fn superuser_options(&self, database: &str) -> PgConnectOptions {
        self.options(SUPERUSER, database)
    }

    /// Stops the server and waits until it has written everything down.
    ///
    /// # Errors
    /// When it does not stop within a minute.
    pub fn stop(mut self) -> anyhow::Result<()> {
        self.server.take().map_or(Ok(()), |mut server| server.stop())
    }
}

impl Server {
    fn wait_until_ready(&mut self, folder: &Folder) -> anyhow::Result<()> {
        let begun = Instant::now();
        while !orphan::says_ready(&self.data) {
            if let Some(status) = self.child.try_wait().context("watching the database start")? {
                bail!("the database stopped while starting ({status}); see {}", folder.log().display());
            }
            if begun.elapsed() > START_LIMIT {
                bail!("the database is not ready after {START_LIMIT:?}; see {}", folder.log().display());
            }
            thread::sleep(Duration::from_millis(10));
        }
        Ok(())
    }

    fn stop(&mut self) -> anyhow::Result<()> {
        if self.child.try_wait().context("looking at the database")?.is_some() {
            return Ok(());
        }
        orphan::stop(&self.data, &self.programs, &self.runner)?;
        self.child.wait().context("waiting for the database to stop")?;
        Ok(())
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        if let Err(error) = self.stop() {
            tracing::error!("the private database was left running: {error:#}");
        }
    }
}

fn spawn(folder: &Folder, socket: &Path, programs: &Programs, runner: &Runner) -> anyhow::Result<Child> {
    let log = folder.open_log()?;
    let mut postgres = runner.tied(&programs.folder.join("postgres"));
    postgres.arg("-D").arg(folder.data()).arg("-k").arg(socket).args(["-p", &PORT.to_string()]);
    for setting in [
        "listen_addresses=",
        "unix_socket_permissions=0700",
        "max_connections=60",
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
