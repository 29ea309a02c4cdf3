//! The starter library: what a new practice finds on its shelf and may rewrite.
//!
//! Wording is written for this product. Each entry is copied into a practice when it is set up, after which
//! the practice's own copy counts and this table is not consulted again; `key` only says where it came from.
//! Everything here is read by owners except `purpose`, which is the trainer's reason.

mod arrangements;
mod calm;
mod coming_back;
mod handling;
mod manners;
mod owner_skills;
#[cfg(test)]
mod tests;
mod worry;

use super::vocabulary::{Clip, Energy, ItemKind, Line, Outcome, SkillClass};

/// One rung of a ladder. Between neighbours only one of distance, duration and distraction gets harder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StarterStep {
    /// A short name an owner can say aloud.
    pub name: &'static str,
    /// What earns the "yes" on this rung.
    pub criterion: &'static str,
    /// Metres; 0 where distance is no part of it. In exercises measured by distance, nearer is harder.
    pub distance: u16,
    /// Seconds; 0 where duration is no part of it.
    pub duration: u16,
    /// 1 home, nothing on · 2 garden or quiet street · 3 quiet park · 4 busy park · 5 trigger close.
    pub distraction: u8,
}

/// One entry: an exercise, a standing arrangement or an owner's skill without the dog.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StarterExercise {
    /// A stable slug, never shown.
    pub key: &'static str,
    /// Name on the plan.
    pub name: &'static str,
    /// Which kind of plan line it makes.
    pub kind: ItemKind,
    /// What the trainer uses it for, in the trade's words.
    pub purpose: &'static str,
    /// Why it is worth the owner's time, in plain words.
    pub owner_why: &'static str,
    /// What earns the "yes"; for an arrangement, what "kept" looks like.
    pub criterion: &'static str,
    /// What to have ready and where to stand.
    pub set_up: &'static str,
    /// How to do it and how the reward arrives.
    pub delivery: &'static str,
    /// What is worn and held, and what is not.
    pub equipment_note: &'static str,
    /// What joins dog and handler.
    pub line: Line,
    /// Where it clips; none where there is no line.
    pub clip: Option<Clip>,
    /// How much it stirs the dog up.
    pub energy: Energy,
    /// Whether it has running, jumping or tugging in it.
    pub impact: bool,
    /// How sure counts must be before a harder step.
    pub class: SkillClass,
    /// What is measured.
    pub outcome: Outcome,
    /// Minutes of coming down afterwards; 0 after calm work.
    pub cool_down_minutes: u8,
    /// How to come down; empty after calm work.
    pub cool_down_way: &'static str,
    /// Attempts usually asked for at one sitting; 0 where nothing is counted.
    pub usual_attempts: u8,
    /// Sittings usually asked for in a week; 7 for arrangements kept daily.
    pub usual_times_a_week: u8,
    /// When to stop, and when to ask a vet or behaviourist.
    pub caution: &'static str,
    /// The ladder, easiest first; empty for standing arrangements.
    pub steps: &'static [StarterStep],
    /// A published source, or "common practice".
    pub source: &'static str,
}

/// Every entry, in the order a practice's library shows them.
pub fn all() -> impl Iterator<Item = &'static StarterExercise> {
    [
        calm::ENTRIES,
        coming_back::ENTRIES,
        manners::ENTRIES,
        handling::ENTRIES,
        worry::ENTRIES,
        arrangements::ENTRIES,
        owner_skills::ENTRIES,
    ]
    .into_iter()
    .flatten()
}

/// The entry with this key, if there is one.
pub fn find(key: &str) -> Option<&'static StarterExercise> {
    all().find(|entry| entry.key == key)
}

/// A rung, in the order name, criterion, metres, seconds, distraction.
const fn step(
    name: &'static str,
    criterion: &'static str,
    distance: u16,
    duration: u16,
    distraction: u8,
) -> StarterStep {
    StarterStep { name, criterion, distance, duration, distraction }
}

/// Calm indoor work that needs no line: what most entries start from.
const CALM: StarterExercise = StarterExercise {
    key: "",
    name: "",
    kind: ItemKind::Exercise,
    purpose: "",
    owner_why: "",
    criterion: "",
    set_up: "",
    delivery: "",
    equipment_note: "Nothing on the dog is needed indoors.",
    line: Line::None,
    clip: None,
    energy: Energy::Calm,
    impact: false,
    class: SkillClass::Ordinary,
    outcome: Outcome::Count,
    cool_down_minutes: 0,
    cool_down_way: "",
    usual_attempts: 10,
    usual_times_a_week: 4,
    caution: "",
    steps: &[],
    source: "common practice",
};
