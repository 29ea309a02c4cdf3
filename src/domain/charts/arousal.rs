//! Arousal before and at the end of sittings.

use super::{Charted, last};

/// Sittings that the sentence sums up, at most.
const LATELY: usize = 10;
/// The fewest that it sums up.
const FEWEST: usize = 3;
/// Arousal at the end that is still high: house scale, common practice.
const HIGH: i16 = 4;

/// What the sittings, oldest first, say of arousal; empty where none states it.
pub fn arousal(sittings: &[&Charted]) -> String {
    let stated = |one: &&&Charted| one.sitting.arousal_before.is_some() || one.sitting.arousal_end.is_some();
    let any = sittings.iter().filter(stated).count();
    let both: Vec<(i16, i16)> =
        sittings.iter().filter_map(|one| one.sitting.arousal_before.zip(one.sitting.arousal_end)).collect();
    if any == 0 {
        return String::new();
    }
    if both.len() < FEWEST {
        return format!(
            "Only {} of {any} say both how it began and how it ended: too few to sum up.",
            both.len()
        );
    }
    let lately = last(&both, LATELY);
    let lower = lately.iter().filter(|(before, end)| end <= before).count();
    let high = lately.iter().filter(|(_, end)| *end >= HIGH).count();
    format!(
        "Of the last {} sittings that say both, {lower} ended no higher than they began, and {high} ended at 4 or 5.",
        lately.len()
    )
}
