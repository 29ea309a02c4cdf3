//! Where a line and step stands, for those who practise and for those who decide.

use crate::domain::readiness::{Interval, Readiness, Verdict, wilson};
use crate::domain::vocabulary::SkillClass;

/// More good goes than this are not held out to anybody: "stay with this step" says it better.
const FEW: u32 = 12;

const NUMBERS: [&str; 13] =
    ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// Where it stands, in an owner's words: "11 of 14. About six more good ones on another day should tell us."
pub fn owner_reading(state: &Readiness, class: SkillClass) -> String {
    let verdict = state.verdict(class);
    if state.attempts == 0 {
        return verdict.for_owner();
    }
    let so_far = format!("{} of {} so far.", state.met, state.attempts);
    match verdict {
        Verdict::Gathering { fewest_more_good } if (1..=FEW).contains(&fewest_more_good) => {
            let number = NUMBERS[fewest_more_good as usize];
            let ones = if fewest_more_good == 1 { "one" } else { "ones" };
            let another_day = if state.days < class.parameters().days { " on another day" } else { "" };
            format!("{so_far} About {number} more good {ones}{another_day} should tell us.")
        }
        other => format!("{so_far} {}", other.for_owner()),
    }
}

/// Counts as trainers read them: "11 of 14, likely 52–92 %".
pub fn trainer_counts(met: i32, attempts: i32) -> String {
    match wilson(met, attempts) {
        Some(Interval { low, high }) => {
            format!("{met} of {attempts}, likely {:.0}–{:.0} %", low * 100.0, high * 100.0)
        }
        None => format!("{met} of {attempts}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::readiness::{CountedSitting, PlaceMatch};
    use time::macros::date;

    fn after(met: i16, attempts: i16, class: SkillClass) -> Readiness {
        let sitting = CountedSitting {
            local_date: date!(2026 - 03 - 12),
            attempts,
            met,
            trainer_seen: false,
            place: PlaceMatch::AsHard,
        };
        Readiness::default().advance(&sitting, class)
    }

    #[test]
    fn owners_read_how_many_more_would_tell() {
        assert_eq!(
            owner_reading(&after(6, 6, SkillClass::Ordinary), SkillClass::Ordinary),
            "6 of 6 so far. About four more good ones on another day should tell us."
        );
        assert_eq!(
            owner_reading(&after(10, 10, SkillClass::Ordinary), SkillClass::Ordinary),
            "10 of 10 so far. Lovely work today. Do the same once more on another day."
        );
        assert!(
            owner_reading(&after(10, 10, SkillClass::Safety), SkillClass::Safety)
                .contains("Stay with this step")
        );
    }

    #[test]
    fn trainers_read_the_interval() {
        assert_eq!(trainer_counts(11, 14), "11 of 14, likely 52–92 %");
        assert_eq!(trainer_counts(0, 0), "0 of 0");
    }
}
