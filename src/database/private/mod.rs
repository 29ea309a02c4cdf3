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
mod keeper;
mod orphan;
mod server;
mod socket;

use std::path::PathBuf;

use sqlx::postgres::{PgConnectOptions, PgSslMode};

use self::{
    account::Account,
    command::Runner,
    folder::Folder,
    init::{Existing, SUPERUSER},
    keeper::Keeper,
    server::Place,
};
use crate::{
    config::{PrivateDatabase, Purpose},
    refusal::Refusal,
};

/// Only names the socket: the server listens to no network.
const PORT: u16 = 5432;

/// A running private database; stopped when it is dropped, unless another instance runs it.
#[derive(Debug)]
pub struct PrivateCluster {
    socket: PathBuf,
    keeper: Option<Keeper>,
}

impl PrivateCluster {
    /// Starts the database, making it first if there is none. Blocks for about half a second the first time (longer if
    /// programs are fetched) and a twentieth later.
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
        let place = Place { folder, socket: socket.clone(), programs, runner };
        let keeper = Keeper::start(place, lock)?;
        Ok(Self { socket, keeper: Some(keeper) })
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
        Ok(Self { socket, keeper: None })
    }

    /// Whether another instance runs the server, and has prepared what is in it.
    pub fn is_joined(&self) -> bool {
        self.keeper.is_none()
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
        self.keeper.take().map_or(Ok(()), Keeper::stop)
    }
}
