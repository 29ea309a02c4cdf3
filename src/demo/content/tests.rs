//! What the content promises to whoever plays it.

use super::*;
use crate::domain::starter_library::{self, StarterExercise};
use crate::domain::vocabulary::{Energy, ItemKind, Line, Outcome, SkillClass};
use std::collections::HashSet;

/// Every story the caseload has to be able to show.
const STORIES: &[Story] = &[
    Story::NewBite,
    Story::StopLongLineOnCollar,
    Story::QuietAfterBite,
    Story::NotCoping,
    Story::Bolted,
    Story::BoltedAnswered,
    Story::VetSigns,
    Story::QuestionWaiting,
    Story::ReadyToMoveOn,
    Story::CoolDownPattern,
    Story::StillHigh,
    Story::ShutDown,
    Story::Stuck,
    Story::SlippedBack,
    Story::GoneQuiet,
    Story::NewNoPlan,
    Story::NewNoLog,
    Story::ReviewDue,
    Story::Progressing,
    Story::GoingWell,
    Story::Maintaining,
    Story::Graduated,
    Story::Paused,
];

/// Words no trainer of ours writes to an owner.
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

fn exercise(key: &str) -> &'static StarterExercise {
    starter_library::find(key).unwrap_or_else(|| panic!("no starter exercise {key}"))
}

fn people() -> Vec<&'static str> {
    let owners = households().flat_map(|household| household.owners).map(|owner| owner.key);
    PRACTICE.trainers.iter().map(|trainer| trainer.key).chain(owners).collect()
}

fn distinct<T: Eq + std::hash::Hash>(all: impl IntoIterator<Item = T>) -> bool {
    let mut seen = HashSet::new();
    all.into_iter().all(|it| seen.insert(it))
}

#[test]
fn the_practice_is_of_a_believable_size() {
    assert_eq!(PRACTICE.trainers.len(), 3);
    assert!(PRACTICE.trainers[0].lead);
    assert_eq!(PRACTICE.trainers.iter().filter(|it| it.lead).count(), 1);
    assert_eq!(PRACTICE.trainers.iter().filter(|it| it.duty).count(), 1);
    assert_eq!(households().count(), 20);
    assert_eq!(dogs().count(), 24);
}

#[test]
fn keys_names_and_phones_are_unique() {
    assert!(distinct(people()));
    assert!(distinct(households().map(|it| it.key)));
    assert!(distinct(dogs().map(|(_, dog)| dog.key)));
    assert!(distinct(dogs().map(|(_, dog)| dog.name)));
    let owners = households().flat_map(|it| it.owners).map(|it| it.phone);
    assert!(distinct(PRACTICE.trainers.iter().map(|it| it.phone).chain(owners)));
}

#[test]
fn every_story_is_told() {
    for story in STORIES {
        assert!(dogs().any(|(_, dog)| dog.story == *story), "nobody is {story:?}");
    }
}

#[test]
fn owners_share_the_sittings() {
    for household in households() {
        let shares: u8 = household.owners.iter().map(|it| it.share).sum();
        assert_eq!(shares, 10, "{}", household.key);
    }
}

#[test]
fn plans_stand_on_the_library_and_the_profile() {
    for (_, dog) in dogs() {
        assert!(PRACTICE.trainers.iter().any(|it| it.key == dog.trainer), "{}", dog.key);
        for key in dog.standing {
            assert_eq!(exercise(key).kind, ItemKind::StandingArrangement, "{} {key}", dog.key);
        }
        for key in dog.owner_skills {
            assert_eq!(exercise(key).kind, ItemKind::OwnerSkill, "{} {key}", dog.key);
        }
        for item in dog.items {
            let starter = exercise(item.key);
            let who = format!("{} {}", dog.key, item.key);
            assert_eq!(starter.kind, ItemKind::Exercise, "{who}");
            assert!(dog.places.iter().any(|it| it.name == item.place), "{who}: place {}", item.place);
            assert!(
                dog.reinforcers.iter().any(|it| it.name == item.reinforcer),
                "{who}: {}",
                item.reinforcer
            );
            assert!(
                item.climb.iter().all(|(_, rung)| usize::from(*rung) < starter.steps.len()),
                "{who}: rung"
            );
            assert!(item.climb.windows(2).all(|it| it[0].0 > it[1].0), "{who}: climb goes back in time");
            assert!(item.climb[0].0 <= dog.versions[0].days_ago, "{who}: on no version");
            assert_eq!(item.attempts == 0, starter.outcome != Outcome::Count, "{who}: counted or not");
            let measured = starter.outcome != Outcome::Count && !dog.rhythm.hours.is_empty();
            assert_eq!(item.reading != (0, 0), measured, "{who}: reading");
            assert_eq!(item.line == Line::None, item.clip.is_none(), "{who}: clip");
            assert!(
                item.line != Line::LongLine || item.clip == exercise("recall-long-line").clip,
                "{who}: clip"
            );
            assert!(starter.energy != Energy::Arousing || item.cool_down.is_some(), "{who}: no cool-down");
        }
    }
}

#[test]
fn time_runs_forward_and_after_joining() {
    for (_, dog) in dogs() {
        let who = dog.key;
        let ordered = |words: &[Message]| words.windows(2).all(|it| it[0].days_ago >= it[1].days_ago);
        assert!(ordered(dog.messages) && ordered(dog.trainer_notes), "{who}: messages");
        assert!(dog.versions.windows(2).all(|it| it[0].days_ago > it[1].days_ago), "{who}: versions");
        assert!(dog.versions.iter().all(|it| it.days_ago <= dog.joined), "{who}: version before joining");
        assert!(dog.profile.weights.windows(2).all(|it| it[0].0 > it[1].0), "{who}: weights");
        assert!(dog.rhythm.first >= dog.rhythm.last && dog.rhythm.first <= 84, "{who}: rhythm");
        let logs = !dog.rhythm.hours.is_empty();
        assert_eq!(logs, !matches!(dog.story, Story::NewNoPlan | Story::NewNoLog), "{who}: logs");
        if let Some(version) = dog.versions.first().filter(|_| logs) {
            assert!(dog.rhythm.first <= version.days_ago, "{who}: logged before a plan");
        }
    }
}

#[test]
fn whoever_speaks_or_logs_belongs_there() {
    for (household, dog) in dogs() {
        let at_home = |key: &str| household.owners.iter().any(|it| it.key == key);
        let trainer = |key: &str| PRACTICE.trainers.iter().any(|it| it.key == key);
        for message in dog.messages {
            assert!(at_home(message.from) || trainer(message.from), "{}: {}", dog.key, message.from);
        }
        assert!(dog.trainer_notes.iter().all(|it| trainer(it.from)), "{}", dog.key);
        assert!(dog.encounters.iter().all(|it| at_home(it.by) && it.reaction <= 4), "{}", dog.key);
        for moment in dog.moments {
            assert!(at_home(moment.by) || trainer(moment.by), "{}: {}", dog.key, moment.by);
            assert!(dog.items.iter().any(|it| it.key == moment.item), "{}: {}", dog.key, moment.item);
            assert!(dog.places.iter().any(|it| it.name == moment.place), "{}: {}", dog.key, moment.place);
            assert!(moment.met <= moment.attempts && moment.rewards <= moment.attempts, "{}", dog.key);
            assert!(moment.incident.is_none_or(|it| it.days_ago == moment.days_ago), "{}", dog.key);
        }
        for note in dog.notes {
            assert!(
                note.on.is_empty() || dog.items.iter().any(|it| it.key == note.on),
                "{}: {}",
                dog.key,
                note.on
            );
        }
    }
}

#[test]
fn enough_is_said_to_be_believed() {
    for (_, dog) in dogs().filter(|(_, dog)| !dog.rhythm.hours.is_empty()) {
        assert!(dog.notes.len() >= 5, "{}: {} notes", dog.key, dog.notes.len());
        assert!(dog.notes.iter().any(|it| it.day == Day::Good), "{}", dog.key);
        assert!(dog.notes.iter().any(|it| it.day == Day::Hard), "{}", dog.key);
        assert!(dog.messages.len() >= 3, "{}", dog.key);
    }
    for (_, dog) in dogs() {
        assert!(!dog.trainer_notes.is_empty() && !dog.goal.words.is_empty(), "{}", dog.key);
    }
    assert!(distinct(dogs().flat_map(|(_, dog)| dog.notes).map(|it| it.words)));
}

#[test]
fn trainers_write_kindly_to_owners() {
    for (_, dog) in dogs() {
        let messages =
            dog.messages.iter().filter(|it| PRACTICE.trainers.iter().any(|trainer| trainer.key == it.from));
        let whens = dog.items.iter().map(|it| it.when);
        let texts = messages.map(|it| it.words).chain(dog.versions.iter().map(|it| it.note)).chain(whens);
        for text in texts {
            for word in UNWELCOME {
                assert!(!text.to_lowercase().contains(word), "{}: {word} in {text}", dog.key);
            }
        }
    }
}

#[test]
fn our_trainers_plan_as_they_preach() {
    for (_, dog) in dogs() {
        let age = dog.profile.age_days;
        let growing = age < if dog.profile.adult_kg > 25.0 { 548 } else { 365 };
        let most = match age {
            ..112 => 3,
            112..182 => 5,
            182..365 => 10,
            _ => 15,
        };
        for item in dog.items {
            let starter = exercise(item.key);
            let who = format!("{} {}", dog.key, item.key);
            let place = dog.places.iter().find(|it| it.name == item.place);
            assert!(item.line != Line::LongLine || place.is_some_and(|it| !it.near_road), "{who}: road");
            assert!(!(growing && starter.impact), "{who}: impact while growing");
            assert!(item.minutes <= most || item.key == "wind-down-walk", "{who}: {} minutes", item.minutes);
        }
        if let Some(last) = dog.items.last() {
            assert_ne!(exercise(last.key).energy, Energy::Arousing, "{}: ends high", dog.key);
        }
        assert!(dog.items.len() <= 5, "{}", dog.key);
    }
}

/// Decisions waiting outrank the quieter stories, so those must not be "likely ready" by accident.
#[test]
fn only_the_ready_are_ready() {
    let loud = [Story::ReadyToMoveOn, Story::NewBite, Story::QuietAfterBite, Story::StopLongLineOnCollar];
    let louder = [Story::Bolted, Story::VetSigns, Story::NotCoping, Story::QuestionWaiting, Story::NewNoLog];
    for (_, dog) in dogs().filter(|(_, dog)| !loud.contains(&dog.story) && !louder.contains(&dog.story)) {
        for item in dog.items.iter().filter(|it| it.attempts > 0) {
            let starter = exercise(item.key);
            let rung = item.climb.last().map_or(0, |it| usize::from(it.1));
            let held = starter.class == SkillClass::Safety || rung + 1 == starter.steps.len();
            assert!(held || item.met_now.0.max(item.met_now.1) <= 70, "{} {}", dog.key, item.key);
        }
    }
}

#[test]
fn places_are_as_hard_as_the_rung_asks() {
    let mut wrong = Vec::new();
    for (_, dog) in dogs() {
        for item in dog.items {
            let asked =
                item.climb.last().map_or(1, |it| exercise(item.key).steps[usize::from(it.1)].distraction);
            let found = dog.places.iter().find(|it| it.name == item.place).map_or(0, |it| it.distraction);
            if found < asked || found > asked + 1 {
                wrong.push(format!("{} {}: rung {asked}, {} {found}", dog.key, item.key, item.place));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
