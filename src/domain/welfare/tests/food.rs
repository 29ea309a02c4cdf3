//! Rules on food: the share of the day, and foods that a dog must not be paid with.

use super::*;
use crate::domain::dog::Weighing;
use crate::domain::food::earned::Paid;
use crate::domain::plan::PlannedItem;
use crate::domain::vocabulary::{Activity, ItemKind};
use Severity::{Caution, Notice, Stop};
use proptest::prelude::*;

/// A grown, neutered dog of 15 kg that walks an hour or two: 838 kcal a day (FEDIAF, annex table VII-12).
fn fed(change: impl FnOnce(&mut DogFacts)) -> DogFacts {
    let mut fed = DogFacts {
        neutered: Some(true),
        activity: Some(Activity::Moderate),
        body_condition: Some(5),
        weighings: vec![Weighing { on: DAY, kg: 15.0 }],
        ..dog()
    };
    change(&mut fed);
    fed
}

/// One kcal a piece.
fn pieces(count: i64) -> Paid {
    Paid {
        what: Some("Cheese".to_owned()),
        pieces: Some(count),
        grams_per_piece: Some(0.25),
        kcal_per_g: Some(4.0),
        ..Paid::default()
    }
}

fn share(dog: &DogFacts, week: &[Paid]) -> Option<Severity> {
    share_with(dog, week, HouseNumbers::as_catalogued())
}

fn share_with(dog: &DogFacts, week: &[Paid], numbers: &HouseNumbers) -> Option<Severity> {
    let sitting = Sitting::on(DAY);
    let paid = PaidFood { with: None, over_seven_days: week };
    let findings = evaluate_log(&LogContext { paid, numbers, ..LogContext::of(&sitting, dog) });
    let found = findings.iter().find(|finding| finding.rule.id == "over_daily_share");
    found.map(|finding| finding.severity)
}

/// Seven days of a tenth of 838.4 kcal are 586.9 kcal.
#[test]
fn extras_over_a_tenth_of_the_day_are_noticed() {
    let plain = fed(|_| ());
    assert_eq!(share(&plain, &[pieces(586)]), None);
    assert_eq!(share(&plain, &[pieces(587)]), Some(Notice));
    assert_eq!(share(&plain, &[pieces(300), pieces(287)]), Some(Notice), "sittings together");
    let meals = Paid { from_meals: Some(true), ..pieces(5000) };
    assert_eq!(share(&plain, &[meals, pieces(500)]), None, "food out of the meals is no extra");
    let unknown = Paid { kcal_per_g: None, ..pieces(5000) };
    assert_eq!(share(&plain, &[unknown]), None, "what is not stated is not counted");
    assert_eq!(share(&fed(|dog| dog.weighings.clear()), &[pieces(5000)]), None, "no weight, no figure");
    let stricter = HouseNumbers::with([("treats", 5.0)]);
    assert_eq!(share_with(&plain, &[pieces(300)], &stricter), Some(Notice));
    assert_eq!(share_with(&plain, &[pieces(587)], &HouseNumbers::with([("treats", 50.0)])), Some(Notice));
}

#[test]
fn rising_weight_or_condition_makes_it_a_caution() {
    let weighed = |kilograms: &[f64]| {
        let weighings = kilograms.iter().zip(0_i64..);
        weighings.map(|(kg, weeks)| Weighing { on: DAY - time::Duration::weeks(weeks), kg: *kg }).collect()
    };
    let week = [pieces(2000)];
    assert_eq!(share(&fed(|dog| dog.weighings = weighed(&[15.0, 15.0])), &week), Some(Notice));
    assert_eq!(
        share(&fed(|dog| dog.weighings = weighed(&[15.45, 15.0])), &week),
        Some(Notice),
        "3 % is the limit"
    );
    assert_eq!(share(&fed(|dog| dog.weighings = weighed(&[15.46, 15.0])), &week), Some(Caution));
    assert_eq!(
        share(&fed(|dog| dog.weighings = weighed(&[15.0, 16.0])), &week),
        Some(Notice),
        "it lost weight"
    );
    assert_eq!(share(&fed(|dog| dog.body_condition = Some(6)), &week), Some(Caution));
    assert_eq!(share(&fed(|dog| dog.body_condition = None), &week), Some(Notice));
    let pup = |dog: &mut DogFacts| {
        (dog.born, dog.expected_adult_kg) = (Some(date!(2024 - 12 - 01)), Some(20.0));
        dog.weighings = weighed(&[10.0, 8.0]);
    };
    assert_eq!(share(&fed(pup), &week), Some(Notice), "a pup is meant to grow");
    let unknown = |dog: &mut DogFacts| (dog.born, dog.weighings) = (None, weighed(&[16.0, 15.0]));
    assert_eq!(share(&fed(unknown), &week), Some(Caution), "an age that is not stated excuses nothing");
    assert_eq!(share(&fed(|dog| dog.body_condition = Some(9)), &[]), None, "no treats, no finding");
}

#[test]
fn a_weighing_after_the_sitting_says_nothing_about_it() {
    let later = fed(|dog| dog.weighings[0].on = DAY.next_day().expect("a day"));
    assert_eq!(share(&later, &[pieces(5000)]), None);
    let heavier = Weighing { on: DAY.next_day().expect("a day"), kg: 16.0 };
    let both = fed(|dog| dog.weighings.insert(0, heavier));
    assert_eq!(share(&both, &[pieces(5000)]), Some(Notice), "a later rise is none yet");
}

#[test]
fn the_finding_carries_its_numbers() {
    let (sitting, fed) = (Sitting::on(DAY), fed(|_| ()));
    let week = [pieces(900), Paid { pieces: None, what: Some("Liver".to_owned()), ..pieces(1) }];
    let paid = PaidFood { with: None, over_seven_days: &week };
    let findings = evaluate_log(&LogContext { paid, ..LogContext::of(&sitting, &fed) });
    let finding = findings.first().expect("a finding");
    assert!(finding.seen.contains("16 %") && finding.seen.contains("Cheese"), "{}", finding.seen);
    assert!(
        finding.owner_seen.contains("16 %") && finding.owner_seen.contains("Bracken"),
        "{}",
        finding.owner_seen
    );
    let fact = |label| finding.facts.iter().find(|fact| fact.label == label).map(|fact| fact.value.as_str());
    assert!(fact("Daily need, kcal").is_some_and(|need| need.starts_with("838 (")), "{:?}", finding.facts);
    assert_eq!(fact("Extras, kcal a day"), Some("129"));
    assert_eq!(fact("Not counted"), Some("Liver: how many were given is not stated"));
}

fn planned(allergies: &str, reinforcer: &str) -> Vec<(&'static str, Severity)> {
    let item = PlannedItem {
        minutes: Some(5),
        place: Some("Garden".to_owned()),
        reinforcer: Some(reinforcer.to_owned()),
        ..PlannedItem::new("Recall", ItemKind::Exercise)
    };
    let plan = PlanFacts { items: vec![item] };
    let dog = DogFacts { allergies: allergies.to_owned(), ..dog() };
    let findings = evaluate_plan(&PlanContext::of(&plan, &dog, DAY));
    assert!(findings.iter().all(|finding| finding.item == Some(0)), "each leads to its item");
    short(&findings)
}

#[test]
fn a_harmful_food_is_not_planned() {
    assert_eq!(planned("", "Chocolate drops"), [("harmful_food_planned", Stop)]);
    assert_eq!(planned("", "cooked chicken bones"), [("harmful_food_planned", Caution)]);
    assert_eq!(planned("", "peanut butter"), [("harmful_food_planned", Notice)]);
    assert_eq!(planned("", "onion-free meatloaf"), []);
    assert_eq!(planned("", "grapefruit"), []);
    assert_eq!(planned("", "raisins and dark chocolate").len(), 2);
}

#[test]
fn an_allergen_is_not_planned() {
    assert_eq!(planned("beef, itchy feet", "ox heart"), [("allergen_planned", Caution)]);
    assert_eq!(planned("beef, itchy feet", "liver, baked"), [("allergen_planned", Notice)]);
    assert_eq!(planned("beef, itchy feet", "chicken"), []);
    assert_eq!(planned("", "ox heart"), []);
    assert_eq!(planned("beef and liver", "ox liver").len(), 1, "said once for one reward");
}

fn paid(
    allergies: &str,
    with: Option<&str>,
    change: impl FnOnce(&mut Sitting),
) -> Vec<(&'static str, Severity)> {
    let sitting = sitting(change);
    let dog = DogFacts { allergies: allergies.to_owned(), ..dog() };
    let paid = PaidFood { with, over_seven_days: &[] };
    short(&evaluate_log(&LogContext { paid, ..LogContext::of(&sitting, &dog) }))
}

#[test]
fn what_was_paid_with_is_looked_at_where_pieces_were_given() {
    let gave = |count: i16| {
        move |sitting: &mut Sitting| (sitting.attempts, sitting.rewarded) = (Some(10), Some(count))
    };
    let met = |sitting: &mut Sitting| (sitting.attempts, sitting.met) = (Some(10), Some(8));
    assert_eq!(paid("", Some("raisins"), gave(3)), [("harmful_food_paid", Stop)]);
    assert_eq!(paid("", Some("raisins"), met), [("harmful_food_paid", Stop)], "met stands for paid");
    assert_eq!(paid("", Some("raisins"), gave(0)), []);
    assert_eq!(paid("", Some("raisins"), |_| ()), [], "not stated raises no stop");
    assert_eq!(paid("", Some("cooked bones"), gave(3)), [("harmful_food_paid", Caution)]);
    assert_eq!(paid("", Some("peanut butter"), gave(3)), [], "a label was for the plan to check");
    assert_eq!(paid("", None, gave(3)), []);
    assert_eq!(paid("fish", Some("salmon"), gave(3)), [("allergen_paid", Caution)]);
    assert_eq!(paid("salmon", Some("fish flakes"), gave(3)), [("allergen_paid", Notice)]);
    assert_eq!(paid("fish", Some("salmon"), gave(0)), []);
    assert_eq!(paid("fish", Some("chicken"), gave(3)), []);
}

proptest! {
    #[test]
    fn more_food_or_a_rounder_dog_never_lowers_the_severity(
        count in 0_i64..3000, more in 0_i64..3000, condition in 1_i16..=9, rounder in 0_i16..=8, kg in 2.0_f64..80.0,
    ) {
        let dog = |points: i16| fed(|dog| {
            dog.body_condition = Some(points.min(9));
            dog.weighings[0].kg = kg;
        });
        let (plain, fuller) = (share(&dog(condition), &[pieces(count)]), share(&dog(condition), &[pieces(count + more)]));
        prop_assert!(fuller >= plain);
        prop_assert!(share(&dog(condition + rounder), &[pieces(count)]) >= plain);
    }

    #[test]
    fn no_words_panic(allergies in ".{0,40}", words in ".{0,40}") {
        planned(&allergies, &words);
        paid(&allergies, Some(&words), |sitting| sitting.rewarded = Some(1));
    }
}
