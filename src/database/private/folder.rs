//! The folder a private database lives in: who may use it, what is in it, and what a reset deletes.
//!
//! The folder itself stays with whoever starts the program; only `postgres/` inside belongs to the database's user, so
//! that a database gone wrong cannot write where root does.

use std::{
    fs::{self, DirBuilder, File, OpenOptions, Permissions, TryLockError},
    io::{self, ErrorKind, Write},
    os::unix::fs::{DirBuilderExt, MetadataExt, OpenOptionsExt, PermissionsExt, fchown},
    path::{Path, PathBuf},
};

use crate::{
    config::{PrivateDatabase, Purpose},
    refusal::Refusal,
};

/// The file that says a folder is a demo's, and may be emptied by `demo --reset`.
const MARKER: &str = "settlebrook-demo";
const LOCK: &str = "lock";
const LOG: &str = "postgres.log";
const PROGRAMS: &str = "postgres-programs";
/// PostgreSQL's default `wal_segment_size`, in bytes.
const LOG_PIECE: usize = 16 << 20;

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
        self.root.join(LOG)
    }

    /// The file the server's words are added to.
    pub fn open_log(&self) -> Result<File, Refusal> {
        self.open(LOG).map_err(|error| cannot_write(&self.root, &error))
    }

    /// Opens a file of ours to add to, closed to others. It goes to the folder's owner, who may start the program
    /// next time; and as that owner could put a link there, root makes sure not to follow one.
    fn open(&self, name: &str) -> io::Result<File> {
        let path = self.root.join(name);
        let file = OpenOptions::new().create(true).append(true).mode(0o600).open(&path)?;
        let (opened, named) = (file.metadata()?, fs::symlink_metadata(&path)?);
        let same = opened.ino() == named.ino() && opened.dev() == named.dev();
        if !named.is_file() || !same || opened.nlink() != 1 {
            return Err(io::Error::other(format!("“{name}” in it is not a plain file")));
        }
        let owner = fs::metadata(&self.root)?;
        if opened.uid() == 0 && owner.uid() != 0 {
            fchown(&file, Some(owner.uid()), Some(owner.gid()))?;
        }
        Ok(file)
    }

    /// Whether the disk has no room for one more piece of the server's log of changes, without which it cannot run.
    pub fn is_full(&self) -> bool {
        let probe = self.root.join("room");
        let written = fs::write(&probe, vec![1; LOG_PIECE]);
        // What cannot be removed is written over by the next look.
        let _ = fs::remove_file(&probe);
        written.is_err_and(|error| matches!(error.kind(), ErrorKind::StorageFull | ErrorKind::QuotaExceeded))
    }

    /// Makes the folder if need be, refusing one that another purpose has used.
    pub fn prepare(settings: &PrivateDatabase) -> Result<Self, Refusal> {
        let folder = Self { root: settings.folder.clone() };
        let root = &folder.root;
        // The database's user must be able to pass through root's folder, not to list it.
        let mode = if settings.process.uid == 0 { 0o711 } else { 0o700 };
        let above = root.parent().filter(|_| settings.purpose != Purpose::Real);
        for made in above.into_iter().chain([root.as_path()]) {
            make(made, mode).map_err(|error| cannot_write(made, &error))?;
        }
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
        let lock = self.open(LOCK).map_err(|error| cannot_write(&self.root, &error))?;
        match lock.try_lock() {
            Ok(()) => Ok(Some(lock)),
            Err(TryLockError::WouldBlock) => Ok(None),
            Err(TryLockError::Error(error)) => Err(cannot_write(&self.root, &error)),
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
        let marked = self.open(MARKER).and_then(|mut marker| marker.write_all(text.as_bytes()));
        marked.map_err(|error| cannot_write(&self.root, &error))
    }

    fn has_marker(&self) -> bool {
        fs::symlink_metadata(self.root.join(MARKER)).is_ok_and(|entry| entry.is_file())
    }
}

/// Makes a folder with `mode`, whatever the umask says, if it is not there; those above it are everybody's to pass, as
/// far as the umask lets them be.
fn make(folder: &Path, mode: u32) -> io::Result<()> {
    if let Some(parent) = folder.parent().filter(|parent| !parent.exists()) {
        fs::create_dir_all(parent)?;
    }
    match DirBuilder::new().mode(mode).create(folder) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists && folder.is_dir() => Ok(()),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(ErrorKind::NotADirectory.into()),
        Err(error) => Err(error),
        Ok(()) => fs::set_permissions(folder, Permissions::from_mode(mode)),
    }
}

/// The refusal for a folder that cannot be used for a reason the system gives.
pub(super) fn cannot_write(folder: &Path, error: &io::Error) -> Refusal {
    let (shown, reason) = (folder.display(), crate::refusal::reason(error));
    Refusal::new(format!("Cannot keep data in “{shown}” ({reason}): choose another folder with --data-dir."))
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
