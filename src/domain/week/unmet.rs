//! What a week could not satisfy, in words.

use crate::domain::dates::counted;

/// Something that a week could not satisfy.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unmet {
    /// Sittings that found no day.
    LeftOver {
        /// Which of what was asked for.
        asked: usize,
        /// How many.
        sittings: usize,
    },
    /// A sitting that is longer than the dog's age allows is laid out shorter.
    Shortened {
        /// Which of what was asked for.
        asked: usize,
        /// Minutes asked for.
        from: i16,
        /// Minutes laid out.
        to: i16,
    },
    /// Arousing or running work stands on neighbouring days.
    NoDayBetween,
    /// Something is asked for on every day.
    NoRestDay,
}

impl Unmet {
    /// Notes sittings that found no day, if there are any.
    pub(super) fn left_over(asked: usize, sittings: usize, unmet: &mut Vec<Self>) {
        if sittings > 0 {
            unmet.push(Self::LeftOver { asked, sittings });
        }
    }

    /// One sentence for trainers; `name` says what an exercise is called.
    pub fn for_trainer(self, name: impl Fn(usize) -> String) -> String {
        match self {
            Self::LeftOver { asked, sittings } => format!(
                "{}: no room for {} a week. A day takes three sittings at most, one of them exciting.",
                name(asked),
                counted(sittings as i64, "sitting", "sittings")
            ),
            Self::Shortened { asked, from, to } => {
                format!("{}: {from} minutes are planned; {to} are enough at this age.", name(asked))
            }
            Self::NoDayBetween => {
                "Exciting or running work falls on neighbouring days: there are too few days for it."
                    .to_owned()
            }
            Self::NoRestDay => "No day is free: something is asked for on every day.".to_owned(),
        }
    }
}
