//! Rules on how much exciting or running work a dog does, and on impact.

use super::plans::exercise;
use super::*;
use crate::domain::vocabulary::{Energy, HealthSign};
use Severity::{Caution, Notice};
use time::Duration;

fn aged(days: i64) -> DogFacts {
    DogFacts { born: Some(DAY - Duration::days(days)), ..dog() }
}

fn arousing(days_ago: i64, minutes: i16) -> Sitting {
    sitting(|s| {
        (s.local_date, s.energy, s.minutes) =
            (DAY - Duration::days(days_ago), Some(Energy::Arousing), Some(minutes));
    })
}

#[test]
fn minutes_follow_the_age() {
    let limit = |dog: &DogFacts| sitting_minutes(dog, DAY, HouseNumbers::as_catalogued());
    assert_eq!(limit(&aged(16 * 7 - 1)), 3.0);
    assert_eq!(limit(&aged(16 * 7)), 5.0);
    let months = |born| limit(&DogFacts { born: Some(born), ..dog() });
    assert_eq!(months(date!(2024 - 12 - 21)), 5.0);
    assert_eq!(months(date!(2024 - 12 - 20)), 10.0);
    assert_eq!(months(date!(2024 - 06 - 21)), 10.0);
    assert_eq!(months(date!(2024 - 06 - 20)), 15.0);
    assert_eq!(months(date!(2017 - 06 - 21)), 15.0);
    assert_eq!(months(date!(2017 - 06 - 20)), 10.0);
    assert_eq!(limit(&DogFacts { born: None, ..dog() }), 15.0, "an adult's where the age is not stated");
}

#[test]
fn long_for_the_age_is_noticed_and_worse_at_half_again() {
    let took = |minutes, energy| {
        in_log("long_for_age", &dog(), &[], |s| (s.minutes, s.energy) = (Some(minutes), energy))
    };
    assert_eq!(took(15, Some(Energy::Arousing)), None);
    assert_eq!(took(16, Some(Energy::Arousing)), Some(Notice));
    assert_eq!(took(22, Some(Energy::Arousing)), Some(Notice));
    assert_eq!(took(23, Some(Energy::Arousing)), Some(Caution));
    assert_eq!(took(90, Some(Energy::Calm)), None, "calm work is exempt");
    assert_eq!(took(90, None), None);
    let planned = |minutes| {
        let chase =
            exercise("Chase", |item| (item.energy, item.minutes) = (Some(Energy::Arousing), Some(minutes)));
        in_plan("long_for_age", &dog(), vec![chase])
    };
    assert_eq!((planned(15), planned(16)), (None, Some(Notice)));
}

#[test]
fn a_day_carries_three_times_a_sitting() {
    let found =
        |recent: &[Sitting], minutes| in_log("arousing_day", &dog(), recent, |s| *s = arousing(0, minutes));
    assert_eq!(found(&[arousing(0, 15), arousing(0, 15)], 15), None);
    assert_eq!(found(&[arousing(0, 15), arousing(0, 15)], 16), Some(Caution));
    assert_eq!(found(&[arousing(1, 15), arousing(0, 15)], 16), None, "yesterday's do not count");
}

#[test]
fn one_arousing_sitting_a_day() {
    let found = |recent: &[Sitting]| in_log("two_arousing", &dog(), recent, |s| *s = arousing(0, 5));
    assert_eq!(found(&[]), None);
    assert_eq!(found(&[arousing(1, 5)]), None);
    assert_eq!(found(&[arousing(0, 5)]), Some(Notice));
    assert_eq!(in_log("two_arousing", &dog(), &[arousing(0, 5)], |s| s.energy = Some(Energy::Calm)), None);
}

#[test]
fn a_week_has_a_day_off() {
    let week = |days: i64| {
        let recent: Vec<Sitting> = (1..days).map(|ago| arousing(ago, 5)).collect();
        in_log("no_rest_day", &dog(), &recent, |s| *s = arousing(0, 5))
    };
    assert_eq!(week(6), None);
    assert_eq!(week(7), Some(Caution));
    let set = HouseNumbers::with([("rest_days", 5.0)]);
    let (today, dog) = (arousing(0, 5), dog());
    let recent: Vec<Sitting> = (1..5).map(|ago| arousing(ago, 5)).collect();
    let context = LogContext { recent: &recent, numbers: &set, ..LogContext::of(&today, &dog) };
    assert_eq!(of("no_rest_day", &evaluate_log(&context)), Some(Caution), "as the practice has set it");
}

fn running(days_ago: i64) -> Sitting {
    sitting(|s| (s.local_date, s.impact) = (DAY - Duration::days(days_ago), Some(true)))
}

#[test]
fn growing_old_sore_and_stiff_bodies_are_spared_impact() {
    let found = |dog: &DogFacts, ago| in_log("impact_for_body", dog, &[running(ago)], |s| *s = running(0));
    assert_eq!(found(&dog(), 1), None, "a grown, sound dog");
    assert_eq!(found(&aged(300), 6), Some(Caution));
    assert_eq!(found(&aged(300), 7), None, "once a week is not repeated");
    assert_eq!(found(&aged(9 * 366), 1), Some(Caution));
    let sore = DogFacts { sore: Some(true), ..dog() };
    assert_eq!(found(&sore, 1), Some(Caution));
    assert_eq!(found(&DogFacts { born: None, ..dog() }, 1), None);
    let stiff = |ago| {
        let lame = sitting(|s| {
            (s.local_date, s.health_signs) = (DAY - Duration::days(ago), vec![HealthSign::Lame]);
        });
        in_log("impact_for_body", &dog(), &[running(1), lame], |s| *s = running(0))
    };
    assert_eq!((stiff(13), stiff(14)), (Some(Caution), None));
    let planned = |times| {
        let chase = exercise("Chase", |item| (item.impact, item.times_a_week) = (Some(true), Some(times)));
        in_plan("impact_for_body", &sore, vec![chase])
    };
    assert_eq!((planned(1), planned(2)), (None, Some(Caution)));
}
