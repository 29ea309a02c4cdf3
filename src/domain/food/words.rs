//! Foods in free text: whole words, without case or accents, in one or many, and not where they are denied.

use std::ops::Range;

/// Words of a text in order, each with the part of the sentence in which it stands.
pub(super) struct Tokens {
    tokens: Vec<Token>,
    /// Which letters its words begin with, one bit a letter: most phrases are told apart by that alone.
    initials: u32,
}

struct Token {
    word: String,
    part: usize,
}

/// The bit of a word's first letter; digits and all other letters share one.
fn initial(word: &str) -> u32 {
    match word.bytes().next() {
        Some(letter @ b'a'..=b'z') => 1 << (letter - b'a'),
        _ => 1 << 31,
    }
}

/// A letter without its accent, in lower case; empty for marks that only decorate the letter before.
fn plain(letter: char) -> &'static str {
    match letter {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'ā' | 'ă' | 'ą' => "a",
        'ç' | 'ć' | 'č' => "c",
        'ď' | 'đ' => "d",
        'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ė' | 'ę' | 'ě' => "e",
        'ğ' | 'ģ' => "g",
        'ì' | 'í' | 'î' | 'ï' | 'ī' | 'į' | 'ı' => "i",
        'ł' | 'ľ' | 'ļ' => "l",
        'ñ' | 'ń' | 'ň' | 'ņ' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' | 'ō' | 'ő' => "o",
        'ř' => "r",
        'ś' | 'š' | 'ş' | 'ș' => "s",
        'ť' | 'ţ' | 'ț' => "t",
        'ù' | 'ú' | 'û' | 'ü' | 'ū' | 'ů' | 'ű' | 'ų' => "u",
        'ý' | 'ÿ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        'æ' => "ae",
        'œ' => "oe",
        'ß' => "ss",
        _ => "",
    }
}

impl Tokens {
    /// The words of a text.
    pub(super) fn of(text: &str) -> Self {
        let (mut tokens, mut word, mut part) = (Vec::new(), String::new(), 0);
        for letter in text.chars().flat_map(char::to_lowercase).chain([' ']) {
            match letter {
                '\'' | '’' | '\u{300}'..='\u{36f}' => {}
                _ if letter.is_ascii_alphanumeric() => word.push(letter),
                _ if !plain(letter).is_empty() => word.push_str(plain(letter)),
                _ if letter.is_alphanumeric() => word.push(letter),
                _ => {
                    if !word.is_empty() {
                        tokens.push(Token { word: std::mem::take(&mut word), part });
                    }
                    match letter {
                        ',' | ';' | '.' | ':' | '(' | ')' | '\n' | '!' | '?' => part += 1,
                        '/' => tokens.push(Token { word: "or".to_owned(), part }),
                        _ => {}
                    }
                }
            }
        }
        let initials = tokens.iter().fold(0, |initials, token: &Token| initials | initial(&token.word));
        Self { tokens, initials }
    }

    /// The words alone.
    pub(super) fn words(&self) -> Vec<String> {
        self.tokens.iter().map(|token| token.word.clone()).collect()
    }

    /// The part of the sentence in which a place stands.
    pub(super) fn part(&self, place: usize) -> Option<usize> {
        self.tokens.get(place).map(|token| token.part)
    }

    /// How the words of a place read.
    pub(super) fn text(&self, place: &Range<usize>) -> String {
        let words: Vec<&str> = self.tokens[place.clone()].iter().map(|token| token.word.as_str()).collect();
        words.join(" ")
    }

    /// Where a phrase stands, plurals as well, without those inside a phrase that means something else.
    pub(super) fn find(&self, phrase: &str, unless: &[&str]) -> Vec<Range<usize>> {
        let inside = |place: &Range<usize>| {
            let mut others = unless.iter().flat_map(|other| self.every(other));
            others.any(|other| other.start <= place.start && place.end <= other.end)
        };
        self.every(phrase).filter(|place| !inside(place)).collect()
    }

    /// Every place of a phrase. Nothing is allocated for those that do not stand in the text, which are nearly all.
    fn every(&self, phrase: &str) -> impl Iterator<Item = Range<usize>> {
        let tried = if self.initials & initial(phrase) == 0 { 0 } else { self.tokens.len() };
        (0..tried).filter_map(move |at| self.stands(at, phrase))
    }

    /// The place of a phrase that begins here, all of it in one part of the sentence.
    fn stands(&self, at: usize, phrase: &str) -> Option<Range<usize>> {
        let part = self.part(at);
        let mut end = at;
        for word in phrase.split(' ') {
            let token = self.tokens.get(end).filter(|token| Some(token.part) == part)?;
            if !is_word(&token.word, word) {
                return None;
            }
            end += 1;
        }
        Some(at..end)
    }

    /// Whether the text says that what stands in a place is not there: "no onion", "free from onion or garlic",
    /// "onion-free". Where that is doubtful, it is taken to be there.
    pub(super) fn denied(&self, place: &Range<usize>) -> bool {
        self.denied_before(place.start) || self.denied_after(place)
    }

    fn denied_before(&self, start: usize) -> bool {
        const FILLERS: [&str; 8] = ["any", "added", "more", "extra", "raw", "cooked", "fresh", "of"];
        const DENIALS: [&str; 10] =
            ["no", "not", "without", "non", "never", "nor", "neither", "minus", "avoid", "avoids"];
        let Some(part) = self.part(start) else { return false };
        let word = |place: usize| {
            self.tokens.get(place).filter(|token| token.part == part).map(|token| token.word.as_str())
        };
        let mut at = start;
        while let Some(before) = at.checked_sub(1) {
            let further = before.checked_sub(1);
            match (further.and_then(word), word(before)) {
                (Some("free"), Some("of" | "from"))
                | (Some("instead"), Some("of"))
                | (Some("rather"), Some("than")) => {
                    return true;
                }
                (_, Some(denial)) if DENIALS.contains(&denial) => return true,
                (Some(_), Some("or")) => {
                    return (1..=2).any(|words| {
                        before.checked_sub(words).is_some_and(|other| {
                            word(other).is_some_and(|word| word != "or") && self.denied_before(other)
                        })
                    });
                }
                (_, Some(filler)) if FILLERS.contains(&filler) => at = before,
                _ => return false,
            }
        }
        false
    }

    fn denied_after(&self, place: &Range<usize>) -> bool {
        let part = self.part(place.start);
        let word = |at: usize| {
            self.tokens.get(at).filter(|token| Some(token.part) == part).map(|token| token.word.as_str())
        };
        word(place.end) == Some("free") && !matches!(word(place.end + 1), Some("range" | "from" | "of"))
    }
}

/// Whether a word of a text is this word, in one or many.
pub(super) fn is_word(found: &str, word: &str) -> bool {
    let Some(rest) = found.strip_prefix(word) else {
        let stem = word.strip_suffix('y').filter(|stem| !stem.is_empty());
        return stem.is_some_and(|stem| found.strip_prefix(stem) == Some("ies"));
    };
    matches!(rest, "" | "s" | "es")
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn found(text: &str, phrase: &str) -> usize {
        Tokens::of(text).find(phrase, &[]).len()
    }

    fn denied(text: &str, phrase: &str) -> bool {
        let tokens = Tokens::of(text);
        let places = tokens.find(phrase, &[]);
        assert_eq!(places.len(), 1, "{text}");
        tokens.denied(&places[0])
    }

    #[test]
    fn words_are_whole_without_case_accents_or_number() {
        assert_eq!(found("ONIONS, Onion; onïon and an onion’s skin", "onion"), 4);
        assert_eq!(found("grapefruit", "grape"), 0);
        assert_eq!(found("berries", "berry") + found("radishes", "radish"), 2);
        assert_eq!(found("Crème fraîche", "creme fraiche"), 1);
        assert_eq!(found("cre\u{300}me", "creme"), 1);
        assert_eq!(
            found("peanut. butter", "peanut butter"),
            0,
            "a phrase stands in one part of the sentence"
        );
        assert_eq!(found("twaróg", "twarog"), 1);
    }

    #[test]
    fn what_is_denied_is_not_there() {
        for text in [
            "no onion",
            "No added onion",
            "without onions",
            "onion-free",
            "onion free",
            "free from onion",
            "free of any onion",
            "no garlic or onion",
            "free from garlic or onion",
            "not onion",
            "garlic instead of onion",
            "no spring garlic or onion",
            "no garlic/onion",
        ] {
            assert!(denied(text, "onion"), "{text}");
        }
        for text in [
            "onion",
            "grain-free onion",
            "no garlic, onion",
            "no garlic. Onion",
            "onion free from garlic",
            "garlic or onion",
            "onion, free range eggs",
            "onion free range",
            "no-bake onion",
        ] {
            assert!(!denied(text, "onion"), "{text}");
        }
    }

    #[test]
    fn a_phrase_that_means_something_else_excuses_its_words() {
        let tokens = Tokens::of("grape tomatoes and grapes");
        let places = tokens.find("grape", &["grape tomato"]);
        assert_eq!((places.len(), places[0].start), (1, 3));
    }

    proptest! {
        #[test]
        fn no_text_panics(text in ".{0,60}", phrase in "[a-z]{1,4}( [a-z]{1,4})?") {
            let tokens = Tokens::of(&text);
            for place in tokens.find(&phrase, &["a b"]) {
                tokens.denied(&place);
                tokens.text(&place);
            }
        }

        #[test]
        fn denials_end(words in proptest::collection::vec("(no|or|of|free|from|onion|any|,)", 0..12)) {
            let tokens = Tokens::of(&words.join(" "));
            for place in tokens.find("onion", &[]) {
                tokens.denied(&place);
            }
        }
    }
}
