//! Rules on encounters.

use super::*;
use crate::domain::vocabulary::{EncounterKind, Line, Looked, Towards};
use Severity::{Caution, Notice, Stop};
use time::Duration;

fn found(
    dog: &DogFacts,
    encounter: &EncounterFacts,
    recent: &[EncounterFacts],
) -> Vec<(&'static str, Severity)> {
    short(&evaluate_encounter(&EncounterContext { recent, ..EncounterContext::of(encounter, dog) }))
}

fn bite(towards: Option<Towards>, broken_skin: Option<bool>) -> EncounterFacts {
    EncounterFacts { towards, broken_skin, ..EncounterFacts::on(DAY, EncounterKind::Bite) }
}

#[test]
fn broken_skin_a_child_or_the_handler_stop() {
    let found = |towards, skin| found(&dog(), &bite(towards, skin), &[]);
    assert_eq!(found(Some(Towards::Stranger), Some(true)), [("bite", Stop)]);
    assert_eq!(found(None, Some(true)), [("bite", Stop)]);
    assert_eq!(found(Some(Towards::Child), Some(false)), [("bite", Stop)]);
    assert_eq!(found(Some(Towards::Handler), None), [("bite", Stop)]);
    assert_eq!(found(Some(Towards::Stranger), Some(false)), [("bite", Caution)]);
    assert_eq!(found(Some(Towards::Dog), None), [("bite", Caution)]);
    assert_eq!(found(None, None), [("bite", Caution)]);
}

fn puppy(weeks: i64) -> DogFacts {
    DogFacts { born: Some(DAY - Duration::weeks(weeks)), ..dog() }
}

#[test]
fn a_playful_puppy_gets_advice() {
    let play = |towards| EncounterFacts { looked: Some(Looked::Loose), ..bite(towards, Some(false)) };
    assert_eq!(found(&puppy(25), &play(Some(Towards::Handler)), &[]), [("puppy_mouthing", Notice)]);
    assert_eq!(found(&puppy(25), &play(Some(Towards::Child)), &[]), [("puppy_mouthing", Caution)]);
    assert_eq!(found(&puppy(26), &play(Some(Towards::Handler)), &[]), [("bite", Stop)]);
}

#[test]
fn the_puppys_exception_needs_every_part_stated() {
    let play = EncounterFacts { looked: Some(Looked::Loose), ..bite(Some(Towards::Dog), Some(false)) };
    let ageless = DogFacts { born: None, ..dog() };
    assert_eq!(found(&ageless, &play, &[]), [("bite", Caution)]);
    for change in [
        EncounterFacts { looked: None, ..play.clone() },
        EncounterFacts { looked: Some(Looked::Frozen), ..play.clone() },
        EncounterFacts { broken_skin: None, ..play.clone() },
    ] {
        assert_eq!(found(&puppy(12), &change, &[]), [("bite", Caution)]);
    }
    let skin = EncounterFacts { broken_skin: Some(true), ..play };
    assert_eq!(found(&puppy(12), &skin, &[]), [("bite", Stop)]);
}

#[test]
fn a_growl_at_a_child_stops_and_another_growl_is_heard() {
    let growl = |towards| EncounterFacts { towards, ..EncounterFacts::on(DAY, EncounterKind::GrowlOrSnap) };
    assert_eq!(found(&dog(), &growl(Some(Towards::Child)), &[]), [("growl_at_child", Stop)]);
    assert_eq!(found(&dog(), &growl(Some(Towards::Dog)), &[]), []);
    assert_eq!(found(&dog(), &growl(None), &[]), []);
}

#[test]
fn a_second_incident_in_thirty_days_stops() {
    let growl = EncounterFacts::on(DAY, EncounterKind::GrowlOrSnap);
    let past = |days: i64, kind| EncounterFacts::on(DAY - Duration::days(days), kind);
    let after = |past: EncounterFacts| found(&dog(), &growl, &[past]);
    assert_eq!(after(past(30, EncounterKind::Bite)), [("second_incident", Stop)]);
    assert_eq!(after(past(31, EncounterKind::Bite)), []);
    assert_eq!(after(past(-30, EncounterKind::Bite)), [("second_incident", Stop)], "told out of order");
    assert_eq!(after(past(-31, EncounterKind::Bite)), []);
    assert_eq!(after(past(3, EncounterKind::Reaction)), []);
    assert_eq!(after(past(3, EncounterKind::Bolted)), []);
}

#[test]
fn the_other_incident_is_told_by_its_distance() {
    let growl = EncounterFacts::on(DAY, EncounterKind::GrowlOrSnap);
    let seen = |days: i64| {
        let other = EncounterFacts::on(DAY + Duration::days(days), EncounterKind::Bite);
        let found = evaluate_encounter(&EncounterContext {
            recent: &[other],
            ..EncounterContext::of(&growl, &dog())
        });
        found[0].seen.clone()
    };
    assert!(seen(-1).ends_with("another one 1 day before."));
    assert!(seen(0).ends_with("another one on the same day."));
    assert!(seen(4).ends_with("another one 4 days after."));
}

#[test]
fn a_puppys_play_makes_no_pattern() {
    let play = EncounterFacts { looked: Some(Looked::Loose), ..bite(None, Some(false)) };
    assert_eq!(found(&puppy(12), &play, std::slice::from_ref(&play)), [("puppy_mouthing", Notice)]);
}

#[test]
fn bolting_takes_every_permission_to_be_off_lead() {
    let ran = |line| EncounterFacts { line, ..EncounterFacts::on(DAY, EncounterKind::Bolted) };
    assert_eq!(found(&dog(), &ran(Some(Line::None)), &[]), [("bolted", Stop)]);
    assert_eq!(found(&dog(), &ran(Some(Line::TrailingLine)), &[]), [("bolted", Stop)]);
    assert_eq!(found(&dog(), &ran(Some(Line::LongLine)), &[]), [("bolted", Caution)]);
    assert_eq!(found(&dog(), &ran(None), &[]), [("bolted", Caution)]);
    let (ran_off, dog) = (ran(None), dog());
    let context = EncounterContext::of(&ran_off, &dog);
    assert!(evaluate_encounter(&context).iter().all(Finding::off_lead_lapses));
}

#[test]
fn not_coping_is_heard() {
    let said = EncounterFacts::on(DAY, EncounterKind::NotCoping);
    assert_eq!(found(&dog(), &said, &[]), [("not_coping", Caution)]);
    for kind in [EncounterKind::Reaction, EncounterKind::Other] {
        assert_eq!(found(&dog(), &EncounterFacts::on(DAY, kind), &[]), []);
    }
}
