//! What is here already, under the names by which a file can tell it apart.

use std::collections::HashSet;

use super::{DogEntry, HouseholdEntry, key};
use crate::ids::{DogId, HouseholdId};

/// A household that is here.
#[derive(Debug, Clone, PartialEq)]
pub struct Known {
    /// Its id.
    pub id: HouseholdId,
    /// What is known of it; its dogs are in `dogs`.
    pub entry: HouseholdEntry,
    /// Its dogs.
    pub dogs: Vec<KnownDog>,
}

/// A dog that is here.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownDog {
    /// Its id.
    pub id: DogId,
    /// What is known of it.
    pub entry: DogEntry,
}

impl Known {
    /// The practice's households, given from the oldest on, by name: of those that share a name all but the oldest carry a
    /// number behind it, and so do dogs of one household. An export writes these names, and an import finds them again.
    pub fn told_apart(mut all: Vec<Self>) -> Vec<Self> {
        number(all.iter_mut().map(|household| &mut household.entry.name).collect());
        for household in &mut all {
            number(household.dogs.iter_mut().map(|dog| &mut dog.entry.name).collect());
            household.dogs.sort_by_key(|dog| key(&dog.entry.name));
        }
        all.sort_by_key(|household| key(&household.entry.name));
        all
    }

    /// The household with its dogs, as an export writes it.
    pub fn whole(self) -> HouseholdEntry {
        HouseholdEntry { dogs: self.dogs.into_iter().map(|dog| dog.entry).collect(), ..self.entry }
    }
}

/// Puts a number behind every name that came before: “Moss”, “Moss (2)”.
fn number(names: Vec<&mut String>) {
    let mut taken: HashSet<String> = names.iter().map(|name| key(name)).collect();
    let mut met = HashSet::new();
    for name in names {
        if met.insert(key(name)) {
            continue;
        }
        let free = (2..).map(|n| format!("{name} ({n})")).find(|wanted| taken.insert(key(wanted)));
        if let Some(free) = free {
            *name = free;
        }
    }
}
