//! Settings: the command line and the environment are read here and nowhere else, and come out as types that
//! are already valid.

mod base_url;
mod choose;
mod command_line;
mod surroundings;

use std::{ffi::OsString, fmt, net::SocketAddr, path::PathBuf};

pub use base_url::{BaseUrl, InvalidBaseUrl};
pub use choose::from_process;

/// Everything the program was told at start.
#[derive(Debug)]
pub struct Config {
    /// What to do.
    pub task: Task,
    /// Which log lines to write, in `tracing`'s filter language, for example `info,sqlx=warn`.
    pub log: String,
}

/// What the program was asked to do.
#[derive(Debug)]
pub enum Task {
    /// Serve real practices.
    Serve {
        /// Where to listen, and the address people use.
        web: Web,
        /// The database to serve from.
        database: DatabasePlace,
    },
    /// Serve the invented practice, on this machine only.
    Demo {
        /// Where to listen, and the address people use.
        web: Web,
        /// The demo's own database.
        database: PrivateDatabase,
    },
    /// Bring the database's schema up to date and stop.
    Migrate(MigrationPlace),
    /// Print a one-time link with which a new practice is set up.
    NewPractice {
        /// The address the link starts with.
        base_url: BaseUrl,
        /// The database the practice will live in.
        database: DatabasePlace,
    },
}

/// Where pages are served.
#[derive(Debug, Clone)]
pub struct Web {
    /// The address and port to listen on; port 0 lets the system choose.
    pub listen: SocketAddr,
    /// The address people use, when it was given.
    given: Option<BaseUrl>,
}

impl Web {
    /// The address people use: the one given, else localhost with the port really `bound`.
    pub fn base_url(&self, bound: SocketAddr) -> BaseUrl {
        self.given.clone().unwrap_or_else(|| BaseUrl::localhost(bound.port()))
    }
}

/// The database to work with.
#[derive(Debug)]
pub enum DatabasePlace {
    /// A PostgreSQL of our own, started and stopped with the program.
    Private(PrivateDatabase),
    /// A PostgreSQL that somebody else runs.
    Outside {
        /// How the service connects (`DATABASE_URL`).
        app: SecretUrl,
        /// How migrations connect (`SETTLEBROOK_OWNER_URL`); without it nothing is migrated.
        owner: Option<SecretUrl>,
    },
}

/// The database to migrate.
#[derive(Debug)]
pub enum MigrationPlace {
    /// The private one.
    Private(PrivateDatabase),
    /// One that somebody else runs, reached as the role that owns the schema.
    Outside(SecretUrl),
}

/// Where the private database lives and how its programs are found.
#[derive(Debug, Clone)]
pub struct PrivateDatabase {
    /// Its folder, absolute.
    pub folder: PathBuf,
    /// Whether the folder is a demo's, or real data.
    pub purpose: Purpose,
    /// The only folder to take PostgreSQL's programs from, when one was named.
    pub programs: Option<PathBuf>,
    /// Whether programs may be fetched when none are installed.
    pub fetch: bool,
    /// Whether a database that another instance is already running on the same folder may be used.
    pub join: bool,
    /// What was found out about the process.
    pub process: Process,
}

/// What a private database's folder holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// Data that people keep; never deleted.
    Real,
    /// The invented practice.
    Demo {
        /// Whether to delete it and begin again.
        reset: bool,
    },
}

/// Facts about this process that starting other programs depends on.
#[derive(Debug, Clone)]
pub struct Process {
    /// The user it runs as; 0 is root.
    pub uid: u32,
    /// Where programs are looked for (`PATH`).
    pub search_path: OsString,
    /// Where short-lived files go.
    pub temp: PathBuf,
}

/// A database address with a password in it, which never reaches a log.
#[derive(Clone)]
pub struct SecretUrl(String);

impl SecretUrl {
    /// The address in full, for connecting.
    pub fn reveal(&self) -> &str {
        &self.0
    }
}

impl fmt::Debug for SecretUrl {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("SecretUrl(…)")
    }
}
