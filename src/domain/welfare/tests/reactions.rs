//! Rules on signs that it is getting too much.

use super::*;
use crate::domain::vocabulary::{EncounterKind, Looked, Outcome, TookFood};
use Severity::{Caution, Notice};
use time::macros::datetime;
use time::{Duration, OffsetDateTime};

const AT: OffsetDateTime = datetime!(2025-06-20 10:00 UTC);

fn took(pattern: &str) -> Option<Severity> {
    let sittings: Vec<Sitting> = pattern
        .chars()
        .map(|c| {
            sitting(|s| s.took_food = Some(if c == 's' { TookFood::Snatched } else { TookFood::Gently }))
        })
        .collect();
    let (newest, recent) = sittings.split_first().expect("a sitting");
    in_log("snatching_grows", &dog(), recent, |s| *s = newest.clone())
}

#[test]
fn snatching_that_grows_is_noticed() {
    assert_eq!(took("sssggggggg"), Some(Notice));
    assert_eq!(took("ssgggggggg"), None, "twice is no pattern");
    assert_eq!(took("sssggsssgg"), None, "as often as before");
    assert_eq!(took("sssggssggg"), Some(Notice));
    assert_eq!(took("gsssgggggg"), None, "not this time");
    assert_eq!(took("sssgg"), None, "nothing to grow from");
}

fn reaction(reaction: Option<i16>, at: OffsetDateTime) -> EncounterFacts {
    EncounterFacts {
        reaction,
        happened_at: Some(at),
        ..EncounterFacts::on(at.date(), EncounterKind::Reaction)
    }
}

fn two(this: &EncounterFacts, other: EncounterFacts) -> Option<Severity> {
    let dog = dog();
    let context = EncounterContext { recent: &[other], ..EncounterContext::of(this, &dog) };
    of("two_reactions", &evaluate_encounter(&context))
}

#[test]
fn two_reactions_within_a_day_ask_for_a_quiet_one() {
    let strong = reaction(Some(3), AT);
    assert_eq!(two(&strong, reaction(Some(2), AT - Duration::hours(24))), Some(Caution));
    assert_eq!(two(&strong, reaction(Some(2), AT - Duration::seconds(86_401))), None);
    assert_eq!(two(&strong, reaction(Some(2), AT + Duration::hours(24))), Some(Caution), "told out of order");
    assert_eq!(two(&strong, reaction(Some(1), AT)), None, "it could look away");
    assert_eq!(two(&strong, reaction(None, AT)), Some(Caution), "not stated is not harmless");
    assert_eq!(two(&reaction(Some(1), AT), reaction(Some(4), AT)), None);
    let growl = EncounterFacts { kind: EncounterKind::GrowlOrSnap, ..reaction(Some(4), AT) };
    assert_eq!(two(&strong, growl), None);
}

#[test]
fn one_reaction_ends_work_on_distance() {
    let found = |change: fn(&mut Sitting)| {
        in_log("reaction_in_fear_work", &dog(), &[], |s| {
            s.outcome = Some(Outcome::Distance);
            change(s);
        })
    };
    assert_eq!(found(|s| s.looked = Some(Looked::Frozen)), Some(Caution));
    assert_eq!(found(|s| s.took_food = Some(TookFood::Refused)), Some(Caution));
    assert_eq!(found(|s| s.arousal_end = Some(5)), Some(Caution));
    assert_eq!(found(|s| s.arousal_end = Some(4)), None);
    assert_eq!(found(|s| s.looked = Some(Looked::Worried)), None);
    assert_eq!(found(|s| (s.outcome, s.arousal_end) = (Some(Outcome::Count), Some(5))), None);
}
