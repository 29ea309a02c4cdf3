//! What is measured and not counted: distance, calm time, recovery, how often.
//!
//! A trend is told by its 95 % interval (Theil–Sen, `domain::outcomes`), at one step and criterion. For a distance only
//! sittings without a reaction are in it: a distance at which the dog reacted was not a comfortable one.

use time::Date;

use super::{Charted, said};
use crate::domain::outcomes::{Ease, theil_sen};
use crate::domain::vocabulary::Outcome;

/// A value with its unit.
pub fn value_words(value: f64, outcome: Outcome) -> String {
    match outcome {
        Outcome::Count => said(value),
        Outcome::Distance => format!("{} m", said(value)),
        Outcome::Duration | Outcome::Recovery => format!("{} min", said(value)),
        Outcome::Events => format!("{} times", said(value)),
    }
}

/// What the sittings with a value, oldest first, say of one outcome; empty where there is none.
pub fn measured(outcome: Outcome, sittings: &[&Charted]) -> String {
    let with_value = |one: &&Charted| one.value.map(|value| (one.sitting.local_date, value));
    let Some(newest) = sittings.iter().rfind(|one| one.value.is_some()) else { return String::new() };
    let is_like =
        |one: &&&Charted| one.sitting.step == newest.sitting.step && one.criterion == newest.criterion;
    let is_fine = |one: &&&Charted| outcome != Outcome::Distance || Ease::of(&one.sitting) != Ease::Reaction;
    let values: Vec<(Date, f64)> =
        sittings.iter().filter(is_like).filter(is_fine).filter_map(with_value).collect();
    let which = match outcome {
        Outcome::Distance => "sittings at this step without a reaction",
        _ => "sittings at this step",
    };
    match (values.as_slice(), theil_sen(&values)) {
        ([], _) => {
            "A reaction at every distance so far at this step: none of them was comfortable.".to_owned()
        }
        ([(_, only)], _) => {
            format!("{} in the only one so far of {which}: too few to compare.", value_words(*only, outcome))
        }
        ([(_, first), .., (_, newest)], None) => format!(
            "From {} to {} over {} {which}: too few days for a trend.",
            value_words(*first, outcome),
            value_words(*newest, outcome),
            values.len()
        ),
        (_, Some(trend)) => {
            let week = |slope: f64| value_words(slope * 7.0, outcome);
            let interval = format!(
                "95 % interval {} to {} a week, {} {which}",
                said(trend.low * 7.0),
                week(trend.high),
                values.len()
            );
            let size = value_words(trend.slope.abs() * 7.0, outcome);
            let (more, less) = ways(outcome);
            if trend.low > 0.0 {
                format!("{more}, by about {size} a week ({interval}).")
            } else if trend.high < 0.0 {
                format!("{less}, by about {size} a week ({interval}).")
            } else {
                format!("No clear trend ({interval}).")
            }
        }
    }
}

/// What a rising and a falling value mean.
fn ways(outcome: Outcome) -> (&'static str, &'static str) {
    match outcome {
        Outcome::Distance => ("Farther", "Nearer"),
        Outcome::Duration => ("Longer", "Shorter"),
        Outcome::Recovery => ("Slower", "Quicker"),
        Outcome::Events => ("More often", "Less often"),
        Outcome::Count => ("More", "Less"),
    }
}
