//! The facts of sittings: moments as they are written, and those between them drawn so that the story holds.

use time::{Date, Duration};

use super::days::{self, Slot};
use super::{Cue, Deed, Log, is_trainer, lessons, notes, rungs};
use crate::demo::calendar::Calendar;
use crate::demo::chance::Chance;
use crate::demo::content::{Day, DaysAgo, Dog, Household, IncidentKind, Moment, Rhythm, Story};
use crate::demo::stage::starter;
use crate::domain::sitting::Sitting;
use crate::domain::starter_library::StarterExercise;
use crate::domain::vocabulary::{
    Basis, Busy, Capture, Energy, Finish, Line, Looked, Outcome, Recovery, TookFood,
};

/// Days before the rhythm's end in which nothing unplanned happens, so that the story has the last word.
const STEADY: DaysAgo = 3;

/// What a count is drawn from.
#[derive(Debug, Clone, Copy)]
pub struct Drawn {
    /// The share that is met on an ordinary day.
    pub share: f64,
    /// How many more or fewer today.
    pub change: i16,
}

impl Drawn {
    /// Attempts that are met, of so many.
    pub fn met(self, attempts: i16, chance: &mut Chance) -> i16 {
        let expected = self.share * f64::from(attempts);
        #[expect(clippy::cast_possible_truncation, reason = "a share of at most 200")]
        let whole = expected.floor() as i16;
        let more = i16::from(chance.share() < expected - expected.floor());
        (whole + more + self.change).clamp(0, attempts)
    }
}

/// Every sitting of a dog: generated, in lessons, and the moments.
///
/// # Errors
/// When the content asks for a time or an exercise that does not exist.
pub fn logs(
    calendar: &Calendar,
    household: &'static Household,
    dog: &'static Dog,
    chance: &mut Chance,
) -> anyhow::Result<Vec<Cue>> {
    let mut slots = days::slots(calendar, dog, chance)?;
    notes::hang(&mut slots, dog.notes);
    let mut cues = lessons::of(calendar, dog, chance)?;
    for slot in &slots {
        cues.push(generated(calendar, household, dog, slot, chance)?);
    }
    for moment in dog.moments {
        let minute = 10 + u8::try_from(moment.note.len() % 25)?;
        let at = calendar.at(moment.days_ago, moment.hour, minute)?;
        let log = written(dog, moment, calendar.date(moment.days_ago));
        cues.push(Cue { at, deed: Deed::Log(Box::new(log)) });
    }
    Ok(cues)
}

/// A moment as it is written. A bite is told as an encounter of its own, where whom and skin can be said.
fn written(dog: &Dog, moment: &'static Moment, on: Date) -> Log {
    let count = |n: u8| (moment.attempts > 0).then_some(i16::from(n));
    let bolted = moment.incident.filter(|incident| incident.kind == IncidentKind::Bolted);
    let place = dog.places.iter().find(|place| place.name == moment.place);
    let sitting = Sitting {
        line: Some(moment.line),
        clip: moment.clip,
        equipment: Some(Basis::Stated),
        place_distraction: place.map(|place| place.distraction.into()),
        busy: Some(moment.busy),
        minutes: Some(moment.minutes.into()),
        attempts: count(moment.attempts),
        met: count(moment.met),
        rewarded: count(moment.rewards),
        arousal_before: Some(moment.arousal.0.into()),
        arousal_end: Some(moment.arousal.1.into()),
        took_food: Some(moment.food),
        looked: Some(moment.looked),
        recovery: Some(moment.recovery),
        finish: moment.cool_down.map(|(_, way)| way),
        cool_down_minutes: moment.cool_down.map(|(minutes, _)| minutes.into()),
        health_signs: moment.signs.to_vec(),
        bolted: bolted.is_some(),
        ..Sitting::on(on)
    };
    let note = match bolted {
        Some(incident) => format!("{} {}", incident.facts, moment.note),
        None => moment.note.to_owned(),
    };
    let capture = if is_trainer(moment.by) { Capture::Lesson } else { Capture::Form };
    Log { item: moment.item, by: moment.by, capture, reading: None, note, sitting, moment: Some(moment) }
}

fn generated(
    calendar: &Calendar,
    household: &'static Household,
    dog: &'static Dog,
    slot: &Slot,
    chance: &mut Chance,
) -> anyhow::Result<Cue> {
    let (item, exercise) = (slot.item, starter(slot.item.key)?);
    let standing = rungs::standing(calendar, item, slot.at, dog.rhythm.last)?;
    let steady = slot.days_ago < dog.rhythm.last + STEADY;
    let day = slot.note.map(|note| note.day).or_else(|| weather(steady, chance));
    let mut sitting = Sitting::on(calendar.date(slot.days_ago));
    let is_counted = item.attempts > 0;
    let is_one_tap = is_counted && slot.note.is_none() && chance.percent(dog.rhythm.one_tap);
    let equipment = if item.line == Line::LongLine { Basis::Stated } else { Basis::AsPlanned };
    (sitting.line, sitting.clip, sitting.equipment) = (Some(item.line), item.clip, Some(equipment));
    if is_counted {
        let counts = slot.note.and_then(|note| note.counts);
        let (met, attempts) = match counts {
            Some((met, attempts)) => (i16::from(met), i16::from(attempts)),
            None => {
                let attempts = attempts(i16::from(item.attempts), day, is_one_tap, chance);
                let drawn = Drawn { share: standing.share, change: change(day, chance) };
                (drawn.met(attempts, chance), attempts)
            }
        };
        (sitting.attempts, sitting.met, sitting.rewarded) = (Some(attempts), Some(met), Some(met));
    }
    if !is_one_tap {
        stated(&mut sitting, dog, slot, exercise, day, steady, chance);
    }
    let log = Log {
        item: item.key,
        by: match slot.note {
            Some(note) => notes::writer(note, household.owners),
            None => somebody(household, chance),
        },
        capture: if is_one_tap { Capture::OneTap } else { Capture::Form },
        reading: (!is_counted).then(|| {
            let told = slot.note.and_then(|note| note.reading).map(f64::from);
            let read = told
                .unwrap_or_else(|| drawn_reading(item.reading, standing.way, exercise.outcome, day, chance));
            in_unit(read, exercise.outcome)
        }),
        note: slot.note.map_or("", |note| note.words).to_owned(),
        sitting,
        moment: None,
    };
    Ok(Cue { at: slot.at + Duration::minutes(item.minutes.into()), deed: Deed::Log(Box::new(log)) })
}

/// What kind of day it is where no note says so.
fn weather(steady: bool, chance: &mut Chance) -> Option<Day> {
    match chance.share() {
        _ if steady => None,
        share if share < 0.12 => Some(Day::Good),
        share if share < 0.22 => Some(Day::Hard),
        _ => None,
    }
}

fn attempts(planned: i16, day: Option<Day>, is_one_tap: bool, chance: &mut Chance) -> i16 {
    if is_one_tap || day != Some(Day::Hard) || planned < 5 {
        return planned;
    }
    planned - chance.between(0, 3)
}

fn change(day: Option<Day>, chance: &mut Chance) -> i16 {
    match day {
        Some(Day::Good) => 1,
        Some(Day::Hard) => -chance.between(1, 2),
        None => 0,
    }
}

/// What somebody who opens the form states beyond the counts.
fn stated(
    sitting: &mut Sitting,
    dog: &Dog,
    slot: &Slot,
    exercise: &StarterExercise,
    day: Option<Day>,
    steady: bool,
    chance: &mut Chance,
) {
    let hard = day == Some(Day::Hard);
    let arousing = exercise.energy == Energy::Arousing;
    sitting.minutes = Some((i16::from(slot.item.minutes) + chance.between(-2, 1)).max(1));
    sitting.busy = match chance.share() {
        _ if hard => Some(if chance.percent(35) { Busy::Busy } else { Busy::Usual }),
        share if share < 0.06 => Some(Busy::Quiet),
        share if share < 0.5 => Some(Busy::Usual),
        _ => None,
    };
    if chance.percent(65) {
        let (before, end) = arousal(dog.rhythm, arousing, hard, chance);
        (sitting.arousal_before, sitting.arousal_end) = (Some(before), Some(end));
        let loose = if hard && arousing { Looked::WoundUp } else { Looked::Loose };
        sitting.looked =
            Some(if hard && exercise.outcome == Outcome::Distance { Looked::Worried } else { loose });
    }
    if chance.percent(75) {
        let snatched = hard && arousing && chance.percent(40);
        sitting.took_food = Some(if snatched { TookFood::Snatched } else { TookFood::Gently });
        sitting.recovery = Some(if hard { Recovery::Within15 } else { Recovery::Within5 });
    }
    if let Some((minutes, way)) = slot.item.cool_down {
        // in a story of endings only the moments are without one
        let sure = steady || dog.story == Story::CoolDownPattern && slot.days_ago < 30;
        let given = sure || chance.percent(dog.rhythm.cooled_down);
        // after slow work nobody thinks of saying that there was none
        let told = match (given, arousing) {
            (true, _) => Some((i16::from(minutes) + chance.between(0, 3), way)),
            (false, true) => Some((0, Finish::StraightHome)),
            (false, false) => None,
        };
        (sitting.cool_down_minutes, sitting.finish) = told.unzip();
    }
}

/// Arousal before and at the end: the dog's own for exciting work, lower for calm work.
fn arousal(rhythm: Rhythm, arousing: bool, hard: bool, chance: &mut Chance) -> (i16, i16) {
    let (before, end) = (i16::from(rhythm.arousal.0), i16::from(rhythm.arousal.1));
    let most = if arousing { 3 } else { 2 };
    let end = end.min(most) + i16::from(hard && arousing && chance.percent(50));
    (before.min(most), end)
}

/// A reading on the way from the first to the latest, as the content measures it.
fn drawn_reading(
    (first, latest): (u16, u16),
    way: f64,
    outcome: Outcome,
    day: Option<Day>,
    chance: &mut Chance,
) -> f64 {
    let (first, latest) = (f64::from(first), f64::from(latest));
    let usual = first + (latest - first) * way;
    let worse = if outcome == Outcome::Duration { 0.65 } else { 1.35 };
    let swing = match day {
        Some(Day::Hard) => worse,
        Some(Day::Good) => 2.0 - worse,
        None => 0.88 + 0.24 * chance.share(),
    };
    usual * swing
}

/// A reading in the outcome's unit: calm time is counted in seconds by the content, in minutes by the service.
fn in_unit(read: f64, outcome: Outcome) -> f64 {
    match outcome {
        Outcome::Duration => (read / 6.0).round().max(1.0) / 10.0,
        _ => read.round().max(1.0),
    }
}

/// One of the owners, by their share of the sittings.
fn somebody(household: &'static Household, chance: &mut Chance) -> &'static str {
    let mut drawn = chance.between(1, 10);
    for owner in household.owners {
        drawn -= i16::from(owner.share);
        if drawn <= 0 {
            return owner.key;
        }
    }
    household.owners.first().map_or("", |owner| owner.key)
}
