//! A library as a file, to be kept, sent to a colleague or read into another practice: one JSON document, version 1.
//!
//! [`fields`] and [`step_fields`] are the whole of it to read; the page `/library/format` shows them. Reading judges every
//! field of every exercise and names each that is not right; an unknown field is refused, since what it meant would be
//! lost without a word.

mod judge;
mod read;
mod write;

pub use judge::Problem;
pub use read::read;
pub use write::write;

use crate::domain::vocabulary::{Clip, Energy, ItemKind, Line, Outcome, SkillClass, Word};

/// What the document says that it is.
pub const FORMAT: &str = "exercise-library";
/// The version that is written, and the only one that is read.
pub const VERSION: i16 = 1;
/// The most exercises in one file.
pub const MOST_ENTRIES: usize = 1000;
/// The most steps of one exercise.
pub const MOST_STEPS: usize = 12;
/// The most characters of a file.
pub const MOST_CHARACTERS: usize = 1_000_000;

/// One exercise of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// What it is.
    pub kind: ItemKind,
    /// What it is called.
    pub name: String,
    /// What the trainer uses it for.
    pub purpose: String,
    /// Why it is worth the owner's time.
    pub owner_why: String,
    /// What earns the marker.
    pub criterion: String,
    /// What to have ready and where to stand.
    pub set_up: String,
    /// How to do it and how the reinforcer arrives.
    pub delivery: String,
    /// What is worn and held, in words.
    pub equipment_note: String,
    /// What joins dog and handler.
    pub line: Line,
    /// Where the line is clipped; `None` where there is no line or it is not stated.
    pub clip: Option<Clip>,
    /// How much it winds a dog up.
    pub energy: Energy,
    /// Whether it means running or impact.
    pub impact: bool,
    /// How sure to be before moving on.
    pub class: SkillClass,
    /// What a sitting yields.
    pub outcome: Outcome,
    /// Minutes of cool-down.
    pub cool_down_minutes: i16,
    /// How to cool down.
    pub cool_down_way: String,
    /// Attempts usually asked for in one sitting.
    pub usual_attempts: i16,
    /// Sittings usually asked for in a week.
    pub usual_times_a_week: i16,
    /// When to stop, and when to ask somebody.
    pub caution: String,
    /// A published source, or "common practice".
    pub source: String,
    /// The ladder, easiest first.
    pub steps: Vec<Rung>,
}

/// One step of an exercise of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rung {
    /// What it is called.
    pub name: String,
    /// What earns the marker on it.
    pub criterion: String,
    /// How far, in words.
    pub distance: String,
    /// How long, in words.
    pub duration: String,
    /// How distracting the place is, 1–5.
    pub distraction: i16,
}

/// What a field takes.
#[derive(Debug, Clone)]
pub enum Takes {
    /// A text of at most so many characters.
    Text(usize),
    /// A whole number from one to the other.
    Whole(i16, i16),
    /// True or false.
    YesNo,
    /// One of these words.
    OneOf(Vec<&'static str>),
    /// A list of steps.
    Steps,
}

/// A field as the page about the format shows it.
#[derive(Debug, Clone)]
pub struct Field {
    /// Its name in the file.
    pub name: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// What holds where it is left out; `None` where it must be there.
    pub otherwise: Option<&'static str>,
}

fn stored<W: Word>() -> Takes {
    Takes::OneOf(W::ALL.iter().map(|word| word.stored()).collect())
}

fn field(
    name: &'static str,
    takes: Takes,
    otherwise: impl Into<Option<&'static str>>,
    meaning: &'static str,
) -> Field {
    Field { name, meaning, takes, otherwise: otherwise.into() }
}

/// The fields of an exercise, in the order in which they are written.
pub fn fields() -> Vec<Field> {
    use Takes::{Steps, Text, Whole, YesNo};
    vec![
        field("kind", stored::<ItemKind>(), None, "What it is."),
        field("name", Text(120), None, "What it is called; once in a library."),
        field("purpose", Text(1000), "", "What a trainer uses it for."),
        field("owner_why", Text(1000), "", "Why it is worth the owner’s time."),
        field(
            "criterion",
            Text(1000),
            None,
            "What earns the marker; of an arrangement, what kept looks like.",
        ),
        field("set_up", Text(2000), "", "What to have ready and where to stand."),
        field("delivery", Text(2000), "", "How it goes, and how the reinforcer arrives."),
        field("equipment_note", Text(1000), "", "What is worn and held, in words."),
        field("line", stored::<Line>(), "none", "What joins dog and handler."),
        field(
            "clip",
            stored::<Clip>(),
            "not stated",
            "Where the line is clipped. A long line needs it, but in an owner’s skill.",
        ),
        field("energy", stored::<Energy>(), "calm", "How much it winds a dog up."),
        field("impact", YesNo, "false", "Whether it means running, jumping or tugging."),
        field("class", stored::<SkillClass>(), "ordinary", "How sure to be before moving on."),
        field("outcome", stored::<Outcome>(), "count", "What a sitting yields."),
        field("cool_down_minutes", Whole(0, 60), "0", "Minutes of cool-down."),
        field("cool_down_way", Text(200), "", "How to cool down."),
        field("usual_attempts", Whole(1, 50), "10", "Tries in a sitting."),
        field("usual_times_a_week", Whole(1, 21), "4", "Sittings in a week."),
        field("caution", Text(1000), "", "When to stop, and when to ask somebody."),
        field("source", Text(500), "common practice", "A published source, or “common practice”."),
        field("steps", Steps, "none", "The ladder, easiest first; at most twelve."),
    ]
}

/// The fields of a step.
pub fn step_fields() -> Vec<Field> {
    use Takes::{Text, Whole};
    vec![
        field("name", Text(160), None, "What it is called."),
        field("criterion", Text(1000), None, "What earns the marker on it."),
        field("distance", Text(120), "", "How far, in words."),
        field("duration", Text(120), "", "How long, in words."),
        field("distraction", Whole(1, 5), None, "How distracting the place is, from 1 to 5."),
    ]
}

#[cfg(test)]
mod tests;
