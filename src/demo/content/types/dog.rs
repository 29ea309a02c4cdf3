//! A dog, and the story it has to tell by now.

use super::people::Message;
use super::plan::{Item, Note, PlanVersion, Rhythm};
use super::profile::Profile;
use super::sitting::{Encounter, Moment};
pub use crate::domain::vocabulary::{LifeKind, Phase};

/// Days before now.
pub type DaysAgo = u16;

/// What the caseload has to show for this dog after twelve weeks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Story {
    /// A bite in the last two days, nobody has answered.
    NewBite,
    /// An open stop: a long line on a collar.
    StopLongLineOnCollar,
    /// A bite, then no log since.
    QuietAfterBite,
    /// The owner wrote "I am not coping", then silence.
    NotCoping,
    /// Ran off in the last days: off-lead permission lapses.
    Bolted,
    /// The same, and the trainer has answered it: how it went since is worth asking.
    BoltedAnswered,
    /// A sign for which the vet is rung now.
    VetSigns,
    /// An owner's question stands unanswered.
    QuestionWaiting,
    /// The counts say likely ready; the trainer has not decided.
    ReadyToMoveOn,
    /// Three of the last five arousing sittings without a cool-down.
    CoolDownPattern,
    /// Ends sittings more wound up than the dog began.
    StillHigh,
    /// Worried or frozen, food refused, not moving.
    ShutDown,
    /// Twice the usual attempts and no verdict.
    Stuck,
    /// Was sure, then declined after moving on.
    SlippedBack,
    /// No log for longer than usual, for no known reason.
    GoneQuiet,
    /// Joined; history taken; no plan yet.
    NewNoPlan,
    /// Plan published; nothing logged yet.
    NewNoLog,
    /// Steady; the plan is due to be looked at.
    ReviewDue,
    /// Counts rise, steps follow.
    Progressing,
    /// On course and easy.
    GoingWell,
    /// Finished the work, logs now and then.
    Maintaining,
    /// Finished.
    Graduated,
    /// On holiday or resting: silence is expected.
    Paused,
}

/// A dog, its story and everything the twelve weeks are played from.
#[derive(Debug)]
pub struct Dog {
    /// Unique among dogs.
    pub key: &'static str,
    /// Call name.
    pub name: &'static str,
    /// State to be reached by now.
    pub story: Story,
    /// Standing with the practice by now.
    pub phase: Phase,
    /// Key of the assigned trainer.
    pub trainer: &'static str,
    /// Joined the practice; may be longer ago than the twelve weeks of logs.
    pub joined: DaysAgo,
    /// What the history holds.
    pub profile: Profile,
    /// Owner's words.
    pub goal: Goal,
    /// Tried before they came, with what came of it.
    pub tried_before: &'static [&'static str],
    /// What sets the dog off.
    pub triggers: &'static [Trigger],
    /// Best first.
    pub reinforcers: &'static [Reinforcer],
    /// Where practice happens.
    pub places: &'static [Place],
    /// Versions of the plan, oldest first; empty where there is none.
    pub versions: &'static [PlanVersion],
    /// Starter keys of standing arrangements, on the plan from the first version.
    pub standing: &'static [&'static str],
    /// Starter keys of owner's skills, on the plan from the first version.
    pub owner_skills: &'static [&'static str],
    /// Exercises on the plan.
    pub items: &'static [Item],
    /// How logging goes.
    pub rhythm: Rhythm,
    /// Owner notes to hang on generated sittings; each used at most once, in order, oldest first.
    pub notes: &'static [Note],
    /// Sittings written by hand, on which the story turns.
    pub moments: &'static [Moment],
    /// What happened outside a sitting.
    pub encounters: &'static [Encounter],
    /// Oldest first.
    pub messages: &'static [Message],
    /// Private to trainers; oldest first.
    pub trainer_notes: &'static [Message],
    /// What a trainer wrote when answering flags raised by generated sittings, in order.
    pub answers: &'static [&'static str],
    /// Things that explain a change.
    pub life_events: &'static [LifeEvent],
    /// Lessons that are booked, those that were held among them.
    pub lessons: &'static [Lesson],
    /// A package of lessons: how many, the day from which it counts, and a note.
    pub package: Option<(i16, DaysAgo, &'static str)>,
    /// When somebody of the household said that it still goes well: days ago, and who.
    pub check_ins: &'static [(DaysAgo, &'static str)],
}

/// When a lesson is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum On {
    /// It was held so many days ago: what the household was told, and what only trainers read.
    Held(DaysAgo, &'static str, &'static str),
    /// It is in so many days.
    Ahead(u16),
}

/// A lesson.
#[derive(Debug, Clone, Copy)]
pub struct Lesson {
    /// When.
    pub on: On,
    /// The hour and minute at which it begins.
    pub at: (u8, u8),
    /// How long it takes.
    pub minutes: i16,
    /// Where.
    pub place: &'static str,
}

/// Goal in the owner's words.
#[derive(Debug, Clone, Copy)]
pub struct Goal {
    /// What they want to be able to do.
    pub words: &'static str,
    /// How near it feels and how sure of it they are, 0–10, oldest first: days ago and both marks.
    pub readings: &'static [(DaysAgo, u8, u8)],
}

/// What sets the dog off.
#[derive(Debug, Clone, Copy)]
pub struct Trigger {
    /// What.
    pub what: &'static str,
    /// Nearest comfortable distance when they came, metres; 0 where distance says nothing.
    pub metres: u16,
    /// How it looks.
    pub looks_like: &'static str,
}

/// A reward.
#[derive(Debug, Clone, Copy)]
pub struct Reinforcer {
    /// What.
    pub name: &'static str,
    /// Worth to this dog, 1–5.
    pub value: u8,
    /// kcal a gram and grams a piece; none for a toy.
    pub food: Option<(f32, f32)>,
    /// It comes out of the daily meals.
    pub from_meals: bool,
}

/// A place.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// Name, unique for the dog.
    pub name: &'static str,
    /// 1–5.
    pub distraction: u8,
    /// Fenced all round.
    pub secure: bool,
    /// A road within a line's length and a run.
    pub near_road: bool,
}

/// Something that explains a change.
#[derive(Debug, Clone, Copy)]
pub struct LifeEvent {
    /// Began.
    pub from: DaysAgo,
    /// Ended; 0 is today or still going.
    pub to: DaysAgo,
    /// What.
    pub kind: LifeKind,
    /// The owner's words.
    pub note: &'static str,
}
