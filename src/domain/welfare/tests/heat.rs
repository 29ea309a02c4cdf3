//! The rule on heat.

use super::*;
use crate::domain::dog::Weighing;
use crate::domain::vocabulary::{Coat, Energy, Felt, HealthSign};
use crate::domain::weather::Weather;
use Severity::{Caution, Notice, Stop};
use proptest::prelude::*;

fn measured(air_c: f64, humidity: i16) -> Weather {
    Weather { air_c: Some(air_c), humidity: Some(humidity), ..Weather::default() }
}

/// What the rule finds for a dog, in this weather, at work of this energy.
fn of(dog: &DogFacts, energy: Option<Energy>, weather: Weather, numbers: &HouseNumbers) -> Option<Finding> {
    let sitting = sitting(|s| (s.energy, s.weather) = (energy, weather));
    let context = LogContext { numbers, ..LogContext::of(&sitting, dog) };
    evaluate_log(&context).into_iter().find(|finding| finding.rule.id == "heat_at_work")
}

fn severity(dog: &DogFacts, energy: Option<Energy>, weather: Weather) -> Option<Severity> {
    of(dog, energy, weather, HouseNumbers::as_catalogued()).map(|finding| finding.severity)
}

const CALM: Option<Energy> = Some(Energy::Calm);
const RUNS: Option<Energy> = Some(Energy::Arousing);

#[test]
fn each_band_speaks_by_how_hard_the_work_is() {
    // a dog without burdens: 1 °C under and over the edge of a band, in dry air
    for (air_c, calm) in
        [(26.0, None), (28.0, None), (33.0, Some(Caution)), (38.0, Some(Caution)), (54.0, Some(Stop))]
    {
        assert_eq!(severity(&dog(), CALM, measured(air_c, 40)), calm, "calm at {air_c} °C");
    }
    // the same dog running: bands begin one earlier
    for (air_c, runs) in [(20.0, None), (22.0, Some(Notice)), (27.5, Some(Caution)), (33.0, Some(Stop))] {
        assert_eq!(severity(&dog(), RUNS, measured(air_c, 40)), runs, "running at {air_c} °C");
    }
}

#[test]
fn a_third_band_stops_hard_work_alone() {
    let hot = measured(38.0, 40);
    assert_eq!(severity(&dog(), Some(Energy::Moving), hot), Some(Caution));
    assert_eq!(severity(&dog(), RUNS, hot), Some(Stop));
    let sitting = sitting(|s| (s.energy, s.impact, s.weather) = (CALM, Some(true), measured(33.0, 40)));
    let found = evaluate_log(&LogContext::of(&sitting, &dog()));
    assert_eq!(short(&found), [("heat_at_work", Stop)], "running is vigorous, however calm it is called");
}

#[test]
fn work_that_is_not_stated_never_raises_a_stop() {
    assert_eq!(severity(&dog(), None, measured(38.0, 40)), Some(Caution));
    assert_eq!(severity(&dog(), None, measured(33.0, 40)), Some(Caution));
    assert_eq!(severity(&dog(), None, measured(28.0, 40)), None);
}

#[test]
fn heat_that_was_not_stated_raises_nothing() {
    let pug = DogFacts { short_nosed: Some(true), body_condition: Some(9), ..dog() };
    assert_eq!(severity(&pug, RUNS, Weather::default()), None);
    let sun = Weather { in_sun: Some(true), hot_ground: Some(true), ..Weather::default() };
    assert_eq!(severity(&pug, RUNS, sun), None);
    assert_eq!(severity(&pug, RUNS, Weather { humidity: Some(90), ..sun }), None);
}

#[test]
fn one_tap_is_enough() {
    let felt = |felt| Weather { felt: Some(felt), ..Weather::default() };
    assert_eq!(severity(&dog(), RUNS, felt(Felt::Mild)), None);
    assert_eq!(severity(&dog(), RUNS, felt(Felt::Warm)), Some(Notice));
    assert_eq!(severity(&dog(), RUNS, felt(Felt::Hot)), Some(Caution));
    assert_eq!(severity(&dog(), CALM, felt(Felt::Hot)), None);
}

#[test]
fn everything_known_of_the_dog_and_the_day_counts() {
    let warm = measured(22.0, 40);
    assert_eq!(severity(&dog(), RUNS, warm), Some(Notice));
    let heavy = |kg| vec![Weighing { on: DAY, kg }, Weighing { on: DAY, kg: 20.0 }];
    for harder in [
        DogFacts { short_nosed: Some(true), ..dog() },
        DogFacts { weighings: heavy(51.0), ..dog() },
        DogFacts { born: Some(date!(2017 - 06 - 20)), ..dog() },
        DogFacts { body_condition: Some(6), ..dog() },
        DogFacts { heart_or_breathing: Some(true), ..dog() },
        DogFacts { coat: Some(Coat::Thick), ..dog() },
        DogFacts { muzzle: "Basket, pants well in it".to_owned(), ..dog() },
    ] {
        assert_eq!(severity(&harder, RUNS, warm), Some(Caution), "{harder:?}");
    }
    for harder in [Weather { in_sun: Some(true), ..warm }, Weather { hot_ground: Some(true), ..warm }] {
        assert_eq!(severity(&dog(), RUNS, harder), Some(Caution), "{harder:?}");
    }
    for as_before in [
        DogFacts { weighings: heavy(50.0), ..dog() },
        DogFacts { born: Some(date!(2017 - 06 - 21)), ..dog() },
        DogFacts { body_condition: Some(5), short_nosed: Some(false), ..dog() },
    ] {
        assert_eq!(severity(&as_before, RUNS, warm), Some(Notice), "{as_before:?}");
    }
}

#[test]
fn a_practice_may_be_stricter_and_no_laxer() {
    let found = |key, value, dog: &DogFacts, air_c| {
        of(dog, RUNS, measured(air_c, 40), &HouseNumbers::with([(key, value)])).map(|found| found.severity)
    };
    assert_eq!(found("heat_every_dog", 1.0, &dog(), 20.0), Some(Notice));
    assert_eq!(found("heat_every_dog", -3.0, &dog(), 22.0), Some(Notice), "not below the floor");
    let thirty = DogFacts { weighings: vec![Weighing { on: DAY, kg: 30.0 }], ..dog() };
    assert_eq!(found("heat_heavy_kg", 25.0, &thirty, 20.0), Some(Notice));
    assert_eq!(found("heat_heavy_kg", 50.0, &thirty, 20.0), None);
    let seven = DogFacts { born: Some(date!(2018 - 06 - 01)), ..dog() };
    assert_eq!(found("heat_old_years", 6.0, &seven, 20.0), Some(Notice));
    assert_eq!(found("heat_old_years", 8.0, &seven, 20.0), None);
    let six = DogFacts { body_condition: Some(6), ..dog() };
    assert_eq!(found("heat_over_ideal", 6.0, &six, 20.0), Some(Notice));
    assert_eq!(found("heat_over_ideal", 7.0, &six, 20.0), None);
}

#[test]
fn it_says_what_was_seen_and_what_was_not_known() {
    let pug = DogFacts { short_nosed: Some(true), ..dog() };
    let found = of(&pug, RUNS, measured(24.0, 60), HouseNumbers::as_catalogued()).expect("a finding");
    assert_eq!(
        found.seen,
        "Extreme caution for Bracken, where a person would be below the bands: 24 °C and 60 % humidity, a heat index \
         of 24 °C."
    );
    assert_eq!(
        found.owner_seen,
        "Bracken ran or got excited in the warmth: 24 °C and 60 % humidity, a heat index of 24 °C. Harder for \
         Bracken: short nose and running or exciting work."
    );
    let value = |label| found.facts.iter().find(|fact| fact.label == label).map(|fact| fact.value.as_str());
    assert_eq!(value("Harder by"), Some("short nose and arousing or running work"));
    assert_eq!(
        value("Not stated"),
        Some("weight, body condition, heart and breathing, coat, muzzle or not, sun or shade and the ground")
    );
}

/// Cool first, transport second: ACVECC Vet-COT 2016. Signs: Hall et al. 2021.
#[test]
fn owners_read_the_signs_and_what_to_do_first() {
    let entry = rule("heat_at_work").expect("a rule");
    for words in ["panting that will not slow", "cool your dog", "ring your vet"] {
        assert!(entry.owner_do.contains(words), "{words}");
    }
    let texts = [entry.raises, entry.why, entry.trainer_do, entry.owner_do, entry.owner_why, entry.source];
    assert!(texts.iter().all(|text| !text.to_lowercase().contains("safe")));
    assert!(entry.source.contains("people, not dogs") && entry.source.contains("house rule"));
}

#[test]
fn a_sign_of_heat_illness_is_read_first() {
    let sitting = sitting(|s| {
        (s.energy, s.weather) = (RUNS, measured(33.0, 40));
        s.health_signs = vec![HealthSign::Heat];
    });
    let found = evaluate_log(&LogContext::of(&sitting, &dog()));
    assert_eq!(short(&found), [("heat_illness", Stop), ("heat_at_work", Stop)]);
}

proptest! {
    #[test]
    fn more_heat_damp_or_effort_never_lowers_a_severity(
        air_c in -40.0_f64..=59.0, humidity in 0_i16..=99, short_nosed in any::<bool>(), sun in any::<Option<bool>>(),
    ) {
        let dog = DogFacts { short_nosed: Some(short_nosed), ..dog() };
        let weather = Weather { in_sun: sun, ..measured(air_c, humidity) };
        for energy in [None, CALM, RUNS] {
            let here = severity(&dog, energy, weather);
            let warmer = Weather { air_c: Some(air_c + 1.0), ..weather };
            let damper = Weather { humidity: Some(humidity + 1), ..weather };
            prop_assert!(severity(&dog, energy, warmer) >= here);
            prop_assert!(severity(&dog, energy, damper) >= here);
            prop_assert!(severity(&dog, RUNS, weather) >= here);
            let pug = DogFacts { short_nosed: Some(true), ..dog.clone() };
            prop_assert!(severity(&pug, energy, weather) >= here);
        }
    }

    #[test]
    fn no_weather_panics(air_c in any::<Option<f64>>(), humidity in any::<Option<i16>>(), sun in any::<Option<bool>>()) {
        let weather = Weather { air_c, humidity, in_sun: sun, ..Weather::default() };
        let _ = severity(&dog(), RUNS, weather);
    }
}
