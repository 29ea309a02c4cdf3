//! A file beside what is here: what it would add. What is here already is never changed.

use std::collections::HashMap;

use super::{DogEntry, HouseholdEntry, Known, KnownDog, key};
use crate::domain::dog::Weighing;
use crate::ids::{DogId, HouseholdId};

/// What a file would add.
#[derive(Debug, Default)]
pub struct Additions<'a> {
    /// Households that are not here; their dogs are in `dogs`.
    pub households: Vec<&'a HouseholdEntry>,
    /// Dogs that are not here; their weights are in `weights`.
    pub dogs: Vec<NewDog<'a>>,
    /// Weights of days of which there is none.
    pub weights: Vec<NewWeight>,
    /// What of the file is here already.
    pub already: Already,
}

/// How much of a file is here already.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Already {
    /// Households.
    pub households: usize,
    /// Dogs.
    pub dogs: usize,
    /// Weights.
    pub weights: usize,
    /// Weights of those whose day has another figure here.
    pub differ: usize,
}

/// Whose a new dog is, or whose a new weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HouseholdOf {
    /// A household that is here.
    Here(HouseholdId),
    /// The new one at this place among the new ones.
    New(usize),
}

/// A dog that is not here.
#[derive(Debug)]
pub struct NewDog<'a> {
    /// Its household.
    pub household: HouseholdOf,
    /// What the file says of it.
    pub entry: &'a DogEntry,
}

/// A weight that is not here.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NewWeight {
    /// The dog: one that is here, or the place of a new one among the new ones.
    pub dog: Result<DogId, usize>,
    /// The weighing.
    pub weight: Weighing,
}

impl Additions<'_> {
    /// Whether the file adds nothing.
    pub fn is_empty(&self) -> bool {
        self.households.is_empty() && self.dogs.is_empty() && self.weights.is_empty()
    }
}

/// What a file adds to what is here, found by the household's name, the dog's name in it and the day of a weighing.
pub fn compare<'a>(file: &'a [HouseholdEntry], here: &[Known]) -> Additions<'a> {
    let known: HashMap<String, &Known> =
        here.iter().map(|household| (key(&household.entry.name), household)).collect();
    let mut additions = Additions::default();
    for household in file {
        let found = known.get(&key(&household.name)).copied();
        let of = match found {
            Some(found) => {
                additions.already.households += 1;
                HouseholdOf::Here(found.id)
            }
            None => {
                additions.households.push(household);
                HouseholdOf::New(additions.households.len() - 1)
            }
        };
        for dog in &household.dogs {
            let found = found.and_then(|found| find(found, &dog.name));
            additions.add_dog(of, dog, found);
        }
    }
    additions
}

fn find<'k>(household: &'k Known, name: &str) -> Option<&'k KnownDog> {
    household.dogs.iter().find(|dog| key(&dog.entry.name) == key(name))
}

impl<'a> Additions<'a> {
    fn add_dog(&mut self, household: HouseholdOf, entry: &'a DogEntry, found: Option<&KnownDog>) {
        let dog = match found {
            Some(found) => {
                self.already.dogs += 1;
                Ok(found.id)
            }
            None => {
                self.dogs.push(NewDog { household, entry });
                Err(self.dogs.len() - 1)
            }
        };
        let days: HashMap<_, _> = found
            .map(|found| found.entry.weights.iter().map(|weight| (weight.on, weight.kg)).collect())
            .unwrap_or_default();
        for weight in &entry.weights {
            match days.get(&weight.on) {
                Some(kg) => {
                    self.already.weights += 1;
                    self.already.differ += usize::from(*kg != weight.kg);
                }
                None => self.weights.push(NewWeight { dog, weight: *weight }),
            }
        }
    }
}
