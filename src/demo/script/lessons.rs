//! Sittings in lessons: on the day of a new plan the trainer sees the counted exercises before writing it.

use super::facts::Drawn;
use super::{Cue, Deed, Log, is_trainer, rungs};
use crate::demo::calendar::Calendar;
use crate::demo::chance::Chance;
use crate::demo::content::{DaysAgo, Dog, Item};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Basis, Capture, Looked, Recovery, TookFood};

/// The hours of lessons that no moment tells of: the first of them, and how many there are.
const LESSONS_AT: (u8, u8) = (10, 6);
/// Exercises seen in one lesson.
const MOST: usize = 2;
/// What trainers note of a lesson, the next one each time.
const NOTES: &[&str] = &[
    "Lesson. Good hands, food on time, line and shoulders loose.",
    "Lesson. Went easier once we stood still first.",
    "Lesson. One late \"yes\", and they heard it themselves.",
    "Lesson. Slower than at home, as it should be with me there.",
    "Lesson. Stopped while it was going well.",
    "Lesson. Food came from the wrong pocket twice; moved the pouch to the other side.",
    "Lesson. Quieter voice from the second go on, and that helped both of them.",
    "Lesson. Showed where to stand; the rest they knew.",
];

/// The lessons of a dog.
///
/// # Errors
/// When the content asks for a time that does not exist.
pub fn of(calendar: &Calendar, dog: &'static Dog, chance: &mut Chance) -> anyhow::Result<Vec<Cue>> {
    let mut cues = Vec::new();
    let mut told = chance.index(NOTES.len());
    let hour = LESSONS_AT.0 + u8::try_from(chance.index(LESSONS_AT.1.into()))?;
    for version in dog.versions.iter().filter(|version| is_lesson(dog, version.days_ago)) {
        for (nth, item) in taught(dog, version.days_ago).enumerate() {
            let at = calendar.at(version.days_ago, hour, 5 + 20 * u8::try_from(nth)?)?;
            let standing = rungs::standing(calendar, item, at, dog.rhythm.last)?;
            let attempts = i16::from(item.attempts);
            let met = Drawn { share: standing.share, change: 0 }.met(attempts, chance);
            let sitting = Sitting {
                equipment: Some(Basis::AsPlanned),
                minutes: Some(item.minutes.into()),
                attempts: Some(attempts),
                met: Some(met),
                rewarded: Some(met),
                took_food: Some(TookFood::Gently),
                looked: Some(Looked::Loose),
                recovery: Some(Recovery::Within5),
                finish: item.cool_down.map(|(_, way)| way),
                cool_down_minutes: item.cool_down.map(|(minutes, _)| minutes.into()),
                ..Sitting::on(calendar.date(version.days_ago))
            };
            let note = if nth == 0 { NOTES[told % NOTES.len()] } else { "" };
            told += usize::from(nth == 0);
            let log = Log {
                item: item.key,
                by: dog.trainer,
                capture: Capture::Lesson,
                reading: None,
                note: note.to_owned(),
                sitting,
                moment: None,
            };
            cues.push(Cue { at, deed: Deed::Log(Box::new(log)) });
        }
    }
    Ok(cues)
}

/// The days on which an item is seen in a lesson.
pub fn days(dog: &'static Dog, item: &Item) -> Vec<DaysAgo> {
    let versions = dog.versions.iter().map(|version| version.days_ago).filter(|day| is_lesson(dog, *day));
    versions.filter(|day| taught(dog, *day).any(|taught| taught.key == item.key)).collect()
}

/// Whether a new plan follows on a lesson that no moment tells of.
fn is_lesson(dog: &Dog, version: DaysAgo) -> bool {
    let is_first = dog.versions.first().is_none_or(|first| first.days_ago == version);
    let told = dog.moments.iter().any(|moment| moment.days_ago == version && is_trainer(moment.by));
    !is_first && !told && version >= dog.rhythm.last
}

/// What is seen in the lesson before a plan: what is counted and stands on the plan already.
fn taught(dog: &'static Dog, version: DaysAgo) -> impl Iterator<Item = &'static Item> {
    let stands = move |item: &&Item| item.climb.first().is_some_and(|(day, _)| *day > version);
    dog.items.iter().filter(|item| item.attempts > 0).filter(stands).take(MOST)
}
