//! Events a week: whether they are fewer on the newer of the reported days than on as many before them.
//!
//! An owner says of a day how often it happened. A day without a word is no day without an event: only reported days count.

use time::Date;

use super::exact::rate_ratio;
use super::measured::said;
use super::{Measured, OutcomeAdvice};
use crate::domain::dates::{counted, days_between};
use crate::domain::figure::Figure;
use crate::domain::vocabulary::Choice;

/// The most recent reported days that are compared, half with half.
const REPORTED: usize = 28;
/// Days without an event, and how many of them must be reported, before anything may get harder. Common practice.
const FREE: (i64, usize) = (28, 8);
/// More events than this on a day are entered by mistake, and count as so many.
const MOST: f64 = 200.0;
const SOURCE: &str = "Newer reported days against as many before them: exact 95 % interval of the ratio of two Poisson rates, by \
    the conditional binomial share (Przyborowski & Wilenski 1940, Biometrika 31:313–323; Clopper & Pearson 1934, Biometrika \
    26:404–413). Four weeks without any before a change: common practice.";

/// Each sitting states the events of its day.
pub(super) fn advise(sittings: &[Measured]) -> Option<OutcomeAdvice> {
    let days = reported(sittings);
    let (last, _) = *days.last()?;
    let half = days.len() / 2;
    let sum = |days: &[(Date, u32)]| -> u32 { days.iter().map(|(_, events)| events).sum() };
    // of an odd number the oldest is left out
    let (before, now) = days[days.len() - 2 * half..].split_at(half);
    let (before, now) = (sum(before), sum(now));
    let ratio = rate_ratio(now, before).filter(|_| half > 0);
    let mut figures = vec![Figure::new("Reported days", days.len().to_string())];
    if half > 0 {
        let span = counted(half as i64, "reported day", "reported days");
        let a_week = said(f64::from(now) * 7.0 / half as f64);
        let value = format!("{now} on the last {span}, {before} on as many before: now {a_week} a week");
        figures.push(Figure::new("Newer and before", value));
    }
    figures.extend(ratio.map(|found| {
        let high = if found.high.is_finite() { format!("{:.2}", found.high) } else { "any".to_owned() };
        Figure::new("Ratio", format!("between {:.2} and {high} times as many (95 % interval)", found.low))
    }));
    let (choice, word, for_trainer, for_owner) = if is_free(&days, last) {
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

/// The newest reported days, oldest first. Where a day was reported twice, the larger number holds both.
fn reported(sittings: &[Measured]) -> Vec<(Date, u32)> {
    let events = |sitting: &Measured| sitting.value.clamp(0.0, MOST).round() as u32;
    let days = sittings.chunk_by(|one, other| one.on == other.on);
    let mut days: Vec<(Date, u32)> =
        days.filter_map(|day| Some((day.first()?.on, day.iter().map(events).max()?))).collect();
    days.drain(..days.len().saturating_sub(REPORTED));
    days
}

/// Whether four weeks went by without an event, and enough of their days were reported.
fn is_free(days: &[(Date, u32)], last: Date) -> bool {
    let free = days.iter().rev().take_while(|(_, events)| *events == 0);
    let free: Vec<Date> = free.map(|(day, _)| *day).collect();
    free.last().is_some_and(|first| days_between(*first, last) >= FREE.0 - 1) && free.len() >= FREE.1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::outcomes::Ease;
    use time::Duration;
    use time::macros::date;

    fn advice(events: &[(i64, u32)]) -> OutcomeAdvice {
        let sittings: Vec<Measured> = events
            .iter()
            .map(|&(day, value)| Measured {
                on: date!(2025 - 03 - 01) + Duration::days(day),
                value: value.into(),
                ease: Ease::NotStated,
            })
            .collect();
        advise(&sittings).expect("there are sittings")
    }

    fn daily(events: &[u32]) -> OutcomeAdvice {
        advice(&(0..).zip(events.iter().copied()).collect::<Vec<_>>())
    }

    #[test]
    fn newer_days_are_compared_with_as_many_before() {
        assert_eq!(daily(&[5, 6, 4, 5, 1, 1, 0, 1]).word, "Less often");
        assert_eq!(daily(&[1, 1, 0, 1, 5, 6, 4, 5]).word, "More often");
        assert_eq!(daily(&[3, 2, 3, 2, 2, 3]).word, "No clear change");
        assert_eq!(daily(&[7]).word, "No clear change");
    }

    #[test]
    fn the_oldest_of_an_odd_number_is_left_out() {
        let found = daily(&[100, 4, 3]);
        let said = "3 on the last 1 reported day, 4 on as many before: now 21 a week";
        assert!(found.figures.iter().any(|figure| figure.value == said), "{found:?}");
    }

    #[test]
    fn a_day_that_was_reported_twice_is_one_day() {
        let found = advice(&[(0, 2), (1, 1), (1, 3), (1, 2)]);
        assert!(found.figures.iter().any(|figure| figure.value.starts_with("3 on the last 1")), "{found:?}");
    }

    #[test]
    fn four_weeks_without_any_may_change_something_if_enough_of_them_were_reported() {
        let free = |days: &[i64]| {
            let events: Vec<_> = std::iter::once((0, 2)).chain(days.iter().map(|day| (*day, 0))).collect();
            advice(&events).choice
        };
        assert_eq!(free(&[1, 5, 9, 13, 17, 21, 25, 28]), Choice::MoveOn);
        assert_eq!(free(&[1, 5, 9, 13, 17, 21, 25, 27]), Choice::Repeat, "a day short");
        assert_eq!(free(&[1, 5, 9, 13, 17, 21, 28]), Choice::Repeat, "too few reported");
    }
}
