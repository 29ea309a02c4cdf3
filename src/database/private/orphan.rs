//! A server that an earlier run left behind, or only its notes.

use std::{
    fs,
    io::{self, ErrorKind},
    path::Path,
    process::Command,
};

use anyhow::{Context, bail};

use super::{command::Runner, find::Programs};

/// The server's note of itself in the data folder.
const NOTE: &str = "postmaster.pid";

/// Whether the server of `data` says that it takes connections (the eighth line of its note).
pub(super) fn says_ready(data: &Path) -> bool {
    let note = fs::read_to_string(data.join(NOTE));
    note.is_ok_and(|note| note.lines().nth(7).is_some_and(|line| line.trim() == "ready"))
}

/// Stops the server of an earlier run if it still runs, and removes its note if it does not. The caller holds the
/// folder, so nobody uses that server any more.
pub(super) fn reap(data: &Path, programs: &Programs, runner: &Runner) -> anyhow::Result<()> {
    let note = data.join(NOTE);
    let text = match fs::read_to_string(&note) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
        read => read.with_context(|| format!("reading {}", note.display()))?,
    };
    // After a power cut the number may be another program's by now: that one is not ours to stop, and PostgreSQL
    // would take it for a server and refuse to start.
    let running = text.lines().next().and_then(|line| line.trim().parse().ok()).is_some_and(is_server);
    if running {
        return stop(data, programs, runner);
    }
    remove(&note).with_context(|| format!("removing the stale {}", note.display()))
}

/// Stops the server of `data`, open connections or not, and waits until it has.
pub(super) fn stop(data: &Path, programs: &Programs, runner: &Runner) -> anyhow::Result<()> {
    let mut pg_ctl = runner.short(&programs.folder.join("pg_ctl"));
    let output = pg_ctl.args(["stop", "-m", "fast", "-w", "-t", "60", "-D"]).arg(data).output();
    let output = output.context("running pg_ctl")?;
    // It may have stopped by itself between our looking and our asking.
    if output.status.success() || !data.join(NOTE).exists() {
        return Ok(());
    }
    bail!("the database did not stop: {}", String::from_utf8_lossy(&output.stderr).trim())
}

/// Whether process `pid` is a PostgreSQL server.
fn is_server(pid: u32) -> bool {
    let name = fs::read_to_string(format!("/proc/{pid}/comm")).or_else(|error| {
        if Path::new("/proc/self").exists() {
            return Err(error);
        }
        let said = Command::new("ps").args(["-o", "comm=", "-p", &pid.to_string()]).output()?;
        Ok(String::from_utf8_lossy(&said.stdout).into_owned())
    });
    name.is_ok_and(|name| name.trim().rsplit('/').next() == Some("postgres"))
}

fn remove(note: &Path) -> io::Result<()> {
    match fs::remove_file(note) {
        Err(error) if error.kind() != ErrorKind::NotFound => Err(error),
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn other_programs_are_not_taken_for_a_server() {
        assert!(!is_server(std::process::id()));
        assert!(!is_server(u32::MAX));
    }

    #[test]
    fn a_stale_note_is_removed_without_stopping_anything() {
        let data = std::env::temp_dir().join(format!("settlebrook-stale-{}", std::process::id()));
        fs::create_dir(&data).unwrap();
        fs::write(data.join(NOTE), format!("{}\n{}\n", std::process::id(), data.display())).unwrap();
        let programs = Programs { folder: "/nowhere".into(), major: 15 };
        let runner = Runner { account: None, search_path: "/bin".into() };
        reap(&data, &programs, &runner).unwrap();
        assert!(!data.join(NOTE).exists());
        fs::remove_dir_all(&data).unwrap();
    }
}
