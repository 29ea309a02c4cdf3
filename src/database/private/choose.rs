//! Which programs run the database, and whether its user can get at them and at the data.

use super::{command::Runner, fetch, find, find::Programs, folder::Folder, init::Existing};
use crate::{config::PrivateDatabase, refusal::Refusal};

/// The programs to run the database with, fetched if that is allowed and needed.
pub(super) fn programs(
    settings: &PrivateDatabase,
    folder: &Folder,
    existing: Existing,
    runner: &Runner,
) -> anyhow::Result<Programs> {
    let made_by = match existing {
        Existing::Cluster(major) => Some(major),
        Existing::Nothing => None,
    };
    if let Some(named) = &settings.programs {
        return Ok(Programs::named(named, made_by, runner)?);
    }
    let fetched = fetch::programs_in(&folder.programs());
    if let Some(found) = Programs::installed(made_by, &fetched, runner) {
        return Ok(found);
    }
    let hint = find::how_to_install(made_by);
    let oldest = find::OLDEST;
    match made_by {
        Some(major) if major != fetch::MAJOR => Err(Refusal::new(format!(
            "The data in “{}” was made by PostgreSQL {major}, and no server of that version is installed here: {hint}.",
            folder.root.display()
        ))
        .into()),
        _ if !settings.fetch => Err(Refusal::new(format!(
            "No PostgreSQL server ({oldest} or newer) is installed here: let Settlebrook fetch one with --fetch-postgres, {hint}, or set DATABASE_URL."
        ))
        .into()),
        _ => {
            fetch::fetch(&folder.programs())?;
            Programs::in_folder(&fetched, runner).ok_or_else(|| {
                Refusal::new(format!("The fetched PostgreSQL does not run on this machine: {hint}.")).into()
            })
        }
    }
}

/// Refuses a folder that the database's user cannot get into.
pub(super) fn refuse_unreachable(folder: &Folder, runner: &Runner) -> Result<(), Refusal> {
    match &runner.account {
        Some(account) if !runner.can_enter(&folder.root) => Err(Refusal::new(format!(
            "As root, Settlebrook runs its database as {}, who cannot get into “{}”: choose another --data-dir, such as /var/lib/settlebrook.",
            account.shown(),
            folder.root.display()
        ))),
        _ => Ok(()),
    }
}
