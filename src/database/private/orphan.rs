//! A server that an earlier run left behind, or only its notes.

use std::{
    fs,
    io::{self, ErrorKind},
    path::Path,
    process::Command,
    thread,
    time::{Duration, Instant},
};

use anyhow::{Context, bail};

use super::{PORT, command::Runner, find::Programs};

/// The server's note of itself in the data folder.
const NOTE: &str = "postmaster.pid";

/// How long what a killed server left behind may take to notice and end.
const ENDING: Duration = Duration::from_secs(60);

/// What a server's note says that we need.
#[derive(Debug)]
struct Note {
    pid: Option<u32>,
    /// Number of the piece of shared memory that every process of the server holds on to.
    memory: Option<u64>,
    ready: bool,
}

impl Note {
    /// `None` where there is no note.
    fn read(data: &Path) -> anyhow::Result<Option<Self>> {
        let path = data.join(NOTE);
        let text = match fs::read_to_string(&path) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            read => read.with_context(|| format!("reading {}", path.display()))?,
        };
        let line = |number: usize| text.lines().nth(number).map(str::trim);
        Ok(Some(Self {
            pid: line(0).and_then(|pid| pid.parse().ok()),
            memory: line(6).and_then(|keys| keys.split_whitespace().nth(1)?.parse().ok()),
            ready: line(7) == Some("ready"),
        }))
    }
}

/// Whether a server runs on `data` and says that it takes connections.
pub(super) fn says_ready(data: &Path) -> bool {
    let note = Note::read(data).ok().flatten();
    note.is_some_and(|note| note.ready && note.pid.is_some_and(|pid| is_server(pid, data)))
}

/// Whether the server with this process number says that it takes connections. Another's note does not count.
pub(super) fn is_ready(data: &Path, pid: u32) -> bool {
    Note::read(data).ok().flatten().is_some_and(|note| note.ready && note.pid == Some(pid))
}

/// Stops the server of an earlier run if it still runs, and removes its note if nothing of it is left. The caller
/// holds the folder, so nobody uses that server any more.
///
/// # Errors
/// When it does not stop, or when processes of a server that was killed still use the data after a minute: a second
/// server beside them would ruin it.
pub(super) fn reap(data: &Path, programs: &Programs, runner: &Runner) -> anyhow::Result<()> {
    let Some(note) = Note::read(data)? else { return Ok(()) };
    if note.pid.is_some_and(|pid| is_server(pid, data)) {
        return stop(data, programs, runner);
    }
    let begun = Instant::now();
    while note.memory.is_some_and(is_held) {
        if begun.elapsed() > ENDING {
            bail!("processes of a database server that was killed still use {}", data.display());
        }
        thread::sleep(Duration::from_millis(10));
    }
    // After a power cut the number may be another program's by now: that one is not ours to stop, and PostgreSQL
    // would take it for a server and refuse to start.
    let path = data.join(NOTE);
    remove(&path).with_context(|| format!("removing the stale {}", path.display()))
}

/// Removes the socket of a server that is gone, and the note beside it, which may name a program that is none of ours.
/// The caller holds the folder and has made sure that no server runs.
pub(super) fn clear(socket: &Path) -> anyhow::Result<()> {
    for name in [format!(".s.PGSQL.{PORT}"), format!(".s.PGSQL.{PORT}.lock")] {
        let path = socket.join(name);
        remove(&path).with_context(|| format!("removing the stale {}", path.display()))?;
    }
    Ok(())
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

/// Whether a process holds on to this piece of shared memory. Unknown, and so not, where the system does not list them.
fn is_held(memory: u64) -> bool {
    let listed = fs::read_to_string("/proc/sysvipc/shm").unwrap_or_default();
    listed.lines().skip(1).any(|line| {
        let columns: Vec<&str> = line.split_whitespace().collect();
        let number = columns.get(1).and_then(|number| number.parse().ok());
        number == Some(memory) && columns.get(6).is_some_and(|holders| *holders != "0")
    })
}

/// Whether process `pid` is the server of `data`: the number may be another server's by now. A server works in its data
/// folder; where the system does not tell, its name must do. One that has ended works nowhere.
fn is_server(pid: u32, data: &Path) -> bool {
    if Path::new("/proc/self").exists() {
        let works_in = fs::read_link(format!("/proc/{pid}/cwd"));
        return works_in.is_ok_and(|folder| fs::canonicalize(data).is_ok_and(|data| data == folder));
    }
    let said = Command::new("ps").args(["-o", "comm=", "-p", &pid.to_string()]).output();
    said.is_ok_and(|said| String::from_utf8_lossy(&said.stdout).trim().rsplit('/').next() == Some("postgres"))
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
        let here = std::env::current_dir().unwrap();
        assert!(is_server(std::process::id(), &here), "whoever works in the folder is taken for its server");
        assert!(!is_server(std::process::id(), &std::env::temp_dir()));
        assert!(!is_server(u32::MAX, &here));
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
