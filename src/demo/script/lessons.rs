//! Sittings in lessons: on the day of a new plan the trainer sees the counted exercises before writing it.

use super::facts::Drawn;
use super::{Cue, Deed, Log, is_trainer, rungs};
use crate::demo::calendar::Calendar;
use crate::demo::chance::Chance;
use crate::demo::content::{DaysAgo, Dog};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Basis, Capture, Looked, Recovery, TookFood};

/// The hour of lessons that no moment tells of.
const LESSONS_AT: u8 = 14;
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
    for version in dog.versions.iter().skip(1) {
        let told_by_moment =
            |day: DaysAgo| dog.moments.iter().any(|moment| moment.days_ago == day && is_trainer(moment.by));
        if told_by_moment(version.days_ago) || version.days_ago < dog.rhythm.last {
            continue;
        }
        let taught = |item: &&_| is_taught(item, version.days_ago);
        for (nth, item) in dog.items.iter().filter(taught).take(MOST).enumerate() {
            let at = calendar.at(version.days_ago, LESSONS_AT, 5 + 15 * u8::try_from(nth)?)?;
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

/// Counted, and on the plan before that day's is written.
fn is_taught(item: &crate::demo::content::Item, version: DaysAgo) -> bool {
    item.attempts > 0 && item.climb.first().is_some_and(|(day, _)| *day > version)
}
