//! Short ways to write the content, so that a dog fits on a screen.

use super::types::*;
use crate::domain::vocabulary::{Clip, Line};

impl Profile {
    /// An adult in good order, cleared of nothing and accused of nothing.
    pub(super) const PLAIN: Self = Self {
        breed: "",
        sex: Sex::Female,
        neutered: true,
        age_days: 1400,
        birth_known: BirthPrecision::Exact,
        weights: &[],
        adult_kg: 0.0,
        condition: 5,
        activity: Activity::Moderate,
        coat: Coat::Short,
        short_nosed: false,
        heart_breathing: "",
        orthopaedic: "",
        other: "",
        medicines: &[],
        allergies: &[],
        food: "dry complete, chicken and rice",
        food_kcal_g: 3.6,
        vet: Vet::None,
        incidents: &[],
        muzzle: None,
        must_not_meet: &[],
        off_lead: &[],
    };
}

impl Dog {
    /// A dog of whom nothing is said yet.
    pub(super) const PLAIN: Self = Self {
        key: "",
        name: "",
        story: Story::GoingWell,
        phase: Phase::Active,
        trainer: "",
        joined: 84,
        profile: Profile::PLAIN,
        goal: Goal { words: "", readings: &[] },
        tried_before: &[],
        triggers: &[],
        reinforcers: &[],
        places: &[],
        versions: &[],
        standing: &[],
        owner_skills: &[],
        items: &[],
        rhythm: Rhythm { first: 0, last: 0, hours: &[], one_tap: 0, cooled_down: 100, arousal: (2, 2) },
        notes: &[],
        moments: &[],
        encounters: &[],
        messages: &[],
        trainer_notes: &[],
        answers: &[],
        life_events: &[],
        lessons: &[],
        package: None,
        check_ins: &[],
    };
}

impl Item {
    /// Calm work without a line, mostly met.
    pub(super) const CALM: Self = Self {
        key: "",
        climb: &[],
        attempts: 10,
        times_a_week: 4,
        logged_a_week: 3,
        minutes: 4,
        when: "",
        place: "",
        reinforcer: "",
        line: Line::None,
        clip: None,
        cool_down: None,
        met: (65, 90),
        met_now: (65, 80),
        reading: (0, 0),
    };
    /// Work on an ordinary lead and the back of a harness, with a sniff walk after it.
    pub(super) const ON_LEAD: Self = Self {
        line: Line::ShortLead,
        clip: Some(Clip::HarnessBack),
        minutes: 8,
        cool_down: Some((5, CoolDown::SniffWalk)),
        ..Self::CALM
    };
    /// Work on a long line and the back of a harness, with a longer sniff walk after it.
    pub(super) const LONG_LINE: Self = Self {
        line: Line::LongLine,
        minutes: 10,
        cool_down: Some((10, CoolDown::SniffWalk)),
        ..Self::ON_LEAD
    };
}

impl Message {
    /// The same, about the sitting that was logged last.
    pub(super) const fn about_the_last(self) -> Self {
        Self { about_the_last: true, ..self }
    }
}

impl Note {
    /// The same, of a sitting with these counts.
    pub(super) const fn of(self, met: u8, attempts: u8) -> Self {
        Self { counts: Some((met, attempts)), ..self }
    }

    /// The same, of a sitting with this reading: metres, seconds or minutes.
    pub(super) const fn read(self, reading: u16) -> Self {
        Self { reading: Some(reading), ..self }
    }

    /// The same, not before this day.
    pub(super) const fn since(self, days_ago: DaysAgo) -> Self {
        Self { since: days_ago, ..self }
    }
}

impl Moment {
    /// A quiet sitting at home, loose, food taken gently.
    pub(super) const USUAL: Self = Self {
        days_ago: 0,
        hour: 10,
        item: "",
        by: "",
        place: "",
        busy: Busy::Usual,
        line: Line::None,
        clip: None,
        minutes: 5,
        attempts: 0,
        met: 0,
        rewards: 0,
        arousal: (2, 2),
        food: TookFood::Gently,
        looked: Looked::Loose,
        recovery: Recovery::Within5,
        cool_down: None,
        signs: &[],
        incident: None,
        note: "",
        answer: None,
    };
}

/// An owner: key, name, phone, share of the sittings in tenths.
pub(super) const fn owner(key: &'static str, name: &'static str, phone: &'static str, share: u8) -> Owner {
    Owner { key, name, phone, share }
}

/// Food: name, worth 1–5, kcal a gram, grams a piece.
pub(super) const fn food(name: &'static str, value: u8, kcal_g: f32, grams: f32) -> Reinforcer {
    Reinforcer { name, value, food: Some((kcal_g, grams)), from_meals: false }
}

/// Food out of the daily meals: as [`food`].
pub(super) const fn meal(name: &'static str, value: u8, kcal_g: f32, grams: f32) -> Reinforcer {
    Reinforcer { name, value, food: Some((kcal_g, grams)), from_meals: true }
}

/// A toy or a favour: name, worth 1–5.
pub(super) const fn toy(name: &'static str, value: u8) -> Reinforcer {
    Reinforcer { name, value, food: None, from_meals: false }
}

/// A fenced place: name, distraction.
pub(super) const fn fenced(name: &'static str, distraction: u8) -> Place {
    Place { name, distraction, secure: true, near_road: false }
}

/// An open place away from roads: name, distraction.
pub(super) const fn open(name: &'static str, distraction: u8) -> Place {
    Place { name, distraction, secure: false, near_road: false }
}

/// An open place with a road near: name, distraction.
pub(super) const fn roadside(name: &'static str, distraction: u8) -> Place {
    Place { name, distraction, secure: false, near_road: true }
}

/// A trigger: what, nearest comfortable metres, how it looks.
pub(super) const fn trigger(what: &'static str, metres: u16, looks_like: &'static str) -> Trigger {
    Trigger { what, metres, looks_like }
}

/// A plan published: days ago, note.
pub(super) const fn version(days_ago: DaysAgo, note: &'static str) -> PlanVersion {
    PlanVersion { days_ago, note }
}

/// A note for a better day.
pub(super) const fn good(on: &'static str, words: &'static str) -> Note {
    Note { on, day: Day::Good, words, counts: None, reading: None, since: DaysAgo::MAX }
}

/// A note for a harder day.
pub(super) const fn hard(on: &'static str, words: &'static str) -> Note {
    Note { on, day: Day::Hard, words, counts: None, reading: None, since: DaysAgo::MAX }
}

/// Words: days ago, from whom, what.
pub(super) const fn said(days_ago: DaysAgo, from: &'static str, words: &'static str) -> Message {
    Message { days_ago, from, words, about_the_last: false }
}

/// An encounter: days ago, who logged it, what, metres, reaction, recovery, note.
pub(super) const fn met(
    days_ago: DaysAgo,
    by: &'static str,
    what: &'static str,
    metres: u16,
    reaction: u8,
    recovery: Recovery,
    note: &'static str,
) -> Encounter {
    Encounter { days_ago, by, what, metres, reaction, recovery, note }
}

/// A life event: from, to, kind, note.
pub(super) const fn life(from: DaysAgo, to: DaysAgo, kind: LifeKind, note: &'static str) -> LifeEvent {
    LifeEvent { from, to, kind, note }
}

/// A lesson that was held.
pub(super) const fn held(
    days_ago: DaysAgo,
    at: (u8, u8),
    place: &'static str,
    summary: &'static str,
    private: &'static str,
) -> Lesson {
    Lesson { on: On::Held(days_ago, summary, private), at, minutes: 60, place }
}

/// A lesson that is to come.
pub(super) const fn ahead(days: u16, at: (u8, u8), minutes: i16, place: &'static str) -> Lesson {
    Lesson { on: On::Ahead(days), at, minutes, place }
}
