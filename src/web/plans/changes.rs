//! What a draft changes against the published plan.

use crate::store::plan::PlanItem;

/// One difference.
pub struct Change {
    /// New, Changed or Taken out.
    pub what: &'static str,
    /// The item.
    pub name: String,
}

/// The differences, in the draft's order, then what is taken out. Order alone is none.
pub fn between(published: &[PlanItem], draft: &[PlanItem]) -> Vec<Change> {
    let mut changes: Vec<Change> = draft
        .iter()
        .filter_map(|item| {
            let before = published.iter().find(|old| old.line_id == item.line_id);
            let what = match before {
                None => "New",
                Some(old) if reads_the_same(old, item) => return None,
                Some(_) => "Changed",
            };
            Some(Change { what, name: item.name.clone() })
        })
        .collect();
    let gone = published.iter().filter(|old| !draft.iter().any(|item| item.line_id == old.line_id));
    changes.extend(gone.map(|old| Change { what: "Taken out", name: old.name.clone() }));
    changes
}

/// Whether an owner would read both the same.
fn reads_the_same(a: &PlanItem, b: &PlanItem) -> bool {
    let words = |item: &PlanItem| {
        [
            &item.name,
            &item.owner_why,
            &item.criterion,
            &item.set_up,
            &item.delivery,
            &item.equipment_note,
            &item.step_name,
            &item.place_name,
            &item.reinforcer_name,
            &item.cool_down_way,
            &item.caution,
            &item.note,
        ]
        .map(String::clone)
    };
    let numbers = |item: &PlanItem| {
        (
            item.step,
            item.attempts,
            item.times_a_week,
            item.minutes,
            item.line,
            item.clip,
            item.cool_down_minutes,
        )
    };
    numbers(a) == numbers(b) && words(a) == words(b)
}
