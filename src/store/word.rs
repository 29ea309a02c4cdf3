//! Between stored text and the words of `domain::vocabulary`.

use crate::domain::vocabulary::Word;

/// The word that a column's text stands for. The database's CHECK and the enum agree; if they ever do not, say so.
pub(in crate::store) fn word<W: Word>(text: &str) -> sqlx::Result<W> {
    W::from_stored(text).ok_or_else(|| {
        let kind = std::any::type_name::<W>();
        sqlx::Error::Decode(format!("{text:?} is no {kind}").into())
    })
}

/// The same for a column that holds several.
pub(in crate::store) fn all_words<W: Word>(texts: &[String]) -> sqlx::Result<Vec<W>> {
    texts.iter().map(|text| word(text)).collect()
}

/// The same for a column that may be null.
pub(in crate::store) fn word_or_none<W: Word>(text: Option<&str>) -> sqlx::Result<Option<W>> {
    text.map(word).transpose()
}
