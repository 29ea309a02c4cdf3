//! A finding as its card reads it: what to do first, then what was seen and why, then where that comes from.

use crate::domain::owner_words::OwnerWord;
use crate::domain::vocabulary::{FlagState, Severity, Word};
use crate::domain::welfare::Group;
use crate::store::flag::Flag;

/// One card.
pub struct Watch {
    /// The kind of mark: notice, caution, stop.
    pub kind: &'static str,
    /// How bad it is, in a word.
    pub word: &'static str,
    /// Its heading.
    pub title: &'static str,
    /// What to do, first things first.
    pub act: &'static str,
    /// What was seen.
    pub seen: String,
    /// Why it matters.
    pub why: &'static str,
    /// Where that comes from.
    pub source: &'static str,
    /// What became of it.
    pub answer: String,
    /// Whether it comes before everything else on a page.
    pub urgent: bool,
}

fn urgent(flag: &Flag) -> bool {
    flag.severity == Severity::Stop && matches!(flag.rule.group, Group::Health | Group::Safety)
}

impl Watch {
    /// A flag as owners read it.
    pub fn for_owner(flag: &Flag) -> Self {
        Self {
            kind: flag.severity.stored(),
            word: flag.severity.for_owner(),
            title: flag.rule.owner_title,
            act: flag.rule.owner_do,
            seen: flag.owner_seen.clone(),
            why: flag.rule.owner_why,
            source: flag.rule.source,
            answer: match (&flag.answered_by, flag.state) {
                (Some(name), FlagState::Answered) => format!("{name}: {}", flag.answer),
                (_, state) => state.for_owner().to_owned(),
            },
            urgent: urgent(flag),
        }
    }

    /// A flag as trainers read it.
    pub fn for_trainer(flag: &Flag) -> Self {
        Self {
            kind: flag.severity.stored(),
            word: flag.severity.label(),
            title: flag.rule.title,
            act: flag.rule.trainer_do,
            seen: flag.seen.clone(),
            why: flag.rule.why,
            source: flag.rule.source,
            answer: match (&flag.answered_by, flag.state) {
                (Some(name), FlagState::Answered) => format!("Answered by {name}: {}", flag.answer),
                (_, state) => state.label().to_owned(),
            },
            urgent: urgent(flag),
        }
    }
}
