//! A dog's stated allergies against the words of a food: by families, in both directions.
//!
//! "Beef" meets "ox heart", "fish" meets "salmon", and "salmon" meets "fish flakes", which may be salmon. A word of
//! no family is compared as it stands. Common practice; what a food is made of stands on its label.

mod families;
mod read;

use super::words::is_word;
use families::Kind;
use read::{Text, read};

/// An allergy that a food meets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Met {
    /// The allergen, as the family is called or as it was stated: "beef".
    pub allergen: String,
    /// The words of the food that name it, in small letters: "ox heart".
    pub word: String,
    /// Whether the food certainly holds it; else its words leave that open: "liver".
    pub sure: bool,
}

/// The allergies that a food meets, each once, the certain ones first.
pub fn named(allergies: &str, food: &str) -> Vec<Met> {
    if allergies.trim().is_empty() {
        return Vec::new();
    }
    let (stated, food) = (read(allergies, Text::Allergies), read(food, Text::Food));
    let mut met: Vec<Met> = Vec::new();
    let mut add = |allergen: &str, word: &str, sure: bool| {
        if !met.iter().any(|one| one.allergen == allergen) {
            met.push(Met { allergen: allergen.to_owned(), word: word.to_owned(), sure });
        }
    };
    // A word such as "fish" stands for several kinds at once; it meets each of them, but only those told apart for sure.
    let wide =
        |word: &str, list: &[(Kind, String)]| list.iter().filter(|(_, other)| other == word).count() > 1;
    for (kind, word) in &food.kinds {
        if let Some((_, said)) = stated.kinds.iter().find(|(other, _)| other == kind) {
            add(said, word, !wide(word, &food.kinds) || said == word || wide(said, &stated.kinds));
        }
    }
    for word in &food.other {
        if let Some(said) = stated.other.iter().find(|said| is_word(word, said) || is_word(said, word)) {
            add(said, word, true);
        }
    }
    for (kind, word) in &food.vague {
        if let Some((_, said)) = stated.kinds.iter().find(|(other, _)| other == kind) {
            add(said, word, false);
        }
    }
    met.sort_by_key(|one| !one.sure);
    met
}

#[cfg(test)]
mod tests;
