//! A plan as the rules see it, before it is published.

use super::place::PlaceFacts;
use super::vocabulary::{Clip, Energy, Finish, ItemKind, Line, Outcome, SkillClass};
use crate::ids::LineId;

/// One instruction of a plan. `None` means not stated.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedItem {
    /// What it is called.
    pub title: String,
    /// The instruction across versions; `None` where it is in no plan yet.
    pub line_id: Option<LineId>,
    /// What it is.
    pub kind: ItemKind,
    /// How much it winds a dog up.
    pub energy: Option<Energy>,
    /// Whether it means running, jumping or a sudden stop.
    pub impact: Option<bool>,
    /// How sure to be before moving on.
    pub class: Option<SkillClass>,
    /// What a sitting of it yields.
    pub outcome: Option<Outcome>,
    /// Which rung the step is, from 1.
    pub step_position: Option<i16>,
    /// The step's distance, in words; empty where it has none.
    pub distance: String,
    /// The step's duration, in words; empty where it has none.
    pub duration: String,
    /// How distracting the step is, 1–5.
    pub distraction: Option<i16>,
    /// How it is set up, what to wear and hold, and the trainer's note, in words.
    pub words: String,
    /// What joins dog and handler.
    pub line: Option<Line>,
    /// Where it is clipped.
    pub clip: Option<Clip>,
    /// Length of the line, metres.
    pub line_metres: Option<i16>,
    /// Attempts in a sitting.
    pub attempts: Option<i16>,
    /// Minutes in a sitting.
    pub minutes: Option<i16>,
    /// Sittings in a week.
    pub times_a_week: Option<i16>,
    /// Minutes of cool-down afterwards.
    pub cool_down_minutes: Option<i16>,
    /// The way of the cool-down.
    pub cool_down: Option<Finish>,
    /// Where, in words.
    pub place: Option<String>,
    /// How distracting that place is, 1–5.
    pub place_distraction: Option<i16>,
    /// What else is known of that place.
    pub place_facts: PlaceFacts,
    /// What is paid with, in words.
    pub reinforcer: Option<String>,
    /// What the reinforcer is worth to this dog, 1–5.
    pub reinforcer_rank: Option<i16>,
}

/// Whether goes at an item of this kind are the dog's practice: what the week's total asks for and what counts towards
/// it, for owners and trainers alike. An owner's skill is learnt without the dog and is shown apart. Stored queries that
/// count a week hold to the same rule: `kind = 'exercise'`.
pub fn counts_in_the_week(kind: ItemKind) -> bool {
    kind == ItemKind::Exercise
}

/// A plan's items, in the order in which the owner reads them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PlanFacts {
    /// The items.
    pub items: Vec<PlannedItem>,
}

impl PlannedItem {
    /// An item with nothing else stated.
    pub fn new(title: impl Into<String>, kind: ItemKind) -> Self {
        Self {
            title: title.into(),
            line_id: None,
            kind,
            energy: None,
            impact: None,
            class: None,
            outcome: None,
            step_position: None,
            distance: String::new(),
            duration: String::new(),
            distraction: None,
            words: String::new(),
            line: None,
            clip: None,
            line_metres: None,
            attempts: None,
            minutes: None,
            times_a_week: None,
            cool_down_minutes: None,
            cool_down: None,
            place: None,
            place_distraction: None,
            place_facts: PlaceFacts::default(),
            reinforcer: None,
            reinforcer_rank: None,
        }
    }

    /// Whether it winds a dog up or makes it run; not stated is not arousing.
    pub fn is_arousing(&self) -> bool {
        self.energy == Some(Energy::Arousing) || self.impact == Some(true)
    }

    /// Whether it says how the dog comes down afterwards.
    pub fn has_cool_down(&self) -> bool {
        self.cool_down_minutes.is_some_and(|minutes| minutes > 0)
            || self.cool_down.is_some_and(|way| way != Finish::StraightHome)
    }
}
