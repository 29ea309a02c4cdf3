//! Running PostgreSQL's programs as the right user, in an environment that holds nothing of ours.

use std::{
    ffi::OsString,
    os::unix::process::CommandExt,
    path::{Path, PathBuf},
    process::{Command, Stdio},
};

use super::account::Account;

/// Starts programs for the database.
#[derive(Debug, Clone)]
pub(super) struct Runner {
    pub account: Option<Account>,
    pub search_path: OsString,
}

impl Runner {
    /// A program that runs and ends.
    pub fn short(&self, program: &Path) -> Command {
        let mut command = Command::new(program);
        if let Some(account) = &self.account {
            // The standard library drops the other groups as well when it changes user.
            command.uid(account.uid).gid(account.gid);
        }
        self.plain(command)
    }

    /// A program that ends when the calling *thread* does, however that happens, so the caller must be a thread that
    /// lasts: the kernel ties a parent's death to the thread. Where `setpriv` is missing the program may stay behind
    /// after a kill, and the next start stops it. It has a process group of its own, so that a Ctrl-C in the terminal
    /// reaches us first.
    pub fn tied(&self, program: &Path) -> Command {
        let mut command = match setpriv() {
            Some(setpriv) => {
                let mut command = Command::new(setpriv);
                if let Some(Account { uid, gid }) = self.account {
                    command.args([
                        format!("--reuid={uid}"),
                        format!("--regid={gid}"),
                        "--clear-groups".into(),
                    ]);
                }
                command.args(["--pdeathsig=INT", "--"]).arg(program);
                self.plain(command)
            }
            None => self.short(program),
        };
        command.process_group(0);
        command
    }

    /// Whether the database's user can enter a folder.
    pub fn can_enter(&self, folder: &Path) -> bool {
        let mut check = self.short(Path::new("/bin/sh"));
        check.args(["-c", "cd -- \"$1\"", "sh"]).arg(folder);
        check.stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok_and(|status| status.success())
    }

    fn plain(&self, mut command: Command) -> Command {
        command.current_dir("/").stdin(Stdio::null()).env_clear();
        command.env("PATH", &self.search_path).env("LC_ALL", "C.UTF-8");
        command
    }
}

/// util-linux's `setpriv`; smaller ones of the same name cannot tie a program to its parent.
fn setpriv() -> Option<PathBuf> {
    if !cfg!(target_os = "linux") {
        return None;
    }
    ["/usr/bin/setpriv", "/bin/setpriv"].into_iter().map(PathBuf::from).find(|program| {
        let help = Command::new(program).arg("--help").output();
        help.is_ok_and(|help| String::from_utf8_lossy(&help.stdout).contains("pdeathsig"))
    })
}
