//! From the options as typed to a valid [`Config`].

use std::path::{Path, PathBuf};

use clap::Parser;

use super::{
    BaseUrl, Config, DatabasePlace, MigrationPlace, PrivateDatabase, Purpose, SecretUrl, Task, Web,
    command_line::{Command, CommandLine, FetchOption, FolderOptions, OutsideOptions, WebOptions},
    surroundings::Surroundings,
};
use crate::refusal::Refusal;

/// Reads this process's command line and environment. Mistyped options end the process with status 2 and
/// clap's explanation.
///
/// # Errors
/// A [`Refusal`] for options that are each fine but do not go together.
pub fn from_process() -> anyhow::Result<Config> {
    let typed = CommandLine::parse();
    Ok(Config { task: task(typed.command, &Surroundings::read()?)?, log: typed.log })
}

fn task(command: Command, around: &Surroundings) -> Result<Task, Refusal> {
    match command {
        Command::Serve { web, folder, outside, fetch } => {
            Ok(Task::Serve { web: web_of(web), database: database(folder, outside, fetch, around)? })
        }
        Command::Demo { web, folder, reset } => demo(web, folder, reset, around),
        Command::Migrate { folder, outside, fetch } => migrate(folder, outside, fetch, around),
        Command::NewPractice { web, folder, outside, fetch } => {
            let base_url = web.base_url.unwrap_or_else(|| BaseUrl::localhost(web.listen.port()));
            let mut database = database(folder, outside, fetch, around)?;
            if let DatabasePlace::Private(private) = &mut database {
                private.join = true;
            }
            Ok(Task::NewPractice { base_url, database })
        }
    }
}

fn web_of(options: WebOptions) -> Web {
    Web { listen: options.listen, given: options.base_url }
}

fn demo(web: WebOptions, folder: FolderOptions, reset: bool, around: &Surroundings) -> Result<Task, Refusal> {
    if around.database_url {
        return Err(Refusal::new(
            "The demo never touches a database of yours: unset DATABASE_URL, or use `settlebrook serve`.",
        ));
    }
    if !web.listen.ip().is_loopback() {
        return Err(Refusal::new(
            "The demo's passwords are printed for all to see, so it listens on this machine only: use --listen 127.0.0.1:8080.",
        ));
    }
    let mut database = private(folder, true, around)?;
    database.folder.push("demo");
    database.purpose = Purpose::Demo { reset };
    Ok(Task::Demo { web: web_of(web), database })
}

fn migrate(
    folder: FolderOptions,
    outside: OutsideOptions,
    fetch: FetchOption,
    around: &Surroundings,
) -> Result<Task, Refusal> {
    let place = match (secret(outside.database_url), secret(outside.owner_url)) {
        (_, Some(owner)) => MigrationPlace::Outside(owner),
        (None, None) => MigrationPlace::Private(private(folder, fetch.fetch_postgres, around)?),
        (Some(_), None) => {
            return Err(Refusal::new(
                "Migrating needs the role that owns the schema: set SETTLEBROOK_OWNER_URL beside DATABASE_URL.",
            ));
        }
    };
    Ok(Task::Migrate(place))
}

fn database(
    folder: FolderOptions,
    outside: OutsideOptions,
    fetch: FetchOption,
    around: &Surroundings,
) -> Result<DatabasePlace, Refusal> {
    match (secret(outside.database_url), secret(outside.owner_url)) {
        (Some(app), owner) => Ok(DatabasePlace::Outside { app, owner }),
        (None, None) => private(folder, fetch.fetch_postgres, around).map(DatabasePlace::Private),
        (None, Some(_)) => Err(Refusal::new(
            "SETTLEBROOK_OWNER_URL is set but DATABASE_URL is not: set both, or neither for the private database.",
        )),
    }
}

fn private(options: FolderOptions, fetch: bool, around: &Surroundings) -> Result<PrivateDatabase, Refusal> {
    let folder = options.data_dir.map_or_else(|| around.data_folder(), |folder| from_here(&folder))?;
    let programs = options.pg_bin.map(|folder| from_here(&folder)).transpose()?;
    let process = around.process.clone();
    Ok(PrivateDatabase { folder, purpose: Purpose::Real, programs, fetch, join: false, process })
}

/// The database's programs run elsewhere in the tree, so a path must not depend on where we stand.
fn from_here(path: &Path) -> Result<PathBuf, Refusal> {
    std::path::absolute(path)
        .map_err(|error| Refusal::new(format!("“{}” is not a folder's path ({error}).", path.display())))
}

fn secret(url: Option<String>) -> Option<SecretUrl> {
    url.filter(|url| !url.trim().is_empty()).map(SecretUrl)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::Process;
    use clap::{CommandFactory, FromArgMatches};

    fn chosen_with(database_url: bool, words: &[&str]) -> Result<Task, String> {
        let around = Surroundings {
            process: Process { uid: 1000, search_path: "/bin".into(), temp: "/tmp".into() },
            home: Some("/home/kit".into()),
            data_home: None,
            database_url,
        };
        let options = deaf().try_get_matches_from([&["settlebrook"], words].concat());
        let typed = CommandLine::from_arg_matches(&options.map_err(|error| error.to_string())?);
        task(typed.map_err(|error| error.to_string())?.command, &around).map_err(|error| error.to_string())
    }

    /// The command line without the environment of whoever runs the tests.
    fn deaf() -> clap::Command {
        let typed_only = |arg: clap::Arg| arg.env(None::<&'static str>);
        let command = CommandLine::command().mut_args(typed_only);
        command.mut_subcommands(|command| command.mut_args(typed_only))
    }

    fn chosen(words: &[&str]) -> Result<Task, String> {
        chosen_with(false, words)
    }

    #[test]
    fn demo_keeps_to_a_folder_of_its_own() {
        let Ok(Task::Demo { database, .. }) = chosen(&["demo", "--data-dir", "/srv/dogs", "--reset"]) else {
            panic!("not a demo")
        };
        assert_eq!(database.folder, Path::new("/srv/dogs/demo"));
        assert_eq!(database.purpose, Purpose::Demo { reset: true });
        assert!(database.fetch);
    }

    #[test]
    fn demo_refuses_other_databases_and_other_machines() {
        assert!(chosen_with(true, &["demo"]).unwrap_err().contains("DATABASE_URL"));
        for listen in ["0.0.0.0:8080", "[::]:8080", "192.168.1.2:80"] {
            assert!(chosen(&["demo", "--listen", listen]).unwrap_err().contains("--listen"), "{listen}");
        }
        assert!(chosen(&["demo", "--listen", "[::1]:8080"]).is_ok());
    }

    #[test]
    fn serve_fetches_programs_only_when_asked() {
        for (words, fetches) in [(&["serve"][..], false), (&["serve", "--fetch-postgres"], true)] {
            let Ok(Task::Serve { database: DatabasePlace::Private(private), .. }) = chosen(words) else {
                panic!("not private")
            };
            assert_eq!(private.fetch, fetches);
            assert_eq!(private.purpose, Purpose::Real);
            assert!(!private.join);
        }
    }

    #[test]
    fn an_owner_without_a_service_is_refused() {
        let owner = ["--owner-url", "postgres://o@db/s"];
        let app = ["--database-url", "postgres://a@db/s"];
        assert!(chosen(&["serve", owner[0], owner[1]]).unwrap_err().contains("DATABASE_URL"));
        assert!(matches!(
            chosen(&["serve", owner[0], owner[1], app[0], app[1]]),
            Ok(Task::Serve { database: DatabasePlace::Outside { owner: Some(_), .. }, .. })
        ));
        assert!(chosen(&["migrate", app[0], app[1]]).unwrap_err().contains("SETTLEBROOK_OWNER_URL"));
        assert!(matches!(
            chosen(&["migrate", owner[0], owner[1]]),
            Ok(Task::Migrate(MigrationPlace::Outside(_)))
        ));
        assert!(matches!(
            chosen(&["serve", "--database-url", ""]),
            Ok(Task::Serve { database: DatabasePlace::Private(_), .. })
        ));
    }

    #[test]
    fn addresses_are_checked_when_typed() {
        assert!(
            chosen(&["serve", "--base-url", "http://dogs.example.org"]).unwrap_err().contains("https://")
        );
        assert!(chosen(&["serve", "--listen", "8080"]).is_err());
        let Ok(Task::NewPractice { base_url, .. }) = chosen(&["new-practice", "--listen", "127.0.0.1:99"])
        else {
            panic!("not a new practice")
        };
        assert_eq!(base_url.to_string(), "http://localhost:99");
    }

    #[test]
    fn passwords_stay_out_of_logs() {
        let shown = format!("{:?}", chosen(&["serve", "--database-url", "postgres://a:hush@db/s"]));
        assert!(!shown.contains("hush"), "{shown}");
    }
}
