//! Finding a dog or household by a name that was not spelled as it is written.

use strsim::osa_distance;

/// Letters from which on one slip is forgiven, and from which on two are. House rule: in shorter words a slip makes another name.
const ONE_SLIP_FROM: usize = 4;
const TWO_SLIPS_FROM: usize = 8;

/// Whether every word that was typed is found in one of these texts: as a part of it, or as the beginning of a word of it but for a
/// slip (a letter too many, too few, wrong, or two that changed places).
pub fn is_found(typed: &str, texts: &[&str]) -> bool {
    let texts: Vec<String> = texts.iter().map(|text| text.to_lowercase()).collect();
    typed.to_lowercase().split_whitespace().all(|word| texts.iter().any(|text| has(text, word)))
}

fn has(text: &str, word: &str) -> bool {
    if text.contains(word) {
        return true;
    }
    let length = word.chars().count();
    let forgiven = match length {
        TWO_SLIPS_FROM.. => 2,
        ONE_SLIP_FROM.. => 1,
        _ => return false,
    };
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|other| !other.is_empty());
    words.into_iter().any(|other| {
        // the word so far, as long as what was typed, and a letter shorter or longer
        (length.saturating_sub(1)..=length + 1).any(|letters| {
            let start: String = other.chars().take(letters).collect();
            osa_distance(&start, word) <= forgiven
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_is_forgiven_in_longer_words_only() {
        let bracken = ["Bracken", "Okoro", "Working cocker spaniel"];
        for typed in ["bracken", "brack", "okor", "cocker", "BRACKEN OKORO", "spaniel bracken"] {
            assert!(is_found(typed, &bracken), "{typed}");
        }
        for typed in ["braken", "brakcen", "bracen", "brakken", "okkoro", "spanial", "wroking"] {
            assert!(is_found(typed, &bracken), "{typed}");
        }
        for typed in ["okr", "oak", "moss", "bracken moss", "brown", "xyzzy"] {
            assert!(!is_found(typed, &bracken), "{typed}");
        }
        assert!(is_found("", &bracken), "nothing typed, nothing left out");
        assert!(!is_found("Jet", &["Pet"]), "short names differ by one letter");
    }

    #[test]
    fn two_slips_are_forgiven_in_long_words() {
        assert!(is_found("retreiver", &["Golden retriever"]));
        assert!(is_found("dalmation", &["Dalmatian"]));
        assert!(is_found("labradodle", &["Labradoodle"]));
    }
}
