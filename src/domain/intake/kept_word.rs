//! Words of closed sets as kept answers hold them: by their stored text.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::domain::vocabulary::Word;

fn word<W: Word, E: Error>(text: &str) -> Result<W, E> {
    W::from_stored(text).ok_or_else(|| E::custom(format!("{text:?} is no answer")))
}

/// One word, or not stated.
pub mod one {
    use super::*;

    /// Writes it.
    pub fn serialize<W: Word, S: Serializer>(said: &Option<W>, to: S) -> Result<S::Ok, S::Error> {
        said.map(Word::stored).serialize(to)
    }

    /// Reads it; fails on a text that is no word of the set.
    pub fn deserialize<'de, W: Word, D: Deserializer<'de>>(from: D) -> Result<Option<W>, D::Error> {
        Option::<String>::deserialize(from)?.as_deref().map(word).transpose()
    }
}

/// Several words.
pub mod several {
    use super::*;

    /// Writes them.
    pub fn serialize<W: Word, S: Serializer>(said: &[W], to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(said.iter().copied().map(Word::stored))
    }

    /// Reads them; fails on a text that is no word of the set.
    pub fn deserialize<'de, W: Word, D: Deserializer<'de>>(from: D) -> Result<Vec<W>, D::Error> {
        Vec::<String>::deserialize(from)?.iter().map(|text| word(text)).collect()
    }
}
