//! Events a week: whether the newer weeks have fewer than the weeks before them.

use super::exact::rate_ratio;
use super::measured::said;
use super::{Measured, OutcomeAdvice};
use crate::domain::figure::Figure;
use crate::domain::vocabulary::Choice;

/// The most recent weeks that are compared, half with half.
const WEEKS: usize = 12;
/// Weeks without an event after which the step may change. Common practice.
const FREE: usize = 4;
/// More events than this in a week are entered by mistake, and count as so many.
const MOST: f64 = 200.0;
const SOURCE: &str = "Newer weeks against as many before them: exact 95 % interval of the ratio of two Poisson rates, by the \
    conditional binomial share (Przyborowski & Wilenski 1940, Biometrika 31:313–323; Clopper & Pearson 1934, Biometrika \
    26:404–413). Four weeks without any before a change: common practice.";

/// Each sitting states the events of one week.
pub(super) fn advise(sittings: &[Measured]) -> Option<OutcomeAdvice> {
    let last = sittings.last()?;
    let weeks = &sittings[sittings.len().saturating_sub(WEEKS)..];
    let half = weeks.len() / 2;
    let sum = |weeks: &[Measured]| -> u32 {
        weeks.iter().map(|week| week.value.clamp(0.0, MOST).round() as u32).sum()
    };
    // of an odd number the oldest is left out
    let (now, before) =
        (sum(&weeks[weeks.len() - half..]), sum(&weeks[weeks.len() - 2 * half..weeks.len() - half]));
    let ratio = rate_ratio(now, before).filter(|_| half > 0);
    let free = weeks.iter().rev().take_while(|week| week.value == 0.0).count();
    let mut figures = vec![Figure::new("Last week", said(last.value))];
    if half > 0 {
        let span = if half == 1 { "week".to_owned() } else { format!("{half} weeks") };
        figures.push(Figure::new(
            "Newer and before",
            format!("{now} in the last {span}, {before} in as many before"),
        ));
    }
    figures.extend(ratio.map(|found| {
        let high = if found.high.is_finite() { format!("{:.2}", found.high) } else { "any".to_owned() };
        Figure::new("Ratio", format!("between {:.2} and {high} times as many (95 % interval)", found.low))
    }));
    let (choice, word, for_trainer, for_owner) = if free >= FREE {
        (
            Choice::MoveOn,
            "None lately",
            "None for four weeks. Likely fit for a change, one thing at a time.",
            "None for four weeks: lovely. Your trainer will look at what comes next.",
        )
    } else if ratio.is_some_and(|found| found.low > 1.0) {
        (
            Choice::MakeEasier,
            "More often",
            "More often than before. Make it easier, and ask what has changed at home or in health.",
            "It happens more often than before. Tell your trainer what has changed; they will look at making it easier.",
        )
    } else if ratio.is_some_and(|found| found.high < 1.0) {
        (
            Choice::Repeat,
            "Less often",
            "Less often than before. Carry on as it is.",
            "It happens less often than before. What you do is working; carry on.",
        )
    } else {
        (
            Choice::Repeat,
            "No clear change",
            "No clear change yet. Carry on, and count on.",
            "About the same as before. Carry on; this takes time.",
        )
    };
    let (for_trainer, for_owner) = (for_trainer.to_owned(), for_owner.to_owned());
    Some(OutcomeAdvice { choice, word, for_trainer, for_owner, figures, source: SOURCE })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::outcomes::Ease;
    use time::Duration;
    use time::macros::date;

    fn advice(events: &[u32]) -> OutcomeAdvice {
        let sittings: Vec<Measured> = events
            .iter()
            .enumerate()
            .map(|(week, &value)| Measured {
                on: date!(2025 - 03 - 01) + Duration::weeks(week as i64),
                value: value.into(),
                ease: Ease::NotStated,
            })
            .collect();
        advise(&sittings).expect("there are sittings")
    }

    #[test]
    fn newer_weeks_are_compared_with_as_many_before() {
        assert_eq!(advice(&[5, 6, 4, 5, 1, 1, 0, 1]).word, "Less often");
        assert_eq!(advice(&[1, 1, 0, 1, 5, 6, 4, 5]).word, "More often");
        assert_eq!(advice(&[3, 2, 3, 2, 2, 3]).word, "No clear change");
        assert_eq!(advice(&[9, 1]).word, "Less often");
        assert_eq!(advice(&[7]).word, "No clear change");
    }

    #[test]
    fn the_oldest_of_an_odd_number_is_left_out() {
        let found = advice(&[100, 4, 3]);
        assert!(
            found.figures.iter().any(|f| f.value == "3 in the last week, 4 in as many before"),
            "{found:?}"
        );
    }

    #[test]
    fn four_weeks_without_any_may_change_something() {
        assert_eq!(advice(&[2, 0, 0, 0, 0]).choice, Choice::MoveOn);
        assert_eq!(advice(&[2, 0, 0, 0]).choice, Choice::Repeat);
    }
}
