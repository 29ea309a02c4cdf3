//! Making an empty cluster.

use std::{fs, io::ErrorKind, path::Path, process};

use anyhow::{Context, bail};

use super::{command::Runner, find::Programs, folder::Folder};
use crate::refusal::Refusal;

/// The database's superuser, whom only the socket's owner can be.
pub(super) const SUPERUSER: &str = "postgres";

/// What a database's folder is called while it is being made, followed by the number of the process making it: the maker
/// of a start that was killed may still be at work on, or clearing away, one of its own.
const UNFINISHED: &str = "data.new-";

/// What there is in the folder already.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Existing {
    Nothing,
    /// A cluster, with the major version that made it.
    Cluster(u32),
}

/// Looks for a cluster. One without its version file was damaged by something else, as ours get their name only when
/// they are complete, and is never overwritten.
pub(super) fn existing(folder: &Folder) -> Result<Existing, Refusal> {
    let data = folder.data();
    let shown = data.display();
    match fs::read_to_string(data.join("PG_VERSION")) {
        Ok(version) => version.trim().parse().map(Existing::Cluster).map_err(|_| {
            Refusal::new(format!("“{shown}” has a PG_VERSION that makes no sense: restore it from a backup."))
        }),
        Err(error) if error.kind() == ErrorKind::NotFound && !data.exists() => Ok(Existing::Nothing),
        Err(error) if error.kind() == ErrorKind::NotFound => Err(Refusal::new(format!(
            "“{shown}” is not a complete database, so it is left alone: restore it from a backup, or move it away."
        ))),
        Err(error) => Err(super::folder::cannot_write(&folder.root, &error)),
    }
}

/// Makes a cluster beside its final place, then moves it there, so that a half-made one is never taken for data. Call it
/// from a thread that lasts, as [`Runner::tied`] says.
pub(super) fn init(folder: &Folder, programs: &Programs, runner: &Runner) -> anyhow::Result<()> {
    let data = folder.data();
    let fresh = folder.cluster().join(format!("{UNFINISHED}{}", process::id()));
    let mut said = String::new();
    for locale in locales(programs.major) {
        clear_unfinished(&folder.cluster());
        // Tied to us, so that it ends with us.
        let mut initdb = runner.tied(&programs.folder.join("initdb"));
        initdb.arg("-D").arg(&fresh).args(["-U", SUPERUSER, "--auth-local=trust", "--auth-host=reject"]);
        initdb.args(["--encoding=UTF8", "--data-checksums", "--no-instructions"]).args(locale);
        let output = initdb.output().context("running initdb")?;
        if output.status.success() {
            return fs::rename(&fresh, &data).context("moving the new database into place");
        }
        said = String::from_utf8_lossy(&output.stderr).into_owned();
    }
    clear_unfinished(&folder.cluster());
    bail!("initdb could not make a database: {}", said.trim())
}

/// Locales to try, best first: the same order of words on every machine, with letters beyond ASCII known as letters.
fn locales(major: u32) -> [&'static [&'static str]; 2] {
    let builtin: &[&str] = &["--locale=C", "--locale-provider=builtin", "--builtin-locale=C.UTF-8"];
    let system: &[&str] = &["--locale=C.UTF-8"];
    [if major >= 17 { builtin } else { system }, &["--locale=C"]]
}

/// Clears half-made databases away, as far as their makers let go of them; a later start finds the rest.
fn clear_unfinished(cluster: &Path) {
    for entry in fs::read_dir(cluster).into_iter().flatten().flatten() {
        if entry.file_name().to_string_lossy().starts_with(UNFINISHED) {
            let _ = fs::remove_dir_all(entry.path());
        }
    }
}
