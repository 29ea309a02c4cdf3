//! Foods that poison dogs or hurt them, found in free text.
//!
//! The list is not complete, and a food that is not on it is not thereby harmless.

mod list;

use super::super::certainty::Certainty;
use super::words::Tokens;

pub use list::POISONS;

/// How a food harms.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Harm {
    /// The food itself may be harmless; what it is made with may not be.
    CheckLabel,
    /// It can injure.
    Hazard,
    /// It can poison.
    Poison,
}

/// A food that must not be given, or not unchecked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Poison {
    /// What it is.
    pub name: &'static str,
    /// How it harms.
    pub harm: Harm,
    /// Words and phrases by which it is known, in one.
    words: &'static [&'static str],
    /// Phrases in which those words mean something else.
    unless: &'static [&'static str],
    /// What is known of it, in one plain sentence.
    pub why: &'static str,
    /// Where that comes from.
    pub source: &'static str,
    /// How sure that is.
    pub certainty: Certainty,
}

/// A food that was found in a text.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// The food.
    pub food: &'static Poison,
    /// The words that name it, in small letters.
    pub word: String,
}

/// The foods that a text names, the most harmful first; not where it says that they are not in it.
pub fn named(text: &str) -> Vec<Named> {
    let tokens = Tokens::of(text);
    let first = |food: &'static Poison| {
        let places = food.words.iter().flat_map(|phrase| tokens.find(phrase, food.unless));
        places.filter(|place| !tokens.denied(place)).min_by_key(|place| place.start)
    };
    let mut found: Vec<Named> = POISONS
        .iter()
        .filter_map(|food| first(food).map(|place| Named { food, word: tokens.text(&place) }))
        .collect();
    found.sort_by_key(|named| std::cmp::Reverse(named.food.harm));
    found
}

#[cfg(test)]
mod tests;
