//! "Still going well?": asked of a household once a fortnight while a dog is maintaining, and what a trainer reads of the answers.

use time::Date;

use super::dates::days_between;
use super::vocabulary::Phase;

/// How many days an answer holds.
pub const EVERY_DAYS: i64 = 14;
/// From how many days on it is said that nobody has answered.
pub const NO_ANSWER_DAYS: i64 = 28;
/// Where the two come from.
pub const SOURCE: &str = "Asked every 14 days while a dog is maintaining; after 28 days without an answer that is said here. House rule.";

/// What decides whether to ask.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// Where the dog stands in its work.
    pub phase: Phase,
    /// The day since which it stands there.
    pub since: Date,
    /// The day of the last answer, however long ago.
    pub answered: Option<Date>,
}

impl Standing {
    /// The day from which the next answer is counted: the last answer, or the beginning of this phase where that is later.
    fn counted_from(self) -> Date {
        self.answered.map_or(self.since, |answered| answered.max(self.since))
    }

    /// Whether to ask today. Not on a day off, nor while the exercises rest until a trainer has answered.
    pub fn is_due(self, today: Date, rests: bool) -> bool {
        self.phase == Phase::Maintaining && !rests && days_between(self.counted_from(), today) >= EVERY_DAYS
    }

    /// The day since which a trainer is told that nobody has answered.
    pub fn silent_since(self, today: Date) -> Option<Date> {
        let from = self.counted_from();
        (self.phase == Phase::Maintaining && days_between(from, today) >= NO_ANSWER_DAYS).then_some(from)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::Duration;
    use time::macros::date;

    const SINCE: Date = date!(2026 - 03 - 01);

    fn on(days: i64) -> Date {
        SINCE + Duration::days(days)
    }

    #[test]
    fn asked_a_fortnight_after_the_phase_began_and_after_each_answer() {
        let new = Standing { phase: Phase::Maintaining, since: SINCE, answered: None };
        assert!(!new.is_due(on(13), false));
        assert!(new.is_due(on(14), false) && new.is_due(on(40), false));
        assert!(!new.is_due(on(14), true), "a day off, or everything rests");
        let answered = Standing { answered: Some(on(14)), ..new };
        assert!(!answered.is_due(on(14), false) && !answered.is_due(on(27), false));
        assert!(answered.is_due(on(28), false));
        let long_ago = Standing { answered: Some(on(-100)), ..new };
        assert!(!long_ago.is_due(on(13), false), "an answer of an earlier time says nothing of this one");
        assert!(long_ago.is_due(on(14), false));
    }

    #[test]
    fn asked_in_no_other_phase() {
        for phase in [Phase::SettlingIn, Phase::Active, Phase::Graduated, Phase::Paused] {
            let standing = Standing { phase, since: SINCE, answered: None };
            assert!(!standing.is_due(on(100), false), "{phase:?}");
            assert_eq!(standing.silent_since(on(100)), None, "{phase:?}");
        }
    }

    #[test]
    fn silence_is_said_after_four_weeks() {
        let standing = Standing { phase: Phase::Maintaining, since: SINCE, answered: Some(on(14)) };
        assert_eq!(standing.silent_since(on(41)), None);
        assert_eq!(standing.silent_since(on(42)), Some(on(14)));
        assert_eq!(Standing { answered: None, ..standing }.silent_since(on(28)), Some(SINCE));
    }
}
