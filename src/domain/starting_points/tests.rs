//! What the starting points promise.

use super::*;
use crate::domain::vocabulary::{ItemKind, Outcome};

#[test]
fn every_item_is_an_entry_and_every_rung_is_one_of_its_ladder() {
    for point in points::ALL {
        for item in point.items {
            let entry = item.entry().unwrap_or_else(|| panic!("{}: no entry {}", point.key, item.key));
            assert!(usize::from(item.rung) <= entry.steps.len(), "{}: {}", point.key, item.key);
            assert_eq!(item.rung == 0, entry.steps.is_empty(), "{}: {}", point.key, item.key);
            let practised = entry.kind != ItemKind::StandingArrangement;
            assert_eq!(practised, item.minutes > 0, "{}: {}", point.key, item.key);
        }
    }
}

#[test]
fn what_keeps_everyone_safe_comes_first_and_a_household_can_do_it() {
    for point in points::ALL {
        let kinds: Vec<ItemKind> =
            point.items.iter().filter_map(|item| item.entry()).map(|entry| entry.kind).collect();
        assert_eq!(kinds[0], ItemKind::StandingArrangement, "{}", point.key);
        let last_kept = kinds.iter().rposition(|kind| *kind == ItemKind::StandingArrangement);
        let first_practised = kinds.iter().position(|kind| *kind != ItemKind::StandingArrangement);
        assert!(last_kept < first_practised, "{}", point.key);
        assert!(kinds.len() <= 5, "{}: more than five instructions", point.key);
    }
}

#[test]
fn nothing_is_counted_in_the_first_weeks_of_a_new_home() {
    let point = find("new-home").expect("it is one");
    let entries = || point.items.iter().filter_map(|item| item.entry());
    let counted =
        |entry: &&StarterExercise| entry.kind == ItemKind::Exercise && entry.outcome == Outcome::Count;
    assert_eq!(entries().filter(counted).count(), 0);
    let keys: Vec<&str> = point.items.iter().map(|item| item.key).collect();
    assert!(keys.contains(&"no-greetings") && keys.contains(&"two-attachments"));
}

#[test]
fn a_puppy_is_offered_its_weeks_first() {
    let first = |weeks| for_age(weeks)[0].key;
    assert_eq!(first(Some(11)), "puppy-8-weeks");
    assert_eq!(first(Some(12)), "puppy-12-weeks");
    assert_eq!(first(Some(25)), "puppy-16-weeks");
    assert_eq!((first(Some(26)), first(None)), ("new-home", "new-home"));
    assert_eq!(for_age(None).len(), points::ALL.len());
}

#[test]
fn names_and_keys_are_unique_and_nothing_is_left_empty() {
    for point in points::ALL {
        let same = |other: &&StartingPoint| other.key == point.key || other.name == point.name;
        assert_eq!(points::ALL.iter().filter(same).count(), 1, "{}", point.key);
        assert_eq!(find(point.key), Some(point));
        for text in [point.name, point.suits, point.caution, point.note] {
            assert!(!text.is_empty() && !text.contains("  "), "{}: {text}", point.key);
        }
    }
}
