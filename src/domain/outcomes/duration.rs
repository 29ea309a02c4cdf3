//! Calm time: never ask for more than the dog has shown. Common practice in teaching stays, settling and being alone.

use super::measured::days;
use super::{Ease, Measured, OutcomeAdvice};
use crate::domain::figure::Figure;
use crate::domain::vocabulary::Choice;

/// Sittings that reach the planned time, in a row.
const SITTINGS: usize = 3;
/// Days that they are on.
const DAYS: usize = 2;
/// How many of the last sittings the longest calm time is read from: what was once managed, long ago, is not asked for.
const LATELY: usize = 10;
const SOURCE: &str = "Common practice: never ask for more calm time than the dog has shown lately, and for half of it after a hard \
    one. No published rule was found for the numbers.";

pub(super) fn advise(sittings: &[Measured], planned: Option<i16>) -> Option<OutcomeAdvice> {
    let last = sittings.last()?;
    let lately = &sittings[sittings.len().saturating_sub(LATELY)..];
    let calm = lately.iter().filter(|sitting| sitting.ease != Ease::Reaction);
    let longest = calm.map(|sitting| sitting.value).fold(0.0, f64::max);
    let mut figures = vec![
        Figure::new("Longest calm time lately", minutes(longest)),
        Figure::new("Last time", minutes(last.value)),
    ];
    figures.extend(planned.map(|planned| Figure::new("Planned", minutes(planned.into()))));
    let (choice, word, for_trainer, for_owner) = if last.ease == Ease::Reaction {
        shorter((longest / 2.0).floor())
    } else if planned.is_some_and(|planned| f64::from(planned) > longest) {
        let most = minutes(longest);
        (
            Choice::MakeEasier,
            "Shorter",
            format!("The plan asks for more than the dog has shown: {most} at most."),
            format!("About {most} for now; what the plan says comes later. Stop while it is still calm."),
        )
    } else if planned.is_some_and(|planned| is_reached(sittings, planned)) {
        (
            Choice::MoveOn,
            "A little longer",
            format!(
                "Calm for the planned time three times running, on two days. Next, at most {}, the longest calm time lately.",
                minutes(longest)
            ),
            "This is calm now. Your trainer will look at a little longer; until then keep to the planned time."
                .to_owned(),
        )
    } else {
        (
            Choice::Repeat,
            "Same time",
            format!("The same again, and never over {}, the longest calm time lately.", minutes(longest)),
            "Keep to this time, and stop while it is still calm.".to_owned(),
        )
    };
    Some(OutcomeAdvice { choice, word, for_trainer, for_owner, figures, source: SOURCE })
}

/// Minutes as people keep them, never more than were shown: "2 and a half minutes".
fn minutes(minutes: f64) -> String {
    let halves = (minutes * 2.0).floor();
    match (halves / 2.0).floor() {
        whole if whole < 1.0 => "less than a minute".to_owned(),
        whole if halves > 2.0 * whole => format!("{whole} and a half minutes"),
        1.0 => "1 minute".to_owned(),
        whole => format!("{whole} minutes"),
    }
}

fn shorter(most: f64) -> (Choice, &'static str, String, String) {
    let most = minutes(most);
    (
        Choice::MakeEasier,
        "Shorter",
        format!("The last time was too much. Ask for {most} next, half of the longest calm time lately."),
        format!("That was too long this time. Next time {most} is enough, and end on calm."),
    )
}

fn is_reached(sittings: &[Measured], planned: i16) -> bool {
    let Some(from) = sittings.len().checked_sub(SITTINGS) else { return false };
    let lately = &sittings[from..];
    let calm = |sitting: &Measured| {
        matches!(sitting.ease, Ease::Easy | Ease::NotStated) && sitting.value >= planned.into()
    };
    lately.iter().all(calm) && days(lately) >= DAYS
}

#[cfg(test)]
mod tests {
    use super::*;
    use Ease::{Easy, NotEasy, NotStated, Reaction};
    use proptest::prelude::*;
    use time::Duration;
    use time::macros::date;

    fn measured(sittings: &[(i64, f64, Ease)]) -> Vec<Measured> {
        let build = |&(day, value, ease): &(i64, f64, Ease)| Measured {
            on: date!(2025 - 03 - 01) + Duration::days(day),
            value,
            ease,
        };
        sittings.iter().map(build).collect()
    }

    fn advice(sittings: &[(i64, f64, Ease)], planned: i16) -> OutcomeAdvice {
        advise(&measured(sittings), Some(planned)).expect("there are sittings")
    }

    #[test]
    fn the_planned_time_three_times_on_two_days_may_grow_to_the_longest() {
        let found = advice(&[(0, 5.0, Easy), (0, 7.0, Easy), (1, 5.0, NotStated)], 5);
        assert_eq!(found.choice, Choice::MoveOn);
        assert!(found.for_trainer.contains("at most 7 min"), "{}", found.for_trainer);
        assert_eq!(advice(&[(0, 5.0, Easy), (0, 7.0, Easy), (0, 5.0, Easy)], 5).choice, Choice::Repeat);
        assert_eq!(advice(&[(0, 5.0, Easy), (1, 5.0, Easy)], 5).choice, Choice::Repeat);
        assert_eq!(advice(&[(0, 5.0, Easy), (1, 4.0, Easy), (2, 5.0, Easy)], 5).choice, Choice::Repeat);
        assert_eq!(advice(&[(0, 5.0, Easy), (1, 5.0, NotEasy), (2, 5.0, Easy)], 5).choice, Choice::Repeat);
    }

    #[test]
    fn a_plan_that_asks_for_more_than_was_shown_is_made_shorter() {
        let found = advice(&[(0, 4.0, Easy), (1, 6.0, Easy)], 7);
        assert_eq!(found.choice, Choice::MakeEasier);
        assert!(found.for_owner.contains("About 6 minutes for now"), "{}", found.for_owner);
        assert_eq!(advice(&[(0, 4.0, Easy), (1, 6.0, Easy)], 6).choice, Choice::Repeat);
    }

    #[test]
    fn after_a_hard_time_half_is_enough_and_it_does_not_count_as_calm() {
        let found = advice(&[(0, 6.0, Easy), (1, 9.0, Reaction)], 6);
        assert!(found.for_trainer.contains("Ask for 3 minutes"), "{}", found.for_trainer);
        assert!(advice(&[(0, 1.0, Reaction)], 1).for_owner.contains("less than a minute"));
    }

    #[test]
    fn what_was_managed_long_ago_is_not_asked_for() {
        let mut sittings = vec![(0, 30.0, Easy)];
        sittings.extend((1..=10).map(|day| (day, 5.0, Easy)));
        assert!(advice(&sittings, 5).for_trainer.contains("at most 5 min"));
        assert!(advice(&sittings[..10], 5).for_trainer.contains("at most 30 min"));
    }

    proptest! {
        /// Whatever is advised next is never over the longest calm time.
        #[test]
        fn never_over_the_longest_calm_time(
            sittings in prop::collection::vec((1_u16..60, prop::sample::select(vec![Easy, NotEasy, Reaction])), 1..20),
            planned in 1_i16..60,
        ) {
            let days = sittings.into_iter().zip(0_i64..);
            let sittings: Vec<_> = days.map(|((n, ease), day)| (day, f64::from(n), ease)).collect();
            let found = advice(&sittings, planned);
            let calm = |s: &&(i64, f64, Ease)| s.2 != Reaction;
            let longest = sittings.iter().filter(calm).map(|s| s.1).fold(0.0, f64::max);
            if found.choice == Choice::MoveOn {
                prop_assert!(f64::from(planned) <= longest);
            }
            if f64::from(planned) > longest {
                prop_assert_eq!(found.choice, Choice::MakeEasier);
            }
        }
    }
}
