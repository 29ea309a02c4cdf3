//! The note in the demo's folder that everything was loaded, written last of all.

use std::fs;
use std::io::{ErrorKind, Write};
use std::path::Path;

use anyhow::Context;

use super::content::households;
use super::stage::Stage;
use crate::ids::{MembershipId, PracticeId};

/// The file in the demo's folder.
const FILE: &str = "demo-loaded";

/// Where the loaded practice is found again: ids, no secrets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loaded {
    /// The practice.
    pub practice: PracticeId,
    /// Its lead trainer.
    pub lead: MembershipId,
    /// Its owners, by their keys.
    pub owners: Vec<(String, MembershipId)>,
}

impl Loaded {
    /// What is to be noted of a stage on which everything was played.
    ///
    /// # Errors
    /// When somebody is missing.
    pub fn of(stage: &Stage, lead: &str) -> anyhow::Result<Self> {
        let keys = households().flat_map(|household| household.owners).map(|owner| owner.key);
        let owners = keys.map(|key| Ok((key.to_owned(), stage.actor(key)?.membership)));
        Ok(Self {
            practice: stage.practice,
            lead: stage.actor(lead)?.membership,
            owners: owners.collect::<anyhow::Result<_>>()?,
        })
    }

    /// The note in this folder, if there is one.
    ///
    /// # Errors
    /// When it cannot be read.
    pub fn found_in(folder: &Path) -> anyhow::Result<Option<Self>> {
        let path = folder.join(FILE);
        match fs::read_to_string(&path) {
            Ok(text) => Self::parse(&text).map(Some).with_context(|| format!("reading {}", path.display())),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
            Err(error) => Err(error).with_context(|| format!("reading {}", path.display())),
        }
    }

    /// Writes the note, whole or not at all.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn keep_in(&self, folder: &Path) -> anyhow::Result<()> {
        let (path, half) = (folder.join(FILE), folder.join(format!("{FILE}.new")));
        let write = || -> std::io::Result<()> {
            let mut file = fs::File::create(&half)?;
            file.write_all(self.text().as_bytes())?;
            file.sync_all()?;
            fs::rename(&half, &path)
        };
        write().with_context(|| format!("writing {}", path.display()))
    }

    fn text(&self) -> String {
        let owners: String = self.owners.iter().map(|(key, id)| format!("{key} {id}\n")).collect();
        format!("practice {}\nlead {}\n{owners}", self.practice, self.lead)
    }

    fn parse(text: &str) -> anyhow::Result<Self> {
        let mut lines = text.lines().filter_map(|line| line.split_once(' '));
        let mut next = |name: &str| {
            let (_, id) = lines.next().filter(|(key, _)| *key == name).context("not a note of ours")?;
            anyhow::Ok(id.to_owned())
        };
        let (practice, lead) = (next("practice")?.parse()?, next("lead")?.parse()?);
        let owners = lines.map(|(key, id)| Ok((key.to_owned(), id.parse()?)));
        Ok(Self { practice, lead, owners: owners.collect::<anyhow::Result<_>>()? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use uuid::Uuid;

    #[test]
    fn what_is_noted_is_found_again() {
        let id = |n| Uuid::from_u128(n);
        let loaded = Loaded {
            practice: id(1).into(),
            lead: id(2).into(),
            owners: vec![("gwen".to_owned(), id(3).into()), ("roo".to_owned(), id(4).into())],
        };
        assert_eq!(Loaded::parse(&loaded.text()).unwrap(), loaded);
        assert!(Loaded::parse("practice x").is_err());
        assert!(Loaded::parse("").is_err());
    }
}
