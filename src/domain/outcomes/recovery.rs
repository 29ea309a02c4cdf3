//! Minutes to recover: the trend with its interval, and whether it is short already.

use time::Date;

use super::measured::{days, said};
use super::trend::theil_sen;
use super::{Measured, OutcomeAdvice};
use crate::domain::figure::Figure;
use crate::domain::vocabulary::Choice;

/// Minutes within which a dog is soon itself again. Common practice.
const SOON: f64 = 5.0;
/// Minutes beyond which it took too long. Common practice.
const LONG: f64 = 15.0;
/// Sittings in a row that must be soon, on two days.
const SITTINGS: usize = 3;
const SOURCE: &str = "Trend: Theil–Sen slope with its 95 % interval (Sen 1968, J Am Stat Assoc 63:1379–1389). Soon is within 5 \
    minutes and too long over 15: common practice.";

pub(super) fn advise(sittings: &[Measured]) -> Option<OutcomeAdvice> {
    let last = sittings.last()?;
    let values: Vec<(Date, f64)> = sittings.iter().map(|sitting| (sitting.on, sitting.value)).collect();
    let trend = theil_sen(&values);
    let lately = &sittings[sittings.len().saturating_sub(SITTINGS)..];
    let is_soon = lately.len() == SITTINGS && days(lately) > 1 && lately.iter().all(|one| one.value <= SOON);
    let figures = vec![
        Figure::new("Last time", format!("{} min", said(last.value))),
        Figure::new(
            "Trend",
            trend.map_or_else(
                || "too few sittings: at least five on different days are needed".to_owned(),
                |found| {
                    let a_week = |slope: f64| said(slope * 7.0);
                    format!(
                        "{} min a week (95 % interval {} to {})",
                        a_week(found.slope),
                        a_week(found.low),
                        a_week(found.high)
                    )
                },
            ),
        ),
    ];
    let (choice, word, for_trainer, for_owner) = if last.value > LONG {
        (
            Choice::MakeEasier,
            "Too long",
            "Over a quarter of an hour to come down. Make it easier, and look at the cool-down.",
            "Coming down took long this time. Make it easier next time, and take time for winding down.",
        )
    } else if trend.is_some_and(|found| found.low > 0.0) {
        (
            Choice::MakeEasier,
            "Slower",
            "Recovery takes longer week by week. Make it easier, and think of pain, heat and too little rest.",
            "Coming down takes a little longer than before. Your trainer will look at how to make it easier.",
        )
    } else if is_soon {
        (
            Choice::MoveOn,
            "Soon again",
            "Down within five minutes three times running, on two days. Likely fit for a little more.",
            "Down again quickly, time after time. Your trainer will look at what comes next.",
        )
    } else if trend.is_some_and(|found| found.high < 0.0) {
        (
            Choice::Repeat,
            "Quicker",
            "Recovery is getting shorter. Carry on as it is.",
            "Coming down gets quicker. What you do is working; carry on.",
        )
    } else {
        (
            Choice::Repeat,
            "No clear change",
            "No clear change yet. Carry on as it is.",
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

    fn word(minutes: &[f64]) -> &'static str {
        let sittings: Vec<Measured> = minutes
            .iter()
            .enumerate()
            .map(|(day, &value)| Measured {
                on: date!(2025 - 03 - 01) + Duration::days(day as i64),
                value,
                ease: Ease::NotStated,
            })
            .collect();
        advise(&sittings).expect("there are sittings").word
    }

    #[test]
    fn the_trend_speaks_only_when_its_interval_leaves_zero_out() {
        assert_eq!(word(&[14.0, 13.0, 12.0, 11.0, 10.0, 9.0, 8.0]), "Quicker");
        assert_eq!(word(&[6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0]), "Slower");
        assert_eq!(word(&[10.0, 12.0, 9.0, 11.0, 10.0, 12.0, 9.0]), "No clear change");
        assert_eq!(word(&[9.0, 8.0, 7.0, 6.0]), "No clear change", "too few");
        assert_eq!(word(&[9.0, 11.0, 8.0, 12.0, 9.0, 12.0, 10.0]), "No clear change", "up, but not clearly");
    }

    #[test]
    fn over_a_quarter_of_an_hour_is_too_long_and_five_minutes_are_soon() {
        assert_eq!(word(&[30.0, 20.0, 15.1]), "Too long");
        assert_eq!(word(&[30.0, 20.0, 15.0]), "No clear change");
        assert_eq!(word(&[5.0, 5.0, 5.0]), "Soon again");
        assert_eq!(word(&[5.0, 5.1, 5.0]), "No clear change");
        assert_eq!(word(&[5.0, 5.0]), "No clear change");
    }
}
