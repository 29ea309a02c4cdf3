//! A plan as the rules see it, before it is published.

use super::vocabulary::{Clip, Energy, Finish, ItemKind, Line, SkillClass};

/// One instruction of a plan. `None` means not stated.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedItem {
    /// What it is called.
    pub title: String,
    /// What it is.
    pub kind: ItemKind,
    /// How much it winds a dog up.
    pub energy: Option<Energy>,
    /// Whether it means running, jumping or a sudden stop.
    pub impact: Option<bool>,
    /// How sure to be before moving on.
    pub class: Option<SkillClass>,
    /// What joins dog and handler.
    pub line: Option<Line>,
    /// Where it is clipped.
    pub clip: Option<Clip>,
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
    /// What is paid with, in words.
    pub reinforcer: Option<String>,
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
            kind,
            energy: None,
            impact: None,
            class: None,
            line: None,
            clip: None,
            attempts: None,
            minutes: None,
            times_a_week: None,
            cool_down_minutes: None,
            cool_down: None,
            place: None,
            reinforcer: None,
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
