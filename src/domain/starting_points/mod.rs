//! Starting points: whole plans to begin from, written for this product. What keeps everyone safe comes first.
//!
//! Each names entries of the starter library by their keys; a practice's own entry of that name counts, and one that it has
//! removed is put back. A trainer changes whatever does not fit the dog.

mod points;
#[cfg(test)]
mod tests;

use super::starter_library::{self, StarterExercise};

/// One instruction of a starting point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StartingItem {
    /// The key of the library entry.
    pub key: &'static str,
    /// The rung to begin on, from 1; 0 where there is no ladder.
    pub rung: u8,
    /// Sittings a week; 0 for what is usual.
    pub times_a_week: u8,
    /// Minutes of one sitting; 0 where there are no sittings.
    pub minutes: u8,
}

/// A plan to begin from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StartingPoint {
    /// A stable slug.
    pub key: &'static str,
    /// What it is called.
    pub name: &'static str,
    /// For which dog.
    pub suits: &'static str,
    /// What to see to before and beside it, and when to leave it to others.
    pub caution: &'static str,
    /// What it says to the owner.
    pub note: &'static str,
    /// The ages that it is for, in weeks: from, and up to but without.
    pub weeks: Option<(i64, i64)>,
    /// Its instructions, standing arrangements first.
    pub items: &'static [StartingItem],
}

impl StartingItem {
    /// The library entry. Every key is one: tested.
    pub fn entry(&self) -> Option<&'static StarterExercise> {
        starter_library::find(self.key)
    }
}

impl StartingPoint {
    /// Whether it is written for this age in weeks.
    pub fn is_for_age(&self, weeks: Option<i64>) -> bool {
        self.weeks.zip(weeks).is_some_and(|((from, to), age)| (from..to).contains(&age))
    }
}

/// Every starting point, those for this age in weeks first.
pub fn for_age(weeks: Option<i64>) -> Vec<&'static StartingPoint> {
    let mut all: Vec<_> = points::ALL.iter().collect();
    all.sort_by_key(|point| !point.is_for_age(weeks));
    all
}

/// The starting point with this key, if there is one.
pub fn find(key: &str) -> Option<&'static StartingPoint> {
    points::ALL.iter().find(|point| point.key == key)
}
