//! The weight curve.

use super::said;
use crate::domain::dates::{counted, days_between};
use crate::domain::dog::Weighing;

/// What the weighings, oldest first, say; empty for none.
pub fn weights_say(weighings: &[Weighing], expected_adult_kg: Option<f64>) -> String {
    let kg = |value: f64| format!("{} kg", (value * 100.0).round() / 100.0);
    let Some(newest) = weighings.last() else { return String::new() };
    let beside = match expected_adult_kg.filter(|expected| *expected > 0.0) {
        Some(expected) => {
            format!(", {:.0} % of the {} expected when grown", newest.kg * 100.0 / expected, kg(expected))
        }
        None => String::new(),
    };
    let first = &weighings[0];
    if weighings.len() < 2 || first.kg <= 0.0 {
        return format!("{} in the only weighing here{beside}.", kg(newest.kg));
    }
    let change = newest.kg - first.kg;
    let over = counted(days_between(first.on, newest.on), "day", "days");
    let share = said((change.abs() * 100.0) / first.kg);
    let how = match change {
        c if c > 0.0 => format!("up {} ({share} %)", kg(change)),
        c if c < 0.0 => format!("down {} ({share} %)", kg(-change)),
        _ => "unchanged".to_owned(),
    };
    format!("{}, {how} over {over}{beside}.", kg(newest.kg))
}
