//! Reinforcement rate: how often a dog is paid in a minute of practice.

use super::Reading;
use crate::domain::dates::counted;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Outcome;

/// Reinforcers a minute under which a new behaviour is thinly paid. From memory: ten to fifteen are taught.
const RICH: f64 = 10.0;
/// Reinforcers a minute under which a sitting is mostly waiting. Common practice.
const THIN: f64 = 3.0;

/// How often a dog was paid, over some sittings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReinforcementRate {
    /// Reinforcers given.
    pub rewarded: i64,
    /// Minutes of these sittings.
    pub minutes: i64,
    /// Sittings in which both were stated.
    pub sittings: i64,
}

/// The rate over the sittings of counted skills in which reinforcers and minutes were both stated; `None` where there is none.
/// Walks, mats and calm time are left out: little pay is no fault there.
pub fn reinforcement_rate<'a>(sittings: impl IntoIterator<Item = &'a Sitting>) -> Option<ReinforcementRate> {
    let mut all = ReinforcementRate { rewarded: 0, minutes: 0, sittings: 0 };
    let counted = sittings.into_iter().filter(|sitting| sitting.outcome == Some(Outcome::Count));
    let stated = counted.filter_map(|sitting| sitting.rewarded.zip(sitting.minutes));
    for (rewarded, minutes) in stated.filter(|(_, minutes)| *minutes > 0) {
        all.rewarded += i64::from(rewarded);
        all.minutes += i64::from(minutes);
        all.sittings += 1;
    }
    (all.sittings > 0).then_some(all)
}

impl ReinforcementRate {
    /// Reinforcers a minute.
    pub fn per_minute(&self) -> f64 {
        self.rewarded as f64 / self.minutes as f64
    }

    /// What it says to a trainer.
    pub fn reading(&self) -> Reading {
        let rate = self.per_minute();
        let says = if rate >= RICH {
            "Well paid, as for a new behaviour."
        } else if rate >= THIN {
            "Fair for a behaviour that is known; a new one deserves more."
        } else {
            "Thin. More goes in a shorter sitting, or smaller pieces, keep a dog keen."
        };
        Reading {
            what: "Reinforcement rate",
            value: format!(
                "{rate:.1} a minute, over {}",
                counted(self.sittings, "counted sitting", "counted sittings")
            ),
            says: says.to_owned(),
            source: "Common practice, from memory: ten to fifteen a minute while a behaviour is new. No experiment was found.",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn sitting(rewarded: Option<i16>, minutes: Option<i16>) -> Sitting {
        Sitting { rewarded, minutes, outcome: Some(Outcome::Count), ..Sitting::on(date!(2025 - 05 - 01)) }
    }

    #[test]
    fn sittings_are_pooled_and_half_stated_ones_left_out() {
        let found = reinforcement_rate(&[
            sitting(Some(20), Some(2)),
            sitting(Some(10), Some(4)),
            sitting(Some(50), None),
            sitting(None, Some(50)),
            sitting(Some(50), Some(0)),
        ]);
        let found = found.expect("two stated both");
        assert_eq!((found.sittings, found.per_minute()), (2, 5.0));
        assert!(found.reading().value.starts_with("5.0 a minute, over 2 counted sittings"));
        assert_eq!(reinforcement_rate(&[sitting(Some(5), None)]), None);
        let mat = Sitting { outcome: Some(Outcome::Duration), ..sitting(Some(2), Some(10)) };
        assert_eq!(reinforcement_rate(&[mat]), None);
    }

    #[test]
    fn the_sentence_turns_at_three_and_ten() {
        let says = |rewarded| ReinforcementRate { rewarded, minutes: 10, sittings: 1 }.reading().says;
        assert!(says(29).starts_with("Thin") && says(30).starts_with("Fair"));
        assert!(says(99).starts_with("Fair") && says(100).starts_with("Well paid"));
    }
}
