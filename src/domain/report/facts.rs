//! What a report is composed from. Counts are of the period unless said otherwise.

use time::Date;

use crate::domain::dog::Weighing;
use crate::domain::vocabulary::{
    Choice, EncounterKind, FlagState, HealthSign, Outcome, Recovery, Severity, Sex, Towards, VetStatus,
};

/// The time that a report covers, and the day on which it is composed.
#[derive(Debug, Clone, Copy)]
pub struct Period {
    /// Its first day.
    pub from: Date,
    /// Its last day.
    pub to: Date,
    /// Today.
    pub today: Date,
}

/// Everything that a report may say.
#[derive(Debug, Clone)]
pub struct Facts {
    /// The time it covers.
    pub period: Period,
    /// The dog and its household.
    pub dog: About,
    /// What was practised, in all.
    pub practised: Practised,
    /// What was practised, exercise by exercise, in the plan's order.
    pub lines: Vec<LineFacts>,
    /// Decisions about steps, oldest first.
    pub decided: Vec<Decided>,
    /// Encounters, newest first.
    pub met: Vec<Met>,
    /// Sittings in which the dog bit, bolted or showed a sign of illness, newest first.
    pub seen: Vec<SeenInPractice>,
    /// What rules raised in the period, and what is open whenever it was raised; oldest first.
    pub raised: Vec<Raised>,
    /// Days of lessons.
    pub lessons: Vec<Date>,
    /// The plan as it stands.
    pub plan: Option<PlanSaid>,
    /// Weighings, newest first, whenever they were.
    pub weights: Vec<Weighing>,
    /// What sets it off, and a word more.
    pub triggers: Vec<(String, String)>,
    /// What it works for, with what it is worth to it, 1–5.
    pub reinforcers: Vec<(String, i16)>,
    /// Where it practises.
    pub places: Vec<PlaceSaid>,
    /// What the household told before the first lesson, where it was sent.
    pub told: Option<Told>,
    /// What the household signed last.
    pub consent: Option<ConsentSaid>,
    /// What waits.
    pub waiting: Waiting,
    /// What is for trainers alone; `None` unless a trainer asked for it.
    pub notes: Option<Vec<Note>>,
}

/// The dog and its household, as recorded. Empty texts and `None` mean "not stated".
#[derive(Debug, Clone)]
pub struct About {
    /// What it is called.
    pub name: String,
    /// Its breed or kind.
    pub breed: String,
    /// When it was born.
    pub born: Option<Date>,
    /// Its sex.
    pub sex: Option<Sex>,
    /// Whether it is neutered.
    pub neutered: Option<bool>,
    /// Since when it lives in its home.
    pub home_since: Option<Date>,
    /// Its household.
    pub household: String,
    /// Who belongs to it.
    pub owners: Vec<String>,
    /// Who looks after it.
    pub trainer: String,
    /// The goal in the owner's words.
    pub goal: String,
    /// How near it is in their eyes, 0–10.
    pub goal_score: Option<i16>,
    /// What was tried before.
    pub tried_before: String,
    /// Body condition, 1–9.
    pub body_condition: Option<i16>,
    /// Heart and breathing, as noted.
    pub heart_or_breathing: String,
    /// Bones and joints, as noted.
    pub orthopaedic: String,
    /// Other health, as noted.
    pub other_health: String,
    /// Medicines.
    pub medicines: String,
    /// Allergies.
    pub allergies: String,
    /// The main food.
    pub main_food: String,
    /// The muzzle.
    pub muzzle: String,
    /// Whom it must not meet.
    pub must_not_meet: String,
    /// Whether a bite is on record.
    pub bite_on_record: bool,
    /// How far a vet has been part of this.
    pub vet: VetStatus,
    /// Since when.
    pub vet_on: Option<Date>,
}

/// What was practised in all.
#[derive(Debug, Clone, Copy, Default)]
pub struct Practised {
    /// Days with a sitting.
    pub days: i64,
    /// Sittings.
    pub sittings: i64,
    /// Minutes, of those sittings that say.
    pub minutes: i64,
    /// Sittings that do not say how long they were.
    pub without_minutes: i64,
    /// Sittings that a trainer saw.
    pub trainer_seen: i64,
}

/// A rung of an exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Which one, from 1.
    pub position: i16,
    /// Of how many.
    pub total: i16,
    /// What it is called.
    pub name: String,
}

/// An exercise over the period.
#[derive(Debug, Clone)]
pub struct LineFacts {
    /// What it is called.
    pub name: String,
    /// What a sitting of it yields.
    pub outcome: Outcome,
    /// The step in the plan at the start.
    pub start: Option<Step>,
    /// The step in the plan at the end.
    pub end: Option<Step>,
    /// Whether it joined the plan after the period began.
    pub joined: bool,
    /// Whether it was taken off the plan before the period ended.
    pub left: bool,
    /// What was practised of it, step by step, in their order.
    pub counts: Vec<StepCounts>,
}

/// What was practised at one step.
#[derive(Debug, Clone)]
pub struct StepCounts {
    /// The step, as it was.
    pub step: Option<Step>,
    /// Sittings.
    pub sittings: i64,
    /// Attempts in those that were counted.
    pub attempts: i64,
    /// Attempts that met the criterion.
    pub met: i64,
    /// The first reading of what is measured, and its day.
    pub first: Option<(Date, f64)>,
    /// The last one.
    pub last: Option<(Date, f64)>,
}

/// A decision about a step.
#[derive(Debug, Clone)]
pub struct Decided {
    /// The day.
    pub on: Date,
    /// The exercise.
    pub exercise: String,
    /// What was chosen.
    pub choice: Choice,
    /// Who decided.
    pub by: String,
}

/// Who told of something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Teller {
    /// Their name.
    pub name: String,
    /// Whether they are a trainer.
    pub is_trainer: bool,
}

/// An encounter.
#[derive(Debug, Clone)]
pub struct Met {
    /// The day.
    pub on: Date,
    /// What happened.
    pub kind: EncounterKind,
    /// What it met, in words.
    pub what: String,
    /// How far away it was, metres.
    pub metres: Option<f64>,
    /// How strong the reaction was, 0–4.
    pub reaction: Option<i16>,
    /// How long until the dog was itself again.
    pub recovery: Option<Recovery>,
    /// Whom it was aimed at.
    pub towards: Option<Towards>,
    /// Whether skin was broken.
    pub skin_broken: Option<bool>,
    /// Whether it went stiff or froze.
    pub froze: Option<bool>,
    /// Whether a growl, a stare or stiffening came first.
    pub warned: Option<bool>,
    /// Where.
    pub place: String,
    /// What was written of it.
    pub note: String,
    /// Who told it.
    pub by: Teller,
}

/// Something that was seen in a sitting.
#[derive(Debug, Clone)]
pub struct SeenInPractice {
    /// The day.
    pub on: Date,
    /// What was practised.
    pub exercise: String,
    /// Teeth touched a person or animal.
    pub bite: bool,
    /// The dog ran off.
    pub bolted: bool,
    /// Signs of illness or pain that were ticked.
    pub signs: Vec<HealthSign>,
    /// Who told it.
    pub by: Teller,
    /// Whether a trainer saw it.
    pub trainer_seen: bool,
}

/// Something that a rule raised.
#[derive(Debug, Clone)]
pub struct Raised {
    /// The day it is about.
    pub on: Date,
    /// Whether that is within the period.
    pub in_period: bool,
    /// What, in plain words.
    pub title: &'static str,
    /// How bad.
    pub severity: Severity,
    /// Where it stands.
    pub state: FlagState,
    /// What was answered; the household reads it as well.
    pub answer: String,
    /// What was seen, in words that the household reads as well.
    pub seen: String,
    /// What was written where it was found, and by whom.
    pub told: Option<(String, Teller)>,
}

/// The plan as it stands.
#[derive(Debug, Clone)]
pub struct PlanSaid {
    /// Its number.
    pub number: i32,
    /// The day on which it was published.
    pub on: Date,
    /// What it asks for, in order.
    pub items: Vec<OnPlan>,
}

/// One instruction of the plan.
#[derive(Debug, Clone)]
pub struct OnPlan {
    /// What it is called.
    pub name: String,
    /// Whether it is practised with the dog.
    pub is_exercise: bool,
    /// What earns the marker, or what holds.
    pub criterion: String,
    /// The step.
    pub step: Option<Step>,
    /// Sittings a week.
    pub times_a_week: Option<i16>,
    /// Attempts in one.
    pub attempts: Option<i16>,
    /// Minutes in one.
    pub minutes: Option<i16>,
    /// Where.
    pub place: String,
    /// What it works for.
    pub reinforcer: String,
    /// What the trainer wrote beside it, for the household.
    pub note: String,
}

/// A place of the dog.
#[derive(Debug, Clone)]
pub struct PlaceSaid {
    /// What the household calls it.
    pub name: String,
    /// How distracting it usually is, 1–5.
    pub distraction: i16,
    /// Whether it is fenced.
    pub secure: Option<bool>,
    /// Whether a road is near.
    pub near_road: Option<bool>,
    /// Whether the dog may be off the lead there.
    pub off_lead: bool,
}

/// What the household told before the first lesson.
#[derive(Debug, Clone, Default)]
pub struct Told {
    /// The day on which it was sent.
    pub on: Option<Date>,
    /// When teeth touched somebody, a sentence each.
    pub teeth: Vec<String>,
    /// What was tried, in their words.
    pub tried: String,
    /// What seemed to help.
    pub helped: String,
    /// Medicines, in their words.
    pub medicines: String,
    /// Health, in their words.
    pub health: String,
    /// The vet, in their words.
    pub vet: String,
}

/// What the household signed.
#[derive(Debug, Clone)]
pub struct ConsentSaid {
    /// The day.
    pub on: Date,
    /// The name under it.
    pub name: String,
    /// Each thing, and whether it was ticked.
    pub clauses: Vec<(String, bool)>,
}

/// What waits.
#[derive(Debug, Clone, Default)]
pub struct Waiting {
    /// Whether a message of the household waits for an answer.
    pub question: bool,
    /// Exercises about whose step nobody has decided yet.
    pub decisions: Vec<String>,
}

/// Something for trainers alone.
#[derive(Debug, Clone)]
pub struct Note {
    /// What it is: "Lesson of 12 Mar 2026".
    pub what: String,
    /// What it says.
    pub says: String,
}
