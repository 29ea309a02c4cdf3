//! The folder a private database lives in: who may use it, what is in it, and what a reset deletes.
//!
//! The folder itself stays with whoever starts the program; only `postgres/` inside belongs to the database's user, so
//! that a database gone wrong cannot write where root does.

use std::{
    fs::{self, DirBuilder, File, OpenOptions, TryLockError},
    io::{self, ErrorKind},
    os::unix::fs::{DirBuilderExt, OpenOptionsExt},
    path::{Path, PathBuf},
};

use crate::{
    config::{PrivateDatabase, Purpose},
    refusal::Refusal,
};

/// The file that says a folder is a demo's, and may be emptied by `demo --reset`.
const MARKER: &str = "settlebrook-demo";
const LOCK: &str = "lock";
const PROGRAMS: &str = "postgres-programs";

/// Where things are in the folder.
#[derive(Debug, Clone)]
pub(super) struct Folder {
    pub root: PathBuf,
}

impl Folder {
    /// Fetched programs.
    pub fn programs(&self) -> PathBuf {
        self.root.join(PROGRAMS)
    }
    /// What the database's user owns.
    pub fn cluster(&self) -> PathBuf {
        self.root.join("postgres")
    }
    /// The data.
    pub fn data(&self) -> PathBuf {
        self.cluster().join("data")
    }
    /// What the server had to say.
    pub fn log(&self) -> PathBuf {
        self.root.join("postgres.log")
    }

    /// Makes the folder if need be, refusing one that another purpose has used.
    pub fn prepare(settings: &PrivateDatabase) -> Result<Self, Refusal> {
        let folder = Self { root: settings.folder.clone() };
        let root = &folder.root;
        // The database's user must be able to pass through root's folder, not to list it.
        let mode = if settings.process.uid == 0 { 0o711 } else { 0o700 };
        make(root, mode).map_err(|error| cannot_write(root, &error))?;
        if let Purpose::Demo { .. } = settings.purpose {
            folder.mark_as_demo()?;
        } else if folder.has_marker() {
            return Err(Refusal::new(format!(
                "“{}” holds the invented practice: run `settlebrook demo`, or choose another --data-dir.",
                root.display()
            )));
        }
        Ok(folder)
    }

    /// Takes the folder for this process, for as long as the returned file is open. The system gives it back when
    /// the process ends in any way. None when another process has it.
    pub fn claim(&self) -> Result<Option<File>, Refusal> {
        let path = self.root.join(LOCK);
        let refuse = |error: &io::Error| cannot_write(&self.root, error);
        if fs::symlink_metadata(&path).is_ok_and(|entry| !entry.is_file()) {
            return Err(refuse(&io::Error::other("its lock is not a file")));
        }
        let mut how = OpenOptions::new();
        let lock = how.create(true).truncate(false).write(true).mode(0o600).open(path);
        let lock = lock.map_err(|error| refuse(&error))?;
        match lock.try_lock() {
            Ok(()) => Ok(Some(lock)),
            Err(TryLockError::WouldBlock) => Ok(None),
            Err(TryLockError::Error(error)) => Err(refuse(&error)),
        }
    }

    /// Deletes what the demo made, keeping the lock that is held, the marker and fetched programs. The server must
    /// not be running.
    pub fn empty_demo(&self) -> Result<(), Refusal> {
        if !self.has_marker() {
            return Err(not_a_demo(&self.root));
        }
        let kept = [MARKER, LOCK, PROGRAMS].map(|name| self.root.join(name));
        let empty = || -> io::Result<()> {
            for entry in fs::read_dir(&self.root)? {
                let path = entry?.path();
                if kept.contains(&path) {
                    continue;
                }
                if fs::symlink_metadata(&path)?.is_dir() {
                    fs::remove_dir_all(path)?;
                } else {
                    fs::remove_file(path)?;
                }
            }
            Ok(())
        };
        empty().map_err(|error| cannot_write(&self.root, &error))
    }

    fn mark_as_demo(&self) -> Result<(), Refusal> {
        let is_link = fs::symlink_metadata(&self.root).is_ok_and(|entry| entry.is_symlink());
        let is_empty = || fs::read_dir(&self.root).is_ok_and(|mut entries| entries.next().is_none());
        if !is_link && self.has_marker() {
            return Ok(());
        }
        if is_link || !is_empty() {
            return Err(not_a_demo(&self.root));
        }
        let text =
            "Settlebrook's invented practice. `settlebrook demo --reset` deletes what is in this folder.\n";
        fs::write(self.root.join(MARKER), text).map_err(|error| cannot_write(&self.root, &error))
    }

    fn has_marker(&self) -> bool {
        fs::symlink_metadata(self.root.join(MARKER)).is_ok_and(|entry| entry.is_file())
    }
}

/// Makes a folder with `mode` if it is not there, and those above it as the system likes them.
fn make(folder: &Path, mode: u32) -> io::Result<()> {
    if let Some(parent) = folder.parent().filter(|parent| !parent.exists()) {
        make(parent, 0o755)?;
    }
    match DirBuilder::new().mode(mode).create(folder) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists && folder.is_dir() => Ok(()),
        made => made,
    }
}

/// The refusal for a folder that cannot be used for a reason the system gives.
pub(super) fn cannot_write(folder: &Path, error: &io::Error) -> Refusal {
    let shown = folder.display();
    Refusal::new(format!("Cannot keep data in “{shown}” ({error}): choose another folder with --data-dir."))
}

fn not_a_demo(folder: &Path) -> Refusal {
    Refusal::new(format!(
        "“{}” was not made by `settlebrook demo`, so it is left alone: choose another --data-dir.",
        folder.display()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::Process;

    struct Scratch(PathBuf);

    impl Scratch {
        fn new(name: &str) -> Self {
            let path = std::env::temp_dir().join(format!("settlebrook-{name}-{}", std::process::id()));
            fs::create_dir(&path).unwrap();
            Self(path)
        }
        fn settings(&self, purpose: Purpose) -> PrivateDatabase {
            let process = Process { uid: 1000, search_path: "/bin".into(), temp: self.0.clone() };
            let folder = self.0.join("demo");
            PrivateDatabase { folder, purpose, programs: None, fetch: false, join: false, process }
        }
    }

    impl Drop for Scratch {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    const DEMO: Purpose = Purpose::Demo { reset: false };

    #[test]
    fn reset_deletes_what_the_demo_made_and_nothing_more() {
        let scratch = Scratch::new("reset");
        let folder = Folder::prepare(&scratch.settings(DEMO)).unwrap();
        let _lock = folder.claim().unwrap().unwrap();
        fs::create_dir_all(folder.data()).unwrap();
        fs::create_dir_all(folder.programs()).unwrap();
        fs::write(folder.log(), "x").unwrap();
        let outside = scratch.0.join("precious");
        fs::write(&outside, "x").unwrap();
        std::os::unix::fs::symlink(&outside, folder.root.join("link")).unwrap();

        folder.empty_demo().unwrap();
        let mut left: Vec<_> = fs::read_dir(&folder.root).unwrap().map(|e| e.unwrap().file_name()).collect();
        left.sort();
        assert_eq!(left, ["lock", "postgres-programs", "settlebrook-demo"]);
        assert!(outside.exists());
    }

    #[test]
    fn a_folder_with_other_things_never_becomes_a_demo() {
        let scratch = Scratch::new("other");
        fs::create_dir(scratch.0.join("demo")).unwrap();
        fs::write(scratch.0.join("demo/letter"), "x").unwrap();
        assert!(Folder::prepare(&scratch.settings(DEMO)).is_err());
        let folder = Folder { root: scratch.0.join("demo") };
        assert!(folder.empty_demo().is_err());
        assert!(scratch.0.join("demo/letter").exists());
    }

    #[test]
    fn a_demo_never_becomes_real() {
        let scratch = Scratch::new("real");
        Folder::prepare(&scratch.settings(DEMO)).unwrap();
        assert!(Folder::prepare(&scratch.settings(Purpose::Real)).is_err());
    }

    #[test]
    fn a_folder_is_claimed_once() {
        let scratch = Scratch::new("claim");
        let folder = Folder::prepare(&scratch.settings(DEMO)).unwrap();
        let lock = folder.claim().unwrap();
        assert!(lock.is_some());
        assert!(folder.claim().unwrap().is_none());
        drop(lock);
        assert!(folder.claim().unwrap().is_some());
    }
}
