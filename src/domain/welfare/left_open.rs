//! What a plan leaves open: one finding for all the exercises that do.

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
