//! The folder of the database's socket: whoever enters it is the database's superuser, so nobody else may.

use std::{
    fs::{self, DirBuilder, Metadata},
    io::ErrorKind,
    os::unix::{
        ffi::OsStrExt,
        fs::{DirBuilderExt, MetadataExt, PermissionsExt, chown},
    },
    path::{Path, PathBuf},
};

use super::{account::Account, folder::cannot_write};
use crate::{config::Process, refusal::Refusal};

/// A socket's path may have some 104 bytes in all, and PostgreSQL adds a name of its own.
const LONGEST: usize = 80;

/// Where the socket goes: `run` in the cluster's folder, or a short path below `temp` when that is too long.
pub(super) fn place(cluster: &Path, process: &Process) -> PathBuf {
    let near = cluster.join("run");
    if near.as_os_str().len() <= LONGEST {
        return near;
    }
    process.temp.join(format!("settlebrook-{}-{:016x}", process.uid, fingerprint(cluster)))
}

/// Makes a folder that the database's user owns and nobody else enters, or refuses what is there instead.
pub(super) fn make_private(
    folder: &Path,
    account: Option<&Account>,
    process: &Process,
) -> Result<(), Refusal> {
    let refuse = |error| cannot_write(folder, &error);
    match DirBuilder::new().mode(0o700).create(folder) {
        Err(error) if error.kind() != ErrorKind::AlreadyExists => return Err(refuse(error)),
        _ => {}
    }
    let owner = account.map_or(process.uid, |account| account.uid);
    let found = fs::symlink_metadata(folder).map_err(refuse)?;
    if !is_ours(&found, owner, process.uid) {
        return Err(Refusal::new(format!(
            "“{}” should be a folder that only the database's user can enter, and is not: remove it and start again.",
            folder.display()
        )));
    }
    match account {
        Some(account) if found.uid() != owner => {
            chown(folder, Some(owner), Some(account.gid)).map_err(refuse)
        }
        _ => Ok(()),
    }
}

/// Ours is a real folder, closed to others, of the database's user, or of our own if we have not handed it over yet.
fn is_ours(found: &Metadata, owner: u32, us: u32) -> bool {
    found.is_dir() && (found.uid() == owner || found.uid() == us) && found.permissions().mode() & 0o077 == 0
}

/// FNV-1a: short, and the same in every release, which the standard hasher does not promise.
fn fingerprint(path: &Path) -> u64 {
    let bytes = path.as_os_str().as_bytes();
    bytes
        .iter()
        .fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn process() -> Process {
        let uid = fs::metadata("/proc/self").map_or(0, |entry| entry.uid());
        Process { uid, search_path: "/bin".into(), temp: std::env::temp_dir() }
    }

    #[test]
    fn long_paths_move_to_a_short_one() {
        let process = Process { uid: 7, search_path: "/bin".into(), temp: "/tmp".into() };
        assert_eq!(
            place(Path::new("/var/lib/dogs/postgres"), &process),
            Path::new("/var/lib/dogs/postgres/run")
        );
        let long = PathBuf::from(format!("/home/{}/postgres", "k".repeat(80)));
        let moved = place(&long, &process);
        assert!(moved.starts_with("/tmp") && moved.as_os_str().len() < 60, "{moved:?}");
        assert_eq!(moved, place(&long, &process));
        assert_ne!(moved, place(&long.join("other"), &process));
    }

    #[test]
    fn a_folder_open_to_others_is_refused() {
        let process = process();
        let folder = process.temp.join(format!("settlebrook-open-{}", std::process::id()));
        make_private(&folder, None, &process).unwrap();
        assert!(make_private(&folder, None, &process).is_ok());
        fs::set_permissions(&folder, fs::Permissions::from_mode(0o750)).unwrap();
        assert!(make_private(&folder, None, &process).is_err());
        fs::remove_dir(&folder).unwrap();
        std::os::unix::fs::symlink("/", &folder).unwrap();
        assert!(make_private(&folder, None, &process).is_err());
        fs::remove_file(&folder).unwrap();
    }
}
