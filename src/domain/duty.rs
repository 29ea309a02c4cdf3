//! Who answers a stop, and by when: first whoever looks after the dog, then whoever is on duty.

use time::{Duration, OffsetDateTime};

/// How long a stop may wait for the trainer who looks after the dog. House rule: the same time tomorrow at the latest, so that a
/// stop of an evening is not lost in a free day.
pub const ANSWERED_WITHIN: Duration = Duration::hours(24);

/// Who is asked for the answer to a stop.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// Whoever looks after the dog, until this instant.
    TheTrainer(OffsetDateTime),
    /// Whoever is on duty: nobody answered until this instant.
    WhoIsOnDuty(OffsetDateTime),
}

/// Who is asked now for the answer to a stop that was raised at an instant.
pub fn asked(raised_at: OffsetDateTime, now: OffsetDateTime) -> Asked {
    let until = raised_at + ANSWERED_WITHIN;
    if now < until { Asked::TheTrainer(until) } else { Asked::WhoIsOnDuty(until) }
}

/// Stops raised at or before this instant are with whoever is on duty.
pub fn overdue_before(now: OffsetDateTime) -> OffsetDateTime {
    now - ANSWERED_WITHIN
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::datetime;

    #[test]
    fn a_stop_goes_to_whoever_is_on_duty_after_a_day() {
        let raised = datetime!(2026-03-12 18:20 UTC);
        let until = datetime!(2026-03-13 18:20 UTC);
        assert_eq!(asked(raised, raised), Asked::TheTrainer(until));
        assert_eq!(asked(raised, until - Duration::seconds(1)), Asked::TheTrainer(until));
        assert_eq!(asked(raised, until), Asked::WhoIsOnDuty(until));
        assert_eq!(overdue_before(until), raised, "and the caseload draws the line at the same instant");
    }
}
