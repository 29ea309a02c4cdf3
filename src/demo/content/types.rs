//! The shapes the invented practice is written in.
//!
//! Days are counted back from "now": 0 is today, 84 is twelve weeks ago. People are named by `key`, unique across
//! trainers and owners, so that a message or a sitting can say who. Dates of birth are ages in days at "now".

use crate::domain::vocabulary::{Clip, Line};

/// Days before now.
pub type DaysAgo = u16;

/// The whole practice.
#[derive(Debug)]
pub struct Practice {
    /// Name of the business.
    pub name: &'static str,
    /// IANA time zone.
    pub zone: &'static str,
    /// One line on what it does.
    pub about: &'static str,
    /// Lead first.
    pub trainers: &'static [Trainer],
    /// Households, in groups as the files hold them; `super::households` walks them all.
    pub household_groups: &'static [&'static [Household]],
}

/// A trainer.
#[derive(Debug)]
pub struct Trainer {
    /// Unique among people.
    pub key: &'static str,
    /// Full name.
    pub name: &'static str,
    /// Sign-in address, at a reserved example domain.
    pub email: &'static str,
    /// From the range reserved for drama.
    pub phone: &'static str,
    /// Runs the practice.
    pub lead: bool,
    /// Answers stops when nobody else does.
    pub duty: bool,
    /// A line about them.
    pub about: &'static str,
}

/// A household and its dogs.
#[derive(Debug)]
pub struct Household {
    /// Unique among households.
    pub key: &'static str,
    /// As the caseload shows it, "Pryce household".
    pub name: &'static str,
    /// Where they live and who is at home, for the trainer.
    pub about: &'static str,
    /// Ages in years of children at home.
    pub children: &'static [u8],
    /// The first one is who writes most.
    pub owners: &'static [Owner],
    /// Their dogs that are in training.
    pub dogs: &'static [Dog],
}

/// An owner.
#[derive(Debug)]
pub struct Owner {
    /// Unique among people.
    pub key: &'static str,
    /// Full name.
    pub name: &'static str,
    /// From the range reserved for drama.
    pub phone: &'static str,
    /// Of ten sittings, how many this owner does; sums to 10 in a household.
    pub share: u8,
}

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

/// Where a dog stands with the practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Phase {
    /// First weeks.
    SettlingIn,
    /// Working.
    Active,
    /// Keeping it up.
    Maintaining,
    /// Done.
    Graduated,
    /// Resting.
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
}

/// Sex.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sex {
    /// A bitch.
    Female,
    /// A dog.
    Male,
}

/// How exact a birth date is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BirthKnown {
    /// To the day.
    Exact,
    /// To the month.
    Month,
    /// A vet's or a rescue's estimate.
    Estimated,
}

/// Everyday activity, for the food sums.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Activity {
    /// Under an hour, mostly on the lead.
    Low,
    /// One to two hours.
    Usual,
    /// More, or working.
    High,
}

/// Coat, for the heat sums.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Coat {
    /// Short and close.
    Short,
    /// Double or dense.
    Double,
    /// Long or feathered.
    Long,
    /// Wiry.
    Wiry,
    /// Curly or woolly.
    Curly,
}

/// Where the question to the vet stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Vet {
    /// Not asked.
    None,
    /// Asked for a visit, this long ago.
    Asked(DaysAgo),
    /// Seen, this long ago; something is being treated or watched.
    Seen(DaysAgo),
    /// Seen and cleared for the work, this long ago.
    Cleared(DaysAgo),
}

/// What the history holds.
#[derive(Debug, Clone, Copy)]
pub struct Profile {
    /// Breed or best guess.
    pub breed: &'static str,
    /// Sex.
    pub sex: Sex,
    /// Neutered.
    pub neutered: bool,
    /// Age in days at now.
    pub age_days: u16,
    /// How exact that is.
    pub birth_known: BirthKnown,
    /// Weighings, oldest first: days ago, kilograms.
    pub weights: &'static [(DaysAgo, f32)],
    /// Expected adult weight, kg; the present weight for adults.
    pub adult_kg: f32,
    /// Body condition 1–9.
    pub condition: u8,
    /// Everyday activity.
    pub activity: Activity,
    /// Coat.
    pub coat: Coat,
    /// Short-nosed.
    pub short_nosed: bool,
    /// Heart and breathing; empty is not stated.
    pub heart_breathing: &'static str,
    /// Bones and joints; empty is not stated.
    pub orthopaedic: &'static str,
    /// Anything else a stand-in should know.
    pub other: &'static str,
    /// Name, dose, how often.
    pub medicines: &'static [&'static str],
    /// Foods and others.
    pub allergies: &'static [&'static str],
    /// Main food, described, no brands.
    pub food: &'static str,
    /// Its energy, kcal a gram as fed.
    pub food_kcal_g: f32,
    /// Question to the vet.
    pub vet: Vet,
    /// Facts, oldest first.
    pub incidents: &'static [Incident],
    /// Muzzle, where there is one.
    pub muzzle: Option<Muzzle>,
    /// Who must not meet this dog.
    pub must_not_meet: &'static [&'static str],
    /// Places (by name) where the trainer allows off lead; a bolt ends it.
    pub off_lead: &'static [&'static str],
}

/// A muzzle and how it is borne.
#[derive(Debug, Clone, Copy)]
pub struct Muzzle {
    /// Basket or other.
    pub kind: &'static str,
    /// Can pant and take food in it.
    pub can_pant_and_eat: bool,
    /// Comfortable for this long, minutes.
    pub comfortable_minutes: u8,
    /// Where it is worn.
    pub required: &'static str,
}

/// What an incident was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum IncidentKind {
    /// Teeth on skin.
    Bite,
    /// Snap without touch.
    Snap,
    /// Growl.
    Growl,
    /// Froze over something and guarded it.
    Guarding,
    /// Turned on the handler when held back.
    Redirected,
    /// Ran off.
    Bolted,
    /// Slipped out of the harness or collar.
    Slipped,
}

/// An incident as facts.
#[derive(Debug, Clone, Copy)]
pub struct Incident {
    /// When; the sitting's own day inside a `Moment`.
    pub days_ago: DaysAgo,
    /// What.
    pub kind: IncidentKind,
    /// Skin was broken.
    pub skin_broken: bool,
    /// Towards whom or what.
    pub towards: &'static str,
    /// What was seen.
    pub facts: &'static str,
}

/// Goal in the owner's words.
#[derive(Debug, Clone, Copy)]
pub struct Goal {
    /// What they want to be able to do.
    pub words: &'static str,
    /// How near they feel, 0–10, oldest first: days ago, mark.
    pub confidence: &'static [(DaysAgo, u8)],
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

/// One publishing of the plan.
#[derive(Debug, Clone, Copy)]
pub struct PlanVersion {
    /// When.
    pub days_ago: DaysAgo,
    /// What the trainer wrote to the owner with it.
    pub note: &'static str,
}

/// How a dog finished.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CoolDown {
    /// A sniffing walk.
    SniffWalk,
    /// Something to chew or lick.
    Chew,
    /// Settled on a mat or bed.
    Settle,
    /// Straight home or into the car.
    StraightHome,
}

/// One exercise on the plan.
#[derive(Debug, Clone, Copy)]
pub struct Item {
    /// Starter key.
    pub key: &'static str,
    /// Steps over time, oldest first: days ago, 0-based index into the ladder. The first is the day it joined
    /// the plan (the version on or next after that day); each later one is a decision to move on or back.
    pub climb: &'static [(DaysAgo, u8)],
    /// Attempts asked for at a sitting; 0 where not counted.
    pub attempts: u8,
    /// Sittings asked for in a week.
    pub times_a_week: u8,
    /// Sittings really logged in a usual week.
    pub logged_a_week: u8,
    /// Minutes planned for a sitting.
    pub minutes: u8,
    /// Tied to a habit.
    pub when: &'static str,
    /// Name of a place.
    pub place: &'static str,
    /// Name of a reinforcer.
    pub reinforcer: &'static str,
    /// Line.
    pub line: Line,
    /// Where it clips; none without a line.
    pub clip: Option<Clip>,
    /// Planned coming down: minutes and way; none after calm work.
    pub cool_down: Option<(u8, CoolDown)>,
    /// Of a hundred attempts, how many are met at the start and at the end of each earlier step.
    pub met: (u8, u8),
    /// The same on the present step.
    pub met_now: (u8, u8),
    /// Where the outcome is distance (metres), duration (seconds) or recovery (minutes): first and latest
    /// reading; (0, 0) where it is counted.
    pub reading: (u16, u16),
}

/// How logging goes. Bounds the generated sittings; moments may stand outside it.
#[derive(Debug, Clone, Copy)]
pub struct Rhythm {
    /// First generated log.
    pub first: DaysAgo,
    /// Last generated log; what comes after is written by hand in `moments`.
    pub last: DaysAgo,
    /// Usual hours of the day, local.
    pub hours: &'static [u8],
    /// Of a hundred logs, how many are the one-tap "as planned".
    pub one_tap: u8,
    /// Of a hundred sittings that ask for a cool-down, how many had it.
    pub cooled_down: u8,
    /// Usual arousal before and at the end, 1–5.
    pub arousal: (u8, u8),
}

/// How the day went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Day {
    /// Better than the curve.
    Good,
    /// Worse than the curve.
    Hard,
}

/// An owner's note for a generated sitting.
#[derive(Debug, Clone, Copy)]
pub struct Note {
    /// Starter key of the exercise it speaks of; empty fits any.
    pub on: &'static str,
    /// Kind of day.
    pub day: Day,
    /// The note.
    pub words: &'static str,
}

/// How busy a place was against its usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Busy {
    /// Quieter.
    Quiet,
    /// As usual.
    Usual,
    /// Busier.
    Busy,
}

/// How food was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TookFood {
    /// Gently.
    Gently,
    /// Snatched.
    Snatched,
    /// Refused.
    Refused,
}

/// How the dog looked.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Looked {
    /// Loose.
    Loose,
    /// Wound up.
    WoundUp,
    /// Worried.
    Worried,
    /// Frozen.
    Frozen,
}

/// How soon the dog was herself again.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Recovery {
    /// Within five minutes.
    Within5,
    /// Within fifteen.
    Within15,
    /// Longer.
    Longer,
    /// Not yet when logged.
    NotYet,
}

/// Something unlike the dog.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum HealthSign {
    /// Laboured or noisy breathing that does not settle.
    LabouredBreathing,
    /// Collapse or staggering.
    Collapse,
    /// Pale, grey or blue gums.
    PaleGums,
    /// Limping.
    Limping,
    /// Stiff or slow to rise.
    Stiff,
    /// Sick.
    Vomiting,
    /// Off food.
    OffFood,
}

/// A sitting written by hand. `Moment::USUAL` holds the quiet defaults.
#[derive(Debug, Clone, Copy)]
pub struct Moment {
    /// When.
    pub days_ago: DaysAgo,
    /// Local hour.
    pub hour: u8,
    /// Starter key.
    pub item: &'static str,
    /// Key of an owner, or of a trainer for a trainer-seen sitting.
    pub by: &'static str,
    /// Name of a place.
    pub place: &'static str,
    /// How busy.
    pub busy: Busy,
    /// Line in fact.
    pub line: Line,
    /// Clip in fact.
    pub clip: Option<Clip>,
    /// Minutes.
    pub minutes: u8,
    /// Attempts; 0 where not counted.
    pub attempts: u8,
    /// Met.
    pub met: u8,
    /// Pieces given, where counted live; equals `met` when every "yes" was paid.
    pub rewards: u8,
    /// Before and at the end, 1–5.
    pub arousal: (u8, u8),
    /// How food was taken.
    pub food: TookFood,
    /// How the dog looked.
    pub looked: Looked,
    /// Recovery.
    pub recovery: Recovery,
    /// Minutes and way; none is not stated, zero minutes is none given.
    pub cool_down: Option<(u8, CoolDown)>,
    /// Unlike the dog.
    pub signs: &'static [HealthSign],
    /// Incident.
    pub incident: Option<Incident>,
    /// The note.
    pub note: &'static str,
    /// What a trainer did about what it raised; none leaves it open.
    pub answer: Option<Answer>,
}

/// A trainer's answer to a flag.
#[derive(Debug, Clone, Copy)]
pub struct Answer {
    /// When.
    pub days_ago: DaysAgo,
    /// Key of the trainer.
    pub by: &'static str,
    /// What was done.
    pub words: &'static str,
}

/// Something that happened outside a sitting.
#[derive(Debug, Clone, Copy)]
pub struct Encounter {
    /// When.
    pub days_ago: DaysAgo,
    /// Key of the owner.
    pub by: &'static str,
    /// What.
    pub what: &'static str,
    /// How far, metres.
    pub metres: u16,
    /// 0 none · 1 looked · 2 stiff or whining · 3 lunged or barked · 4 could not come away.
    pub reaction: u8,
    /// Recovery.
    pub recovery: Recovery,
    /// The note.
    pub note: &'static str,
}

/// Words from somebody on a day: a message, or a trainer's private note.
#[derive(Debug, Clone, Copy)]
pub struct Message {
    /// When.
    pub days_ago: DaysAgo,
    /// Key of the writer.
    pub from: &'static str,
    /// The words.
    pub words: &'static str,
}

/// Something that explains a change.
#[derive(Debug, Clone, Copy)]
pub struct LifeEvent {
    /// Began.
    pub from: DaysAgo,
    /// Ended; 0 is today or still going.
    pub to: DaysAgo,
    /// What: medicine, season, neutering, move, fireworks, illness, holiday.
    pub what: &'static str,
    /// The owner's words.
    pub note: &'static str,
}
