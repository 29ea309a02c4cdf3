//! What the library promises.

use super::*;
use std::collections::HashSet;

/// Words no owner should read.
const UNWELCOME: &[&str] = &[
    "missed",
    "fail",
    "command",
    "obey",
    "obedien",
    "dominan",
    "correction",
    "punish",
    "alpha",
    "flag",
    "!",
];

fn of(kind: ItemKind) -> Vec<&'static StarterExercise> {
    all().filter(|entry| entry.kind == kind).collect()
}

#[test]
fn there_is_enough_to_write_a_first_plan() {
    assert!(of(ItemKind::Exercise).len() >= 14);
    assert!(of(ItemKind::StandingArrangement).len() >= 6);
    assert!(of(ItemKind::OwnerSkill).len() >= 2);
}

#[test]
fn ladders_have_four_to_seven_rungs() {
    for entry in all() {
        match entry.kind {
            ItemKind::StandingArrangement => assert!(entry.steps.is_empty(), "{}", entry.key),
            _ => assert!((4..=7).contains(&entry.steps.len()), "{}", entry.key),
        }
    }
}

#[test]
fn keys_and_names_are_unique() {
    let keys: HashSet<_> = all().map(|entry| entry.key).collect();
    let names: HashSet<_> = all().map(|entry| entry.name).collect();
    assert_eq!(keys.len(), all().count());
    assert_eq!(names.len(), all().count());
    assert!(all().all(|entry| find(entry.key) == Some(entry)));
}

#[test]
fn owners_read_kind_words_and_nothing_is_left_empty() {
    for entry in all() {
        let fields = [
            entry.name,
            entry.owner_why,
            entry.criterion,
            entry.set_up,
            entry.delivery,
            entry.equipment_note,
            entry.caution,
            entry.source,
        ];
        let rungs = entry.steps.iter().flat_map(|rung| [rung.name, rung.criterion]);
        for text in fields.into_iter().chain(rungs) {
            assert!(!text.is_empty(), "{} has an empty field", entry.key);
            assert!(!text.contains("  "), "{} has a double space: {text}", entry.key);
            for word in UNWELCOME {
                assert!(!text.to_lowercase().contains(word), "{}: {word} in {text}", entry.key);
            }
        }
        assert!(!entry.purpose.is_empty(), "{}", entry.key);
    }
}

#[test]
fn one_thing_gets_harder_at_a_time() {
    for entry in all() {
        for pair in entry.steps.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let further = match entry.outcome {
                Outcome::Distance => to.distance < from.distance,
                _ => to.distance > from.distance,
            };
            let raised = [further, to.duration > from.duration, to.distraction > from.distraction];
            let count = raised.into_iter().filter(|it| *it).count();
            assert!(count <= 1, "{}: {} raises {count} things", entry.key, to.name);
            assert!(to.distraction <= from.distraction + 1, "{}: {}", entry.key, to.name);
            assert!((1..=5).contains(&to.distraction), "{}: {}", entry.key, to.name);
        }
    }
}

#[test]
fn arousing_work_comes_down_again_and_calm_work_needs_not() {
    for entry in all() {
        assert_eq!(entry.cool_down_minutes == 0, entry.cool_down_way.is_empty(), "{}", entry.key);
        assert_eq!(entry.energy == Energy::Calm, entry.cool_down_minutes == 0, "{}", entry.key);
        assert!(!entry.impact || entry.energy == Energy::Arousing, "{}", entry.key);
    }
}

#[test]
fn long_lines_clip_to_the_back_of_a_harness() {
    for entry in all().filter(|entry| entry.kind != ItemKind::OwnerSkill) {
        assert_eq!(entry.line == Line::None, entry.clip.is_none(), "{}", entry.key);
        if entry.line == Line::LongLine {
            assert_eq!(entry.clip, Some(Clip::HarnessBack), "{}", entry.key);
        }
    }
}

#[test]
fn what_can_hurt_is_judged_more_strictly_and_worry_is_not_counted() {
    for key in ["recall-long-line", "waiting-at-doors", "toy-exchange", "muzzle-comfort"] {
        assert_eq!(find(key).map(|entry| entry.class), Some(SkillClass::Safety), "{key}");
    }
    for entry in all().filter(|entry| entry.outcome != Outcome::Count) {
        assert_eq!(entry.usual_attempts, 0, "{}", entry.key);
    }
}
