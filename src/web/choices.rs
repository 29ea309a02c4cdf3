//! The answers of selects and radios, as pairs of value and words.

use crate::domain::vocabulary::Word;

/// Value and words.
pub type Choices = Vec<(String, String)>;

/// Yes and no.
pub const YES_NO: [(&str, &str); 2] = [("yes", "Yes"), ("no", "No")];

/// Every word of a closed set.
pub fn words<W: Word>() -> Choices {
    W::ALL.iter().map(|word| (word.stored().to_owned(), word.label().to_owned())).collect()
}

/// The levels of a scale, each with what it looks like.
pub fn scale(levels: &[(i16, &str)]) -> Choices {
    levels.iter().map(|(level, words)| (level.to_string(), format!("{level} · {words}"))).collect()
}

/// Yes, no or nothing, as a form sends it.
pub fn yes_no(said: Option<bool>) -> &'static str {
    match said {
        Some(true) => "yes",
        Some(false) => "no",
        None => "",
    }
}

/// A number as a form shows it, or nothing.
pub fn number<N: ToString>(said: Option<N>) -> String {
    said.map(|n| n.to_string()).unwrap_or_default()
}
