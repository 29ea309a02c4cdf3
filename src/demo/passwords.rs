//! The trainers' passwords: made once for a data folder and kept in a file that only its owner may read.

use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::os::unix::fs::OpenOptionsExt;
use std::path::Path;

use anyhow::Context;

use super::content::PRACTICE;

/// The file in the demo's folder.
const FILE: &str = "demo-passwords";
/// What passwords are made of: nothing that is easily taken for something else.
const LETTERS: &[u8; 32] = b"abcdefghijkmnpqrstuvwxyz23456789";
/// Letters in one group, and groups in a password: 75 bits.
const GROUP: usize = 5;
const GROUPS: usize = 3;

/// Addresses with their passwords.
#[derive(Debug, Clone)]
pub struct Passwords(Vec<(String, String)>);

impl Passwords {
    /// The passwords kept in this folder; made and kept where there are none yet.
    ///
    /// # Errors
    /// When the folder cannot be read or written.
    pub fn kept_in(folder: &Path) -> anyhow::Result<Self> {
        let path = folder.join(FILE);
        match fs::read_to_string(&path) {
            Ok(text) => {
                let lines = text.lines().filter_map(|line| line.split_once(' '));
                Ok(Self(lines.map(|(email, word)| (email.to_owned(), word.to_owned())).collect()))
            }
            Err(error) if error.kind() == ErrorKind::NotFound => {
                let made = Self::fresh();
                made.keep(&path).with_context(|| format!("keeping {}", path.display()))?;
                Ok(made)
            }
            Err(error) => Err(error).with_context(|| format!("reading {}", path.display())),
        }
    }

    /// The password for an address.
    ///
    /// # Errors
    /// When the file has none for it.
    pub fn of(&self, email: &str) -> anyhow::Result<String> {
        let found = self.0.iter().find(|(address, _)| address == email);
        let (_, word) = found.with_context(|| format!("{FILE} has no password for {email}"))?;
        Ok(word.clone())
    }

    fn fresh() -> Self {
        let all = PRACTICE.trainers.iter().map(|trainer| (trainer.email.to_owned(), password()));
        Self(all.collect())
    }

    fn keep(&self, path: &Path) -> std::io::Result<()> {
        let mut file = OpenOptions::new().write(true).create_new(true).mode(0o600).open(path)?;
        for (email, word) in &self.0 {
            writeln!(file, "{email} {word}")?;
        }
        file.sync_all()
    }
}

fn password() -> String {
    let letter = |byte: u8| char::from(LETTERS[usize::from(byte) % LETTERS.len()]);
    let random: [u8; GROUP * GROUPS] = rand::random();
    let groups: Vec<String> =
        random.chunks(GROUP).map(|group| group.iter().map(|b| letter(*b)).collect()).collect();
    groups.join("-")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::actions::password::objection;
    use std::os::unix::fs::PermissionsExt;

    #[test]
    fn they_are_made_once_and_kept_from_others() {
        let folder = std::env::temp_dir().join(format!("settlebrook-words-{}", std::process::id()));
        fs::create_dir(&folder).unwrap();
        let made = Passwords::kept_in(&folder).unwrap();
        let again = Passwords::kept_in(&folder).unwrap();
        let mode = fs::metadata(folder.join(FILE)).unwrap().permissions().mode();
        fs::remove_dir_all(&folder).unwrap();
        assert_eq!(mode & 0o777, 0o600);
        for trainer in PRACTICE.trainers {
            let word = made.of(trainer.email).unwrap();
            assert_eq!(word, again.of(trainer.email).unwrap());
            assert_eq!(objection(&word, &[trainer.name, trainer.email]), None);
        }
        assert!(made.of("nobody@alderlow.example").is_err());
    }
}
