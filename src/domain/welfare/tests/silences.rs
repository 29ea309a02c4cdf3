//! The rule on silence.

use super::*;
use crate::domain::vocabulary::Phase;
use Severity::{Caution, Notice};
use time::Duration;

fn facts(days: i64) -> SilenceFacts {
    SilenceFacts {
        dog_name: "Bracken".to_owned(),
        phase: Phase::Active,
        on_holiday: false,
        last_log_on: Some(DAY - Duration::days(days)),
        plan_since: Some(DAY - Duration::days(60)),
        planned_times_a_week: Some(4),
        last_trouble_on: None,
    }
}

fn found(facts: &SilenceFacts) -> Option<Severity> {
    silence(facts, DAY, &HouseNumbers::default()).map(|finding| finding.severity)
}

#[test]
fn seven_days_or_two_intervals_whichever_is_longer() {
    assert_eq!(found(&facts(6)), None);
    assert_eq!(found(&facts(7)), Some(Notice));
    let weekly = |days| SilenceFacts { planned_times_a_week: Some(1), ..facts(days) };
    assert_eq!(found(&weekly(13)), None);
    assert_eq!(found(&weekly(14)), Some(Notice));
    let unsaid = SilenceFacts { planned_times_a_week: None, ..facts(7) };
    assert_eq!(found(&unsaid), Some(Notice));
}

#[test]
fn some_silences_are_fine() {
    for phase in [Phase::Paused, Phase::Maintaining, Phase::Graduated] {
        assert_eq!(found(&SilenceFacts { phase, ..facts(40) }), None);
    }
    assert_eq!(found(&SilenceFacts { on_holiday: true, ..facts(40) }), None);
    assert_eq!(found(&SilenceFacts { last_log_on: None, plan_since: None, ..facts(40) }), None);
}

#[test]
fn a_plan_that_was_never_begun_is_quiet_from_its_first_day() {
    let never = SilenceFacts { last_log_on: None, plan_since: Some(DAY - Duration::days(8)), ..facts(0) };
    assert_eq!(found(&never), Some(Notice));
}

#[test]
fn a_new_plan_and_a_return_begin_the_count_anew() {
    let back = |days| SilenceFacts { plan_since: Some(DAY - Duration::days(days)), ..facts(40) };
    assert_eq!(found(&back(0)), None);
    assert_eq!(found(&back(6)), None);
    assert_eq!(found(&back(7)), Some(Notice));
}

#[test]
fn silence_after_trouble_is_a_caution() {
    let after = |trouble: i64| {
        let last_trouble_on = Some(DAY - Duration::days(trouble));
        found(&SilenceFacts { last_trouble_on, ..facts(10) })
    };
    assert_eq!(after(3), Some(Caution));
    assert_eq!(after(17), Some(Caution));
    assert_eq!(after(18), Some(Notice));
}

#[test]
fn it_says_since_when() {
    let finding = silence(&facts(9), DAY, &HouseNumbers::default()).expect("a finding");
    assert_eq!(finding.seen, "Nothing logged for Bracken for 9 days, since 11 June.");
    assert_eq!(finding.owner_seen, "We have not heard from you about Bracken since 11 June.");
}
