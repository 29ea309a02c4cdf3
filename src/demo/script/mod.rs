//! From a dog's content to what happens when: everything that people will do, in the order of time. No I/O.

mod days;
mod facts;
mod lessons;
mod notes;
mod rungs;

use std::collections::BTreeSet;

use time::OffsetDateTime;

use super::calendar::Calendar;
use super::chance::Chance;
use super::content::{
    Answer, DaysAgo, Dog, Encounter, Household, Lesson, LifeEvent, Message, Moment, On, PRACTICE, Story,
};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Capture;
use crate::ids::AppointmentId;

pub use rungs::rung;

/// The hour at which plans are published and decisions taken.
pub const PLANS_AT: (u8, u8) = (18, 30);
/// The hour at which trainers go through what has come in.
const EVENINGS_AT: (u8, u8) = (20, 40);
/// The hour at which a report is written: after the evening's round.
const REPORTS_AT: (u8, u8) = (20, 50);
/// The dog about which a report was written: its steps follow its counts.
const REPORTED_ON: &str = "ottoman";
/// A moment this long ago that nobody has answered belongs to the story's end and stays open.
pub const STILL_OPEN: DaysAgo = 7;

/// How many days before it a lesson was booked.
const BOOKED_BEFORE: DaysAgo = 8;

/// Something that somebody does.
#[derive(Debug, Clone)]
pub enum Deed {
    /// A plan is published: the first, a new version, or one in which a step has moved.
    Publish(DaysAgo),
    /// Somebody logs a sitting.
    Log(Box<Log>),
    /// Somebody records what happened in life.
    Meet(&'static Encounter),
    /// Somebody writes.
    Say(&'static Message),
    /// An owner says how near the goal feels, and how sure they feel.
    Near(u8, u8),
    /// An owner tells what goes on in the dog's life.
    Live(&'static LifeEvent),
    /// Somebody weighs the dog.
    Weigh(DaysAgo, f32),
    /// How far the vet has come is noted.
    Vet,
    /// An owner reads what the trainer wrote.
    Read(&'static str),
    /// The trainer goes through what has come in.
    Evening(DaysAgo),
    /// A trainer answers what a moment raised.
    Answer(&'static Moment, Answer),
    /// The trainer writes a progress report, issues it, and shares it with the household.
    Report(DaysAgo),
    /// The dog's phase becomes what it is by now.
    Phase,
    /// A lesson is booked.
    Book(&'static Lesson, AppointmentId),
    /// A lesson was held: its note is kept.
    Hold(&'static Lesson, AppointmentId),
    /// A package of lessons is bought.
    Buy(i16, DaysAgo, &'static str),
    /// An owner says that it still goes well.
    StillGood(&'static str),
}

/// A sitting to be logged.
#[derive(Debug, Clone)]
pub struct Log {
    /// Starter key of the exercise.
    pub item: &'static str,
    /// Key of who logs it.
    pub by: &'static str,
    /// How it is captured.
    pub capture: Capture,
    /// Distance, duration or recovery in the outcome's unit.
    pub reading: Option<f64>,
    /// The note.
    pub note: String,
    /// The facts.
    pub sitting: Sitting,
    /// The moment it is, where it was written by hand.
    pub moment: Option<&'static Moment>,
}

/// When somebody does something.
#[derive(Debug, Clone)]
pub struct Cue {
    /// When.
    pub at: OffsetDateTime,
    /// What.
    pub deed: Deed,
}

/// Everything that happens to a dog once it has joined, in the order of time, nothing after now.
///
/// # Errors
/// When the content asks for a time that does not exist.
pub fn of(calendar: &Calendar, household: &'static Household, dog: &'static Dog) -> anyhow::Result<Vec<Cue>> {
    let mut chance = Chance::of(dog.key);
    let mut cues = facts::logs(calendar, household, dog, &mut chance)?;
    let mut add = |days_ago: DaysAgo, (hour, minute): (u8, u8), deed: Deed| -> anyhow::Result<()> {
        cues.push(Cue { at: calendar.at(days_ago, hour, minute)?, deed });
        Ok(())
    };
    for days_ago in plan_days(dog) {
        add(days_ago, PLANS_AT, Deed::Publish(days_ago))?;
    }
    for (nth, encounter) in dog.encounters.iter().enumerate() {
        let hour = dog.rhythm.hours.iter().rev().cycle().nth(nth).copied().unwrap_or(16).min(19);
        let minute = 40 + u8::try_from(encounter.note.len() % 20)?;
        add(encounter.days_ago, (hour, minute), Deed::Meet(encounter))?;
    }
    for (at, message) in messages(dog) {
        add(message.days_ago, at, Deed::Say(message))?;
        if is_trainer(message.from) && message.days_ago > 0 && !is_silent_after(dog, message.days_ago) {
            add(message.days_ago - 1, (7, 40), Deed::Read(household.owners[0].key))?;
        }
    }
    for (days_ago, near, sure) in dog.goal.readings {
        add((*days_ago).min(dog.joined), (17, 40), Deed::Near(*near, *sure))?;
    }
    for event in dog.life_events {
        add(event.from.min(dog.joined), (18, 5), Deed::Live(event))?;
    }
    for (days_ago, kg) in dog.profile.weights {
        add((*days_ago).min(dog.joined), (11, 20), Deed::Weigh(*days_ago, *kg))?;
    }
    if let Some(days_ago) = vet_day(dog) {
        add(days_ago.min(dog.joined), (16, 10), Deed::Vet)?;
    }
    for moment in dog.moments {
        if let Some(answer) = moment.answer {
            add(answer.days_ago, (12, 30), Deed::Answer(moment, answer))?;
        }
    }
    for days_ago in evenings(dog) {
        add(days_ago, EVENINGS_AT, Deed::Evening(days_ago))?;
    }
    if dog.key == REPORTED_ON {
        add(1, REPORTS_AT, Deed::Report(1))?;
    }
    add(phase_day(dog), (19, 20), Deed::Phase)?;
    for (days_ago, who) in dog.check_ins {
        add(*days_ago, (18, 5), Deed::StillGood(who))?;
    }
    if let Some((bought, from, note)) = dog.package {
        add(from, (11, 15), Deed::Buy(bought, from, note))?;
    }
    for (nth, lesson) in dog.lessons.iter().enumerate() {
        let id =
            uuid::Uuid::from_u64_pair(dog.key.bytes().fold(1, |sum, b| sum * 31 + u64::from(b)), nth as u64);
        match lesson.on {
            On::Held(days_ago, ..) => {
                add((days_ago + BOOKED_BEFORE).min(dog.joined), (11, 45), Deed::Book(lesson, id.into()))?;
                let (hour, minute) = lesson.at;
                add(days_ago, (hour + 1, minute + 4), Deed::Hold(lesson, id.into()))?;
            }
            On::Ahead(_) => add(1, (19, 40), Deed::Book(lesson, id.into()))?,
        }
    }
    cues.retain(|cue| calendar.is_over(cue.at));
    cues.sort_by_key(|cue| cue.at);
    Ok(cues)
}

/// The days on which a plan is published: the written ones, and those on which a step moves.
fn plan_days(dog: &Dog) -> BTreeSet<DaysAgo> {
    let moves = dog.items.iter().flat_map(|item| item.climb.iter().skip(1)).map(|(days_ago, _)| *days_ago);
    dog.versions.iter().map(|version| version.days_ago).chain(moves).collect()
}

/// Messages with the times of day at which they are written: those of one day one after another.
fn messages(dog: &'static Dog) -> Vec<((u8, u8), &'static Message)> {
    let mut before: Option<(DaysAgo, u8)> = None;
    let timed = dog.messages.iter().map(|message| {
        let hour = match before {
            Some((day, hour)) if day == message.days_ago => (hour + 3).min(20),
            _ if is_trainer(message.from) => 17,
            _ => 13,
        };
        before = Some((message.days_ago, hour));
        ((hour, 12 + u8::try_from(message.words.len() % 40).unwrap_or(0)), message)
    });
    timed.collect()
}

/// Whether a person is a trainer.
pub fn is_trainer(key: &str) -> bool {
    PRACTICE.trainers.iter().any(|trainer| trainer.key == key)
}

/// Households that have gone quiet read nothing either.
fn is_silent_after(dog: &Dog, days_ago: DaysAgo) -> bool {
    matches!(dog.story, Story::QuietAfterBite | Story::GoneQuiet) && days_ago < dog.rhythm.last
}

/// The evenings on which the trainer goes through a dog's news: every three days or so, and yesterday.
fn evenings(dog: &Dog) -> BTreeSet<DaysAgo> {
    let offset = u16::try_from(dog.key.len() % 3).unwrap_or(0);
    let first = dog.versions.first().map_or(dog.joined, |version| version.days_ago).min(90);
    let mut days: BTreeSet<DaysAgo> = (1..first).filter(|day| day % 3 == offset).collect();
    days.insert(1);
    days
}

fn vet_day(dog: &Dog) -> Option<DaysAgo> {
    use super::content::Vet;
    match dog.profile.vet {
        Vet::None => None,
        Vet::Asked(day) | Vet::Seen(day) | Vet::Cleared(day) => Some(day),
    }
}

/// The day from which a dog stands where it stands now: its last plan, or the end of its work.
fn phase_day(dog: &Dog) -> DaysAgo {
    use super::content::Phase;
    match dog.phase {
        Phase::Graduated | Phase::Paused => dog.rhythm.last.saturating_sub(1),
        _ => dog.versions.first().map_or(0, |version| version.days_ago),
    }
}
