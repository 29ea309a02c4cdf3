//! Small words of the day's page.

use crate::domain::dates::counted;
use crate::domain::vocabulary::Line;
use crate::store::plan::PlanItem;
use crate::web::practice_logs::ask::{clip_words, line_words};

/// What to wear: "Long line, on the back of the harness". Empty where nothing is worn for it.
pub fn wear(item: &PlanItem) -> String {
    let line = match item.line {
        Line::None => return item.equipment_note.clone(),
        line => line_words(line),
    };
    let mut letters = line.chars();
    let line: String = letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect();
    match item.clip {
        Some(clip) => format!("{line}, on the {}", clip_words(clip)),
        None => line,
    }
}

/// How much: "10 tries · 5 min · Long meadow".
pub fn dose(item: &PlanItem, counted_in_tries: bool) -> String {
    let parts = [
        item.attempts.filter(|_| counted_in_tries).map(|n| counted(n.into(), "try", "tries")),
        item.minutes.filter(|n| *n > 0).map(|n| format!("{n} min")),
        Some(item.place_name.clone()).filter(|place| !place.is_empty()),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(" · ")
}

/// How the week stands: "2 of 4 this week". Empty where the plan says no number.
pub fn week(item: &PlanItem, this_week: i64) -> String {
    match item.times_a_week.filter(|times| *times > 0) {
        Some(times) => format!("{this_week} of {times} this week"),
        None if this_week > 0 => format!("{this_week} this week"),
        None => String::new(),
    }
}
