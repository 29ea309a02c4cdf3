//! The command line: what was asked for, in which order things start and stop, and how the program ends.

use std::{
    io::{self, IsTerminal},
    path::PathBuf,
    process::ExitCode,
    time::Duration,
};

use anyhow::Context;
use settlebrook::{
    app::{
        self, Serving,
        lifecycle::{self, StopSignal},
    },
    config::{self, BaseUrl, DatabasePlace, Task, Web},
    database::Database,
    refusal::Refusal,
};
use tokio::{runtime::Runtime, time::timeout};
use tracing_subscriber::EnvFilter;

/// How long connections may take to say goodbye; the database copes with those that do not.
const FAREWELL: Duration = Duration::from_secs(2);

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => match error.downcast_ref::<Refusal>() {
            Some(refusal) => {
                eprintln!("{refusal}");
                ExitCode::from(2)
            }
            None => {
                eprintln!("Settlebrook stopped: {}", causes(&error));
                ExitCode::FAILURE
            }
        },
    }
}

/// The chain of causes, without those that the one above quotes already.
fn causes(error: &anyhow::Error) -> String {
    let mut told = String::new();
    for cause in error.chain().map(ToString::to_string) {
        if told.contains(&cause) {
            continue;
        }
        if !told.is_empty() {
            told.push_str(": ");
        }
        told.push_str(&cause);
    }
    told
}

fn run() -> anyhow::Result<()> {
    let config = config::from_process()?;
    log(&config.log)?;
    match config.task {
        Task::Serve { web, database } => serve(&web, &database, None),
        Task::Demo { web, database } => {
            let folder = database.folder.clone();
            serve(&web, &DatabasePlace::Private(database), Some(folder))
        }
        Task::Migrate(place) => {
            with(Database::start_to_migrate(&place)?, async |database, _| database.migrate().await)
        }
        Task::NewPractice { base_url, database } => new_practice(&base_url, &database),
    }
}

fn serve(web: &Web, database: &DatabasePlace, demo: Option<PathBuf>) -> anyhow::Result<()> {
    let listener = lifecycle::bind(web.listen)?;
    let base_url = web.base_url(listener.local_addr().context("asking which port was bound")?);
    with(Database::start(database)?, async |database, stop| {
        let pool = database.open().await?;
        let served =
            app::serve(Serving { pool: pool.clone(), listener, base_url, stop: stop.clone(), demo }).await;
        // Nothing is lost if it takes longer: every transaction has ended or will be undone.
        let _ = timeout(FAREWELL, pool.close()).await;
        served
    })
}

fn new_practice(base_url: &BaseUrl, database: &DatabasePlace) -> anyhow::Result<()> {
    with(Database::start(database)?, async |database, _| {
        app::print_setup_link(&database.open().await?, base_url).await
    })
}

/// Does `work` with a database that was started for it, and stops the database whatever comes of it. A signal
/// that comes before the work listens for one ends it too.
fn with<W>(database: Database, work: W) -> anyhow::Result<()>
where
    W: AsyncFnOnce(&Database, &StopSignal) -> anyhow::Result<()>,
{
    let runtime = Runtime::new().context("starting the runtime")?;
    let done = runtime.block_on(async {
        let stop = StopSignal::listen()?;
        work(&database, &stop).await
    });
    // The runtime still listens, so a second signal cuts this short as well.
    let stopped = database.stop().context("stopping the private database");
    runtime.shutdown_timeout(FAREWELL);
    done.and(stopped)
}

fn log(filter: &str) -> anyhow::Result<()> {
    let filter = EnvFilter::try_new(filter)
        .map_err(|error| Refusal::new(format!("--log does not read as a log filter ({error}).")))?;
    let coloured = io::stderr().is_terminal();
    tracing_subscriber::fmt().with_env_filter(filter).with_ansi(coloured).with_writer(io::stderr).init();
    Ok(())
}
