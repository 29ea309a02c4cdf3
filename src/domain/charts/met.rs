//! Encounters: at what distance the dog reacted and at what distance it did not, and how soon it was itself again.

use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::Recovery;

/// What encounters with a distance say; empty where none states one.
pub fn distances(met: &[&EncounterFacts]) -> String {
    let stated: Vec<(i16, Option<i16>)> =
        met.iter().filter_map(|one| one.distance_m.map(|metres| (metres, one.reaction))).collect();
    if stated.is_empty() {
        return String::new();
    }
    let of = |calm: bool| {
        stated
            .iter()
            .filter(move |(_, reaction)| reaction.is_some_and(|n| (n == 0) == calm))
            .map(|(metres, _)| *metres)
    };
    match (of(true).min(), of(false).max()) {
        (Some(calm), Some(reacted)) => {
            format!("Nearest without a reaction: {calm} m; farthest with one: {reacted} m.")
        }
        (Some(calm), None) => format!("No reaction in {}, the nearest at {calm} m.", times(of(true).count())),
        (None, Some(reacted)) => {
            format!("A reaction in {}, the farthest at {reacted} m.", times(of(false).count()))
        }
        (None, None) => "None of these says how strong the reaction was.".to_owned(),
    }
}

/// All of so many that say how strong the reaction was.
fn times(count: usize) -> String {
    match count {
        1 => "the only one that says how strong it was".to_owned(),
        n => format!("all {n} that say how strong it was"),
    }
}

/// What encounters say of recovery; empty where none states it.
pub fn recoveries(met: &[&EncounterFacts]) -> String {
    let stated: Vec<Recovery> = met.iter().filter_map(|one| one.recovery).collect();
    let soon = stated.iter().filter(|one| matches!(one, Recovery::Within5 | Recovery::Within15)).count();
    let unstated = match met.len() - stated.len() {
        0 => String::new(),
        n => format!(" Not stated for {n} more."),
    };
    match stated.len() {
        0 => String::new(),
        n => format!("Itself again within 15 minutes after {soon} of {n} that say so.{unstated}"),
    }
}
