//! What the process finds around it: its user, its home, its search path.

use std::{
    env,
    ffi::OsString,
    fs,
    os::unix::fs::MetadataExt,
    path::{Path, PathBuf},
    process::Command,
};

use super::Process;
use crate::refusal::Refusal;

/// The parts of the environment that are not options.
#[derive(Debug)]
pub(super) struct Surroundings {
    pub process: Process,
    pub home: Option<PathBuf>,
    /// `XDG_DATA_HOME`
    pub data_home: Option<PathBuf>,
    /// Whether `DATABASE_URL` is set, for the sub-command that has no such option.
    pub database_url: bool,
}

impl Surroundings {
    pub fn read() -> anyhow::Result<Self> {
        let process = Process {
            uid: effective_uid()?,
            search_path: env::var_os("PATH").unwrap_or_default(),
            temp: env::temp_dir(),
        };
        Ok(Self {
            process,
            home: absolute(env::var_os("HOME")),
            data_home: absolute(env::var_os("XDG_DATA_HOME")),
            database_url: env::var_os("DATABASE_URL").is_some_and(|url| !url.is_empty()),
        })
    }

    /// The folder data is kept in when none was named.
    pub fn data_folder(&self) -> Result<PathBuf, Refusal> {
        if self.process.uid == 0 {
            return Ok("/var/lib/settlebrook".into());
        }
        let below_home =
            if cfg!(target_os = "macos") { "Library/Application Support" } else { ".local/share" };
        let user_data =
            self.data_home.clone().or_else(|| self.home.as_ref().map(|home| home.join(below_home)));
        user_data.map(|folder| folder.join("settlebrook")).ok_or_else(|| {
            Refusal::new("This account has no home folder: say where to keep data with --data-dir.")
        })
    }
}

/// The XDG specification has relative paths ignored; a relative home is as useless.
fn absolute(variable: Option<OsString>) -> Option<PathBuf> {
    variable.map(PathBuf::from).filter(|path| path.is_absolute())
}

/// The user this process acts as: the owner of its entry in `/proc`, or what `id` says where there is none.
fn effective_uid() -> anyhow::Result<u32> {
    if let Ok(entry) = fs::metadata(Path::new("/proc/self")) {
        return Ok(entry.uid());
    }
    let said = Command::new("id").arg("-u").output()?;
    Ok(String::from_utf8_lossy(&said.stdout).trim().parse()?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn user(uid: u32, home: Option<&str>, data_home: Option<&str>) -> Surroundings {
        Surroundings {
            process: Process { uid, search_path: OsString::new(), temp: "/tmp".into() },
            home: absolute(home.map(Into::into)),
            data_home: absolute(data_home.map(Into::into)),
            database_url: false,
        }
    }

    #[test]
    fn root_keeps_data_where_the_database_can_go() {
        let folder = user(0, Some("/root"), Some("/root/.local/share")).data_folder().unwrap();
        assert_eq!(folder, Path::new("/var/lib/settlebrook"));
    }

    #[test]
    fn others_keep_data_in_their_own_data_folder() {
        let folder = user(1000, Some("/home/kit"), Some("/home/kit/data")).data_folder().unwrap();
        assert_eq!(folder, Path::new("/home/kit/data/settlebrook"));
        let folder = user(1000, Some("/home/kit"), Some("relative")).data_folder().unwrap();
        assert!(folder.starts_with("/home/kit") && folder.ends_with("settlebrook"), "{folder:?}");
        assert!(user(1000, None, None).data_folder().is_err());
    }
}
