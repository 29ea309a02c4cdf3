//! What a text speaks of: kinds of food, words that leave the kind open, and words of no family.

use std::collections::BTreeSet;
use std::ops::Range;

use super::super::words::{Tokens, is_word};
use super::families::{FAMILIES, Kind, VAGUE};

/// What a text is about: "no dairy" says that a food holds none, and that a dog must have none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Text {
    /// What a food is.
    Food,
    /// What a dog is allergic to.
    Allergies,
}

/// What a text speaks of, with the words that say so.
#[derive(Default)]
pub(super) struct Read {
    /// Kinds of food.
    pub(super) kinds: Vec<(Kind, String)>,
    /// Kinds that a word leaves open.
    pub(super) vague: Vec<(Kind, String)>,
    /// Words of no family.
    pub(super) other: BTreeSet<String>,
}

/// Words that describe how a dog reacts, or how sure that is, and name no food.
const NO_FOOD: [&str; 97] = [
    "a",
    "about",
    "ache",
    "age",
    "all",
    "allergic",
    "allergies",
    "allergy",
    "also",
    "an",
    "and",
    "any",
    "anything",
    "as",
    "at",
    "avoid",
    "bad",
    "belly",
    "but",
    "by",
    "can",
    "cause",
    "causes",
    "confirmed",
    "diarrhoea",
    "diarrhea",
    "diet",
    "dog",
    "dry",
    "ear",
    "eats",
    "fed",
    "feet",
    "flare",
    "food",
    "foods",
    "for",
    "free",
    "from",
    "gets",
    "gives",
    "gut",
    "has",
    "he",
    "her",
    "his",
    "in",
    "infection",
    "intolerance",
    "intolerant",
    "is",
    "it",
    "itch",
    "itchy",
    "known",
    "likely",
    "loose",
    "makes",
    "may",
    "maybe",
    "mild",
    "none",
    "of",
    "on",
    "only",
    "or",
    "paw",
    "perhaps",
    "possible",
    "possibly",
    "probable",
    "probably",
    "rash",
    "reaction",
    "sensitive",
    "sensitivity",
    "severe",
    "she",
    "sick",
    "skin",
    "some",
    "sore",
    "stomach",
    "stool",
    "suspected",
    "test",
    "tested",
    "the",
    "to",
    "trial",
    "tummy",
    "unsure",
    "upset",
    "vet",
    "vomit",
    "vomiting",
    "with",
];

/// Words that say of a food in the allergies that the dog bears it.
const BORNE: [&str; 7] = ["tolerates", "tolerated", "bears", "ok", "okay", "fine", "enjoys"];

/// Words that turn such a word round.
const NOT: [&str; 8] = ["no", "not", "never", "nor", "cannot", "cant", "doesnt", "isnt"];

struct Reader {
    tokens: Tokens,
    words: Vec<String>,
    text: Text,
}

impl Reader {
    fn part(&self, place: &Range<usize>) -> usize {
        self.tokens.part(place.start).unwrap_or(0)
    }

    /// The words of the same part, with where they stand.
    fn beside(&self, place: &Range<usize>) -> impl Iterator<Item = (usize, &str)> {
        let part = self.part(place);
        let words = self.words.iter().map(String::as_str).enumerate();
        words.filter(move |(at, _)| self.tokens.part(*at) == Some(part))
    }

    /// Whether the text says that this is not in the food, or no allergy of the dog's.
    fn denied(&self, place: &Range<usize>) -> bool {
        match self.text {
            Text::Food => self.tokens.denied(place),
            Text::Allergies => self.is_no_allergy(place) || self.is_borne(place),
        }
    }

    /// "no chicken allergy", "not allergic to chicken", "no known allergy to chicken".
    fn is_no_allergy(&self, place: &Range<usize>) -> bool {
        let allergy = |word: &str| word.starts_with("allerg") || word.starts_with("intoleran");
        let before: Vec<&str> =
            self.beside(place).filter(|(at, _)| *at < place.start).map(|(_, word)| word).collect();
        let next = self.beside(place).find(|(at, _)| *at == place.end).map(|(_, word)| word);
        let not_allergic =
            before.windows(2).any(|pair| NOT.contains(&pair[0]) && (allergy(pair[1]) || pair[1] == "known"));
        not_allergic || (next.is_some_and(allergy) && before.last().is_some_and(|word| NOT.contains(word)))
    }

    /// "tolerates lamb", "lamb is fine"; never where the same part says "not".
    fn is_borne(&self, place: &Range<usize>) -> bool {
        let turned = self.beside(place).any(|(_, word)| NOT.contains(&word));
        let borne = |at: usize, word: &str| {
            let said_before = at < place.start || at == place.end;
            let is_between = at == place.end + 1 && matches!(self.words[place.end].as_str(), "is" | "seems");
            BORNE.contains(&word) && (said_before || is_between)
        };
        !turned && self.beside(place).any(|(at, word)| borne(at, word))
    }
}

/// Reads a text.
pub(super) fn read(text: &str, about: Text) -> Read {
    let tokens = Tokens::of(text);
    let reader = Reader { words: tokens.words(), tokens, text: about };
    let mut taken = vec![false; reader.words.len()];
    let mut cleared: BTreeSet<(usize, Kind)> = BTreeSet::new();
    let mut places = Vec::new();
    for family in FAMILIES {
        for place in family.words.iter().flat_map(|phrase| reader.tokens.find(phrase, family.unless)) {
            taken[place.clone()].fill(true);
            let (part, word) = (reader.part(&place), reader.tokens.text(&place));
            if !reader.denied(&place) {
                places.extend(family.kinds.iter().map(|kind| (part, *kind, word.clone())));
            } else if family.clears && about == Text::Food {
                cleared.extend(family.kinds.iter().map(|kind| (part, *kind)));
            }
        }
    }
    places.retain(|(part, kind, _)| !cleared.contains(&(*part, *kind)));
    let mut read = Read::default();
    for (phrase, kinds) in VAGUE {
        for place in reader.tokens.find(phrase, &[]) {
            taken[place.clone()].fill(true);
            let part = reader.part(&place);
            let is_told = places.iter().any(|(other, kind, _)| *other == part && kinds.contains(kind));
            if !is_told && !reader.denied(&place) {
                let open = kinds.iter().filter(|kind| !cleared.contains(&(part, **kind)));
                read.vague.extend(open.map(|kind| (*kind, reader.tokens.text(&place))));
            }
        }
    }
    for (at, word) in reader.words.iter().enumerate().filter(|(at, _)| !taken[*at]) {
        let names_food = word.len() > 2 && !NO_FOOD.iter().chain(&BORNE).any(|other| is_word(word, other));
        if names_food && !reader.denied(&(at..at + 1)) {
            read.other.insert(word.clone());
        }
    }
    read.kinds = places.into_iter().map(|(_, kind, word)| (kind, word)).collect();
    read
}
