//! When to ask whether a harness or a muzzle still sits as it was approved. Common practice: dogs grow, slim down and chew, straps
//! slip, and after a bolt everything is looked at again.

use time::{Duration, OffsetDateTime};

use super::vocabulary::Gear;

impl Gear {
    /// As it is called inside a sentence.
    pub fn in_a_sentence(self) -> &'static str {
        match self {
            Self::Harness => "harness",
            Self::Muzzle => "muzzle",
        }
    }
}

/// How many days an answer holds: about a month. Common practice.
pub const HOLDS_DAYS: i64 = 30;

/// Whether to ask: a month after it was approved or last said to sit like that, and where a bolt was told since.
pub fn is_due(sure_at: OffsetDateTime, bolt_told: Option<OffsetDateTime>, now: OffsetDateTime) -> bool {
    now - sure_at >= Duration::days(HOLDS_DAYS) || bolt_told.is_some_and(|told| told > sure_at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::datetime;

    const SURE: OffsetDateTime = datetime!(2026-03-01 09:00 UTC);

    #[test]
    fn asked_monthly() {
        assert!(!is_due(SURE, None, SURE + Duration::days(29)));
        assert!(is_due(SURE, None, SURE + Duration::days(30)));
    }

    #[test]
    fn asked_after_a_bolt_until_it_is_answered() {
        let (before, after) = (SURE - Duration::hours(1), SURE + Duration::hours(1));
        assert!(is_due(SURE, Some(after), after));
        assert!(!is_due(SURE, Some(before), after), "a bolt before it was approved, on the same day");
    }
}
