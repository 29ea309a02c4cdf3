//! What happened in life beside the training, for every chart of a dog.

use crate::domain::charts::Mark;
use crate::domain::vocabulary::Word;
use crate::ids::DogId;
use crate::store::{Result, Tx, life_event};

/// The longest part of a note that stands beside a mark, in characters.
const NOTE: usize = 60;

/// What happened in a dog's life, by its day, oldest first: drawn as a numbered line on every chart, and listed under it and in
/// its table. What lasts is marked where it begins and where it ends.
pub async fn marks_of(tx: &mut Tx, dog: DogId) -> Result<Vec<Mark>> {
    let mut marks = Vec::new();
    for event in life_event::of_dog(tx, dog, None).await? {
        let kind = event.told.kind.label();
        let note: String = event.told.note.chars().take(NOTE).collect();
        let words = if note.is_empty() { kind.to_owned() } else { format!("{kind}: {note}") };
        if let Some(to) = event.told.to.filter(|to| *to > event.told.from) {
            marks.push(Mark { on: to, words: format!("{kind} ends") });
        }
        marks.push(Mark { on: event.told.from, words });
    }
    marks.sort_by(|a, b| (a.on, &a.words).cmp(&(b.on, &b.words)));
    Ok(marks)
}
