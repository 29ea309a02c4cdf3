//! Who answers a stop or a call for help, and by when: first whoever looks after the dog, then whoever is on duty.

use time::{Duration, OffsetDateTime};

use super::vocabulary::Severity;
use super::welfare::{Danger, NOT_COPING, Rule};

/// How long a stop may wait for the trainer who looks after the dog. House rule: the same time tomorrow at the latest, so that a
/// stop of an evening is not lost in a free day.
const ANSWERED_WITHIN: Duration = Duration::hours(24);
/// The same for signs that a vet must hear of at once: the household was told to ring, and somebody asks whether it has. House rule.
const LIFE_ANSWERED_WITHIN: Duration = Duration::hours(4);

/// By when somebody answers what a rule found; `None` for what can wait for the next look at the dog. A stop of a rule that the catalogue
/// has no more is a stop.
pub fn due(rule: Option<&Rule>, severity: Severity, raised_at: OffsetDateTime) -> Option<OffsetDateTime> {
    let within = match (severity, rule.map(Rule::danger)) {
        (Severity::Stop, Some(Danger::Life)) => LIFE_ANSWERED_WITHIN,
        (Severity::Stop, _) => ANSWERED_WITHIN,
        _ if rule.is_some_and(|rule| rule.id == NOT_COPING.id) => ANSWERED_WITHIN,
        _ => return None,
    };
    Some(raised_at + within)
}

/// Who is asked for an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// Whoever looks after the dog.
    TheTrainer,
    /// Whoever is on duty: nobody has answered in time.
    WhoIsOnDuty,
}

/// Who is asked now for an answer that is due by an instant.
pub fn asked(due: OffsetDateTime, now: OffsetDateTime) -> Asked {
    if now < due { Asked::TheTrainer } else { Asked::WhoIsOnDuty }
}

#[cfg(test)]
mod tests {
    use super::super::welfare::rule;
    use super::*;
    use time::macros::datetime;

    #[test]
    fn an_answer_is_asked_of_whoever_is_on_duty_once_it_is_due() {
        let due = datetime!(2026-03-13 18:20 UTC);
        assert_eq!(asked(due, due - Duration::seconds(1)), Asked::TheTrainer);
        assert_eq!(asked(due, due), Asked::WhoIsOnDuty);
    }

    #[test]
    fn a_stop_is_due_within_a_day_a_vets_matter_within_hours_and_a_caution_waits() {
        let raised = datetime!(2026-03-12 18:20 UTC);
        let within = |id: &str, severity| due(rule(id), severity, raised).map(|due| due - raised);
        assert_eq!(within("bite", Severity::Stop), Some(Duration::hours(24)));
        assert_eq!(within("vet_now", Severity::Stop), Some(Duration::hours(4)));
        assert_eq!(within("not_coping", Severity::Caution), Some(Duration::hours(24)));
        assert_eq!(within("bolted", Severity::Caution), None);
        assert_eq!(within("cool_down_missing", Severity::Notice), None);
        assert_eq!(within("of_a_catalogue_before", Severity::Stop), Some(Duration::hours(24)));
    }
}
