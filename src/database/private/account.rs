//! Which user the database runs as: PostgreSQL refuses to run as root.

use std::{fs, os::unix::fs::MetadataExt, path::Path, process::Command};

use crate::{config::Process, refusal::Refusal};

/// An unprivileged user that root runs the database as.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Account {
    pub uid: u32,
    pub gid: u32,
}

/// The accounts that exist for this, best first; `_postgres` is macOS's.
const USUAL: [&str; 3] = ["postgres", "_postgres", "nobody"];

impl Account {
    /// The user to run as when this process is root, none when it is an ordinary user already. Data that exists
    /// decides: its owner, then the owner of the folder it will be in.
    pub fn choose(process: &Process, data: &Path, folder: &Path) -> Result<Option<Self>, Refusal> {
        if process.uid != 0 {
            return Ok(None);
        }
        let owner = [data, folder].into_iter().find_map(unprivileged_owner);
        owner.or_else(|| USUAL.into_iter().find_map(named)).map(Some).ok_or_else(|| {
            Refusal::new(
                "PostgreSQL refuses to run as root, and this machine has no account “postgres” or “nobody” to run it as: add one, or start Settlebrook as an ordinary user.",
            )
        })
    }

    /// How the account is shown to people.
    pub fn shown(&self) -> String {
        let said = Command::new("id").arg("-un").arg(self.uid.to_string()).output();
        let name =
            said.map(|said| String::from_utf8_lossy(&said.stdout).trim().to_owned()).unwrap_or_default();
        if name.is_empty() { format!("user {}", self.uid) } else { format!("“{name}”") }
    }
}

fn unprivileged_owner(path: &Path) -> Option<Account> {
    let entry = fs::metadata(path).ok()?;
    (entry.uid() != 0).then(|| Account { uid: entry.uid(), gid: entry.gid() })
}

/// `id` rather than `/etc/passwd`, which does not know every account everywhere.
fn named(name: &str) -> Option<Account> {
    let number = |what: &str| {
        let said =
            Command::new("id").arg(what).arg(name).output().ok().filter(|said| said.status.success())?;
        String::from_utf8_lossy(&said.stdout).trim().parse().ok()
    };
    Some(Account { uid: number("-u")?, gid: number("-g")? })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn process(uid: u32) -> Process {
        Process { uid, search_path: "/usr/bin:/bin".into(), temp: "/tmp".into() }
    }

    #[test]
    fn an_ordinary_user_runs_it_itself() {
        assert_eq!(Account::choose(&process(1000), Path::new("/"), Path::new("/")).unwrap(), None);
    }

    #[test]
    fn root_runs_it_as_somebody_else() {
        let account = Account::choose(&process(0), Path::new("/nowhere"), Path::new("/")).unwrap();
        assert!(account.is_some_and(|account| account.uid != 0));
    }
}
