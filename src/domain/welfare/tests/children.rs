//! Rules on children, guarding, warnings, and plans near what a bite was about.

use super::plans::exercise;
use super::*;
use crate::domain::vocabulary::{Children, EncounterKind, ItemKind, Looked, Outcome, Towards};
use Severity::{Caution, Stop};
use time::Duration;

#[test]
fn a_child_on_the_line_is_a_stop() {
    let held = |child| in_log("child_held_line", &dog(), &[], |s| s.child_held_line = child);
    assert_eq!((held(Some(true)), held(Some(false)), held(None)), (Some(Stop), None, None));
}

fn gate() -> PlannedItem {
    PlannedItem::new("Stair gate", ItemKind::StandingArrangement)
}

fn within_reach(dog: &DogFacts, items: Vec<PlannedItem>) -> Option<Severity> {
    in_plan("child_within_reach", dog, items)
}

#[test]
fn a_child_within_reach_needs_something_between() {
    let bitten = DogFacts { bite_on_record: true, children: Some(Children::Living), ..dog() };
    let mat = || exercise("Mat", |_| ());
    assert_eq!(within_reach(&bitten, vec![mat()]), Some(Stop));
    assert_eq!(within_reach(&bitten, vec![gate(), mat()]), None);
    assert_eq!(within_reach(&bitten, vec![exercise("A gate", |_| ())]), Some(Stop), "an exercise is none");
    let apart = PlannedItem::new("Children and dog apart", ItemKind::StandingArrangement);
    assert_eq!(within_reach(&bitten, vec![apart, mat()]), None);
    let quiet = PlannedItem::new("Walks at the quiet hours", ItemKind::StandingArrangement);
    assert_eq!(within_reach(&bitten, vec![quiet, mat()]), Some(Stop));
    let for_visitors = || PlannedItem::new("Gate shut when visitors come", ItemKind::StandingArrangement);
    assert_eq!(within_reach(&bitten, vec![for_visitors(), mat()]), Some(Stop), "these children live there");
    let food = PlannedItem::new("Food and chews apart", ItemKind::StandingArrangement);
    assert_eq!(within_reach(&bitten, vec![food, mat()]), Some(Stop));
    let visiting = DogFacts { children: Some(Children::Visiting), ..bitten.clone() };
    assert_eq!(within_reach(&visiting, vec![mat()]), Some(Caution));
    assert_eq!(within_reach(&visiting, vec![for_visitors(), mat()]), None);
    assert_eq!(
        within_reach(&DogFacts { children: Some(Children::None), ..bitten.clone() }, vec![mat()]),
        None
    );
    assert_eq!(within_reach(&DogFacts { children: None, ..bitten.clone() }, vec![mat()]), None, "not stated");
    let growled = DogFacts { bite_on_record: false, growl_on_record: true, ..bitten.clone() };
    assert_eq!(within_reach(&growled, vec![mat()]), Some(Stop));
    assert_eq!(within_reach(&DogFacts { growl_on_record: false, ..growled }, vec![mat()]), None);
}

/// Of the arrangements that every practice starts with, two keep children and dog apart; doors and fences spoken of along the way
/// do not.
#[test]
fn a_door_spoken_of_along_the_way_keeps_nobody_apart() {
    let living = DogFacts { bite_on_record: true, children: Some(Children::Living), ..dog() };
    let silent: Vec<&str> = crate::domain::starter_library::all()
        .filter(|entry| entry.kind == ItemKind::StandingArrangement)
        .filter(|entry| {
            let words = format!("{} {}", entry.set_up, entry.equipment_note);
            let item = PlannedItem { words, ..PlannedItem::new(entry.name, ItemKind::StandingArrangement) };
            within_reach(&living, vec![item, exercise("Mat", |_| ())]).is_none()
        })
        .map(|entry| entry.name)
        .collect();
    assert_eq!(silent, ["Children and dog apart unless someone is between"]);
}

#[test]
fn two_numbers_together_silence_no_rule() {
    let numbers = HouseNumbers::with([("pattern_times", 5.0), ("pattern_window", 3.0)]);
    assert_eq!(super::super::cool_down::pattern_times(&numbers), 3);
}

#[test]
fn a_home_is_new_for_three_weeks() {
    let at_home = |days: i64| {
        let home_since = Some(DAY - Duration::days(days));
        let dog = DogFacts { home_since, children: Some(Children::Living), ..dog() };
        within_reach(&dog, vec![exercise("Mat", |_| ())])
    };
    assert_eq!((at_home(0), at_home(20), at_home(21)), (Some(Stop), Some(Stop), None));
    assert_eq!(at_home(-5), None, "not there yet");
}

fn guarded(change: impl FnOnce(&mut EncounterFacts)) -> Option<Severity> {
    let mut met = EncounterFacts::on(DAY, EncounterKind::Guarded);
    change(&mut met);
    of("guarding", &evaluate_encounter(&EncounterContext::of(&met, &dog())))
}

#[test]
fn guarding_stops_with_freezing_or_a_child() {
    assert_eq!(guarded(|_| ()), Some(Caution));
    assert_eq!(guarded(|met| met.looked = Some(Looked::Frozen)), Some(Stop));
    assert_eq!(guarded(|met| met.towards = Some(Towards::Child)), Some(Stop));
    assert_eq!(guarded(|met| met.towards = Some(Towards::Dog)), Some(Caution));
    assert_eq!(guarded(|met| met.kind = EncounterKind::Other), None);
}

#[test]
fn a_growl_that_is_gone_is_a_caution() {
    let bitten = |warned, growl_on_record| {
        let met = EncounterFacts { warned, ..EncounterFacts::on(DAY, EncounterKind::Bite) };
        let dog = DogFacts { growl_on_record, ..dog() };
        of("growl_gone", &evaluate_encounter(&EncounterContext::of(&met, &dog)))
    };
    assert_eq!(bitten(Some(false), true), Some(Caution));
    assert_eq!(bitten(Some(true), true), None);
    assert_eq!(bitten(None, true), None);
    assert_eq!(bitten(Some(false), false), None);
}

#[test]
fn a_dog_that_bit_works_near_its_target_with_something_between() {
    let bitten = DogFacts { bite_on_record: true, ..dog() };
    let near = || exercise("Seen from far off", |item| item.outcome = Some(Outcome::Distance));
    let found = |dog: &DogFacts, items| in_plan("bite_near_target", dog, items);
    assert_eq!(found(&bitten, vec![near()]), Some(Caution));
    assert_eq!(found(&dog(), vec![near()]), None);
    assert_eq!(
        found(&DogFacts { muzzle: "Basket muzzle, trained".to_owned(), ..bitten.clone() }, vec![near()]),
        None
    );
    assert_eq!(found(&bitten, vec![gate(), near()]), None);
    let fenced = PlannedItem { words: "Behind the school fence.".to_owned(), ..near() };
    assert_eq!(found(&bitten, vec![fenced]), None);
    let open = PlannedItem { words: "Carpenter's yard; open pens are for sheep.".to_owned(), ..near() };
    assert_eq!(found(&bitten, vec![open]), Some(Caution), "a word inside another is none");
    let at = |level| exercise("Recall", |item| item.place_distraction = Some(level));
    assert_eq!(found(&bitten, vec![at(5)]), Some(Caution));
    assert_eq!(found(&bitten, vec![at(4)]), None);
}
