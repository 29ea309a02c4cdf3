//! How rules read a plan: exercise by exercise, or one finding for all that leave something open.

use super::catalogue::{Finding, Rule};
use crate::domain::lists::in_a_sentence;
use crate::domain::plan::{PlanFacts, PlannedItem};
use crate::domain::vocabulary::{ItemKind, Severity};

/// A notice of the exercises that leave something open; it leads to the first of them. Arrangements and owners' skills
/// have no such field.
pub(super) fn left_open(
    plan: &PlanFacts,
    rule: &'static Rule,
    is_open: impl Fn(&PlannedItem) -> bool,
    what: &str,
) -> Option<Finding> {
    let exercises = plan.items.iter().enumerate().filter(|(_, item)| item.kind == ItemKind::Exercise);
    let open: Vec<(usize, &PlannedItem)> = exercises.filter(|(_, item)| is_open(item)).collect();
    let (first, _) = open.first()?;
    let titles: Vec<String> = open.iter().map(|(_, item)| format!("“{}”", item.title)).collect();
    let (all, says) = (in_a_sentence(&titles), if titles.len() > 1 { "do" } else { "does" });
    let finding = Finding::new(
        rule,
        Severity::Notice,
        format!("{all} {says} not say {what}."),
        format!("Your plan does not say {what} for {all}."),
    );
    Some(Finding { item: Some(*first), ..finding })
}

/// What a rule finds in each exercise of a plan, with where it stands.
pub(super) fn in_exercises(plan: &PlanFacts, look: impl Fn(&PlannedItem) -> Option<Finding>) -> Vec<Finding> {
    let exercises = plan.items.iter().enumerate().filter(|(_, item)| item.kind == ItemKind::Exercise);
    exercises.filter_map(|(index, item)| Some(Finding { item: Some(index), ..look(item)? })).collect()
}

/// Whether a text names something solid between a dog and others.
pub(super) fn names_barrier(text: &str) -> bool {
    const SOLID: [&str; 11] =
        ["muzzle", "muzzled", "gate", "gates", "barrier", "fence", "fenced", "pen", "crate", "door", "doors"];
    let words = text.split(|c: char| !c.is_alphabetic());
    words.map(str::to_lowercase).any(|word| SOLID.contains(&word.as_str()))
}

/// Whether the title of an arrangement names something that keeps others apart from a dog. A door or a fence that is spoken of
/// along the way is none.
pub(super) fn is_between(title: &str) -> bool {
    const BETWEEN: [&str; 5] = ["gate", "gates", "barrier", "pen", "crate"];
    let words = title.split(|c: char| !c.is_alphabetic());
    words.map(str::to_lowercase).any(|word| BETWEEN.contains(&word.as_str()))
}

/// The standing arrangements of a plan.
pub(super) fn arrangements(plan: &PlanFacts) -> impl Iterator<Item = &PlannedItem> {
    plan.items.iter().filter(|item| item.kind == ItemKind::StandingArrangement)
}
