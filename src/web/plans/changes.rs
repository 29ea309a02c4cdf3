//! What one plan changes against the one before it, item by item, as trainers or owners read it.

use crate::store::plan::PlanItem;
use crate::web::plans::words;

/// Who reads what changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reader {
    /// A trainer, before and after publishing.
    Trainer,
    /// An owner, who has the plan.
    Owner,
}

/// One item that differs.
pub struct Change {
    /// New, Changed or Taken out.
    pub what: &'static str,
    /// The item.
    pub name: String,
    /// What differs, each in a few words: "Step 3 → 4: Length of the garden". Empty for what is new or taken out.
    pub details: Vec<String>,
}

/// The differences, in the later plan's order, then what is taken out. Order alone is none.
pub fn between(before: &[PlanItem], after: &[PlanItem], reader: Reader) -> Vec<Change> {
    let mut changes: Vec<Change> = after
        .iter()
        .filter_map(|item| {
            let name = item.name.clone();
            let Some(old) = before.iter().find(|old| old.line_id == item.line_id) else {
                return Some(Change { what: "New", name, details: Vec::new() });
            };
            let details = details(old, item, reader);
            (!details.is_empty()).then_some(Change { what: "Changed", name, details })
        })
        .collect();
    let gone = before.iter().filter(|old| !after.iter().any(|item| item.line_id == old.line_id));
    changes.extend(gone.map(|old| Change { what: "Taken out", name: old.name.clone(), details: Vec::new() }));
    changes
}

/// Everything that an owner would read differently.
fn details(old: &PlanItem, new: &PlanItem, reader: Reader) -> Vec<String> {
    let owner = reader == Reader::Owner;
    let (reward, wear, earns) = match reader {
        Reader::Trainer => ("Reinforcer", "Line and clip", "criterion"),
        Reader::Owner => ("Reward", "Wear", "what earns the “yes”"),
    };
    let cool_down = |item: &PlanItem| words::cool_down(item.cool_down_minutes, &item.cool_down_way);
    let parts = [
        (old.name != new.name).then(|| format!("Was called “{}”", old.name)),
        step(old, new),
        number("Tries", old.attempts, new.attempts),
        number("Times a week", old.times_a_week, new.times_a_week),
        number("Minutes", old.minutes, new.minutes),
        text(if owner { "Where" } else { "Place" }, &old.place_name, &new.place_name),
        text(reward, &old.reinforcer_name, &new.reinforcer_name),
        text(wear, &words::wear(old.line, old.clip), &words::wear(new.line, new.clip)),
        text(if owner { "Then" } else { "Cool-down" }, &cool_down(old), &cool_down(new)),
        (old.note != new.note).then(|| match new.note.is_empty() {
            true => "The note is gone".to_owned(),
            false => format!("Note: {}", new.note),
        }),
        reworded(old, new, earns),
    ];
    parts.into_iter().flatten().collect()
}

/// Another rung, or the same one under another name. What it asks for changes with it and is not named again.
fn step(old: &PlanItem, new: &PlanItem) -> Option<String> {
    match (old.step_position, new.step_position) {
        _ if old.step == new.step && old.step_name == new.step_name => None,
        (Some(before), Some(after)) if before != after => {
            Some(format!("Step {before} → {after}: {}", new.step_name))
        }
        (_, Some(after)) => Some(format!("Step {after}: {}", new.step_name)),
        (_, None) => Some("No step".to_owned()),
    }
}

fn number(what: &str, old: Option<i16>, new: Option<i16>) -> Option<String> {
    let words = |n: Option<i16>| n.map_or("not stated".to_owned(), |n| n.to_string());
    (old != new).then(|| format!("{what} {} → {}", words(old), words(new)))
}

fn text(what: &str, old: &str, new: &str) -> Option<String> {
    match (old, new) {
        _ if old == new => None,
        (old, "") => Some(format!("{what}: no longer “{old}”")),
        ("", new) => Some(format!("{what}: {new}")),
        (old, new) => Some(format!("{what}: {old} → {new}")),
    }
}

/// The wording that differs, by its parts: the texts themselves are too long for a list.
fn reworded(old: &PlanItem, new: &PlanItem, earns: &str) -> Option<String> {
    let same_step = old.step == new.step;
    let parts = [
        (same_step && old.criterion != new.criterion, earns),
        (old.set_up != new.set_up || old.delivery != new.delivery, "how to do it"),
        (old.equipment_note != new.equipment_note, "equipment"),
        (old.owner_why != new.owner_why, "why"),
        (old.caution != new.caution, "what to take care of"),
    ];
    let named: Vec<&str> = parts.into_iter().filter(|(differs, _)| *differs).map(|(_, part)| part).collect();
    (!named.is_empty()).then(|| format!("Worded anew: {}", named.join(", ")))
}
