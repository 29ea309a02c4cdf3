//! Households, dogs and weights as a table: one file that people fill in elsewhere, and that an export writes.
//!
//! A row is about a household, about a dog of it, or about one weighing of that dog; what stands in one row of a dog need not
//! be said again in its others. Nothing here writes: [`read`] finds every mistake of a file, and [`compare`] says what of it
//! is not here yet.

mod cell;
mod column;
mod compare;
mod gather;
mod known;
mod read;
mod separator;
#[cfg(test)]
mod tests;
mod write;

use time::Date;

use super::dog::Weighing;
use super::vocabulary::{BirthPrecision, Children, Phase, Sex};

pub use column::Column;
pub use compare::{Additions, Already, HouseholdOf, NewDog, NewWeight, compare};
pub use known::{Known, KnownDog};
pub use read::{Setting, read};
pub use write::{faults_as_text, write};

/// The most rows that are read at once, without the first one.
pub const MOST_ROWS: usize = 20_000;
/// The longest text that is read at once, in bytes.
pub const MOST_BYTES: usize = 4_000_000;

/// One thing that is wrong in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The line on which its row begins, the first line of the file being 1.
    pub line: u64,
    /// The column's name; empty where it is about the row as a whole.
    pub column: String,
    /// What to do about it.
    pub wrong: String,
    /// What was read there, shortened.
    pub read: String,
}

/// A household as a file has it; `None` is not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HouseholdEntry {
    /// What it is called.
    pub name: String,
    /// Its IANA time zone; the practice's where nobody says.
    pub zone: Option<String>,
    /// Children in it.
    pub children: Option<Children>,
    /// A private note of the trainers.
    pub note: Option<String>,
    /// Its dogs.
    pub dogs: Vec<DogEntry>,
}

/// A dog as a file has it; `None` is not stated.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DogEntry {
    /// What it is called.
    pub name: String,
    /// Its breed or kind.
    pub breed: Option<String>,
    /// When it was born.
    pub born: Option<Date>,
    /// How exactly that is known.
    pub birth_precision: Option<BirthPrecision>,
    /// Its sex.
    pub sex: Option<Sex>,
    /// Whether it is neutered.
    pub neutered: Option<bool>,
    /// Since when it lives in its home.
    pub home_since: Option<Date>,
    /// Where it stands in its work.
    pub phase: Option<Phase>,
    /// What it is expected to weigh when grown, kg.
    pub expected_adult_kg: Option<f64>,
    /// Its main food.
    pub main_food: Option<String>,
    /// The energy of it, kcal per gram.
    pub main_food_kcal_per_g: Option<f64>,
    /// Its allergies.
    pub allergies: Option<String>,
    /// Its medicines.
    pub medicines: Option<String>,
    /// The owner's goal, in their words.
    pub goal: Option<String>,
    /// What it weighed, one figure a day, earliest first.
    pub weights: Vec<Weighing>,
}

/// What two names share that mean the same household, or the same dog of one.
pub fn key(name: &str) -> String {
    name.trim().to_lowercase()
}
