//! What happened in life beside the training, for every chart of a dog.

use crate::domain::charts::Mark;
use crate::domain::vocabulary::Word;
use crate::ids::DogId;
use crate::store::life_event::{self, LifeEvent};
use crate::store::reading::Reading;

/// The longest part of a note that stands beside a mark, in characters.
const NOTE: usize = 60;

/// What happened in a dog's life, by its day, oldest first: drawn as a numbered line on every chart, and listed under it and in
/// its table. What lasts is marked where it begins and where it ends.
pub fn marks_of(dog: DogId) -> Reading<Vec<Mark>> {
    life_event::of_dog(dog, None).then(|events| Ok(marks(events)))
}

fn marks(events: Vec<LifeEvent>) -> Vec<Mark> {
    let mut marks = Vec::new();
    for event in events {
        let kind = event.told.kind.label();
        let note: String = event.told.note.chars().take(NOTE).collect();
        let words = if note.is_empty() { kind.to_owned() } else { format!("{kind}: {note}") };
        if let Some(to) = event.told.to.filter(|to| *to > event.told.from) {
            marks.push(Mark { on: to, words: format!("{kind} ends") });
        }
        marks.push(Mark { on: event.told.from, words });
    }
    marks.sort_by(|a, b| (a.on, &a.words).cmp(&(b.on, &b.words)));
    marks
}
