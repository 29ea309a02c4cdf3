//! Where PostgreSQL's programs are.

use std::{
    cmp::Reverse,
    env, fs,
    path::{Path, PathBuf},
};

use super::command::Runner;
use crate::refusal::Refusal;

/// The oldest server the schema is written for.
pub(super) const OLDEST: u32 = 15;

/// What a folder must hold to be of use; the client tools are often installed alone.
const NEEDED: [&str; 3] = ["postgres", "initdb", "pg_ctl"];

/// Folders whose every entry may be an installation, with the way from the entry to its programs.
const USUAL: [(&str, &str); 6] = [
    ("/usr/lib/postgresql", "bin"),
    ("/opt/homebrew/opt", "bin"),
    ("/usr/local/opt", "bin"),
    ("/opt/local/lib", "bin"),
    ("/Applications/Postgres.app/Contents/Versions", "bin"),
    ("/usr/local/pgsql", ""),
];

/// The programs of one installed version.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Programs {
    pub folder: PathBuf,
    pub major: u32,
}

impl Programs {
    /// Those in `folder` and nowhere else; `made_by` is the version that made the data, when there is data.
    pub fn named(folder: &Path, made_by: Option<u32>, runner: &Runner) -> Result<Self, Refusal> {
        let shown = folder.display();
        let found = Self::in_folder(folder, runner).ok_or_else(|| {
            Refusal::new(format!(
                "SETTLEBROOK_PG_BIN names “{shown}”, but no PostgreSQL server runs from there: it must hold {}.",
                NEEDED.join(", ")
            ))
        })?;
        match made_by {
            Some(made_by) if made_by != found.major => Err(Refusal::new(format!(
                "SETTLEBROOK_PG_BIN holds PostgreSQL {}, but the data was made by PostgreSQL {made_by}: name the programs of version {made_by}.",
                found.major
            ))),
            None if found.major < OLDEST => Err(Refusal::new(format!(
                "SETTLEBROOK_PG_BIN holds PostgreSQL {}, and version {OLDEST} or newer is needed.",
                found.major
            ))),
            _ => Ok(found),
        }
    }

    /// The first that fit: on the search path, in the usual folders from the newest down, then `fetched`.
    pub fn installed(made_by: Option<u32>, fetched: &Path, runner: &Runner) -> Option<Self> {
        let fits = |found: &Self| made_by.map_or(found.major >= OLDEST, |made_by| made_by == found.major);
        let search_path = env::split_paths(&runner.search_path).filter(|folder| folder.is_absolute());
        let on_path = search_path.filter_map(|folder| Self::in_folder(&folder, runner)).find(fits);
        let usual = || {
            let mut found: Vec<_> =
                usual_folders().iter().filter_map(|at| Self::in_folder(at, runner)).collect();
            found.sort_by_key(|found| Reverse(found.major));
            found.into_iter().find(fits)
        };
        on_path.or_else(usual).or_else(|| Self::in_folder(fetched, runner).filter(fits))
    }

    /// The programs in one folder, if a server is there and runs as the user that will run it.
    pub fn in_folder(folder: &Path, runner: &Runner) -> Option<Self> {
        let server = folder.join("postgres");
        // What is on the search path is often a link to a folder that holds the other programs too.
        let real = fs::canonicalize(&server).ok()?.parent()?.to_owned();
        let folder = [real, folder.to_owned()]
            .into_iter()
            .find(|folder| NEEDED.iter().all(|name| folder.join(name).is_file()))?;
        let said = runner.short(&folder.join("postgres")).arg("--version").output().ok()?;
        let major = major(&String::from_utf8_lossy(&said.stdout))?;
        Some(Self { folder, major })
    }
}

/// What to do where no server of a fitting version is.
pub(super) fn how_to_install(made_by: Option<u32>) -> String {
    let versioned = made_by.map(|major| format!("-{major}")).unwrap_or_default();
    let homebrew = made_by.unwrap_or(18);
    format!(
        "install one (Debian, Ubuntu: apt-get install postgresql{versioned}; Fedora: dnf install postgresql-server; macOS: brew install postgresql@{homebrew}), or name its programs with SETTLEBROOK_PG_BIN"
    )
}

fn usual_folders() -> Vec<PathBuf> {
    let mut folders = Vec::new();
    for (parent, below) in USUAL {
        let entries = fs::read_dir(parent).into_iter().flatten().flatten();
        folders.extend(entries.map(|entry| entry.path().join(below)));
    }
    // Red Hat's own packages put the version into the name: /usr/pgsql-17/bin.
    let entries = fs::read_dir("/usr").into_iter().flatten().flatten();
    let red_hat = entries.filter(|entry| entry.file_name().to_string_lossy().starts_with("pgsql-"));
    folders.extend(red_hat.map(|entry| entry.path().join("bin")));
    folders
}

/// The major version in what `postgres --version` says.
fn major(said: &str) -> Option<u32> {
    let version = said.strip_prefix("postgres (PostgreSQL) ")?;
    version.split(|letter: char| !letter.is_ascii_digit()).next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_the_major_version() {
        for (said, expected) in [
            ("postgres (PostgreSQL) 15.18 (Debian 15.18-0+deb12u1)\n", Some(15)),
            ("postgres (PostgreSQL) 18beta2", Some(18)),
            ("postgres (PostgreSQL) 9.6.24", Some(9)),
            ("pg_ctl (PostgreSQL) 15.1", None),
            ("", None),
        ] {
            assert_eq!(major(said), expected, "{said}");
        }
    }

    #[test]
    fn a_folder_without_a_server_is_refused_by_name() {
        let runner = Runner { account: None, search_path: "/usr/bin:/bin".into() };
        let refusal = Programs::named(Path::new("/etc"), None, &runner).unwrap_err().to_string();
        assert!(refusal.contains("/etc") && refusal.contains("initdb"), "{refusal}");
    }

    #[test]
    fn installing_names_the_version_the_data_needs() {
        assert!(how_to_install(Some(16)).contains("postgresql-16;"));
        assert!(how_to_install(None).contains("apt-get install postgresql;"));
    }
}
