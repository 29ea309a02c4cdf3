//! Rules on work that stops working.

use super::*;
use crate::domain::vocabulary::Outcome;
use crate::ids::{LineId, StepId};
use Severity::Notice;
use uuid::Uuid;

fn counted(met: i16, attempts: i16) -> Sitting {
    sitting(|s| {
        s.plan_line = Some(LineId(Uuid::from_u128(1)));
        s.step = Some(StepId(Uuid::from_u128(1)));
        (s.met, s.attempts) = (Some(met), Some(attempts));
    })
}

#[test]
fn misses_that_must_have_run_are_noticed() {
    let found = |met, attempts| in_log("misses_running", &dog(), &[], |s| *s = counted(met, attempts));
    assert_eq!(found(0, 3), Some(Notice));
    assert_eq!(found(0, 2), None);
    assert_eq!(found(1, 5), None, "one met may stand in the middle of four misses");
    assert_eq!(found(1, 6), Some(Notice));
    assert_eq!(found(0, 10), None, "under half met speaks");
    let fear = in_log("misses_running", &dog(), &[], |s| {
        *s = counted(0, 5);
        s.outcome = Some(Outcome::Distance);
    });
    assert_eq!(fear, None);
}

#[test]
fn decline_after_success_is_noticed() {
    let found = |recent: &[Sitting], met| in_log("decline", &dog(), recent, |s| *s = counted(met, 10));
    assert_eq!(found(&[counted(8, 10)], 5), Some(Notice));
    assert_eq!(found(&[counted(8, 10)], 6), None);
    assert_eq!(found(&[counted(7, 10)], 5), None, "it was not sure");
    assert_eq!(found(&[counted(9, 9)], 5), None, "too few before");
    let elsewhere = Sitting { step: Some(StepId(Uuid::from_u128(2))), ..counted(10, 10) };
    assert_eq!(found(&[elsewhere], 5), None, "another step");
}
