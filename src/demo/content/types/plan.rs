//! What is asked for, and how practice usually goes.

use super::dog::DaysAgo;
pub use crate::domain::vocabulary::Finish as CoolDown;
use crate::domain::vocabulary::{Clip, Line};

/// One publishing of the plan.
#[derive(Debug, Clone, Copy)]
pub struct PlanVersion {
    /// When.
    pub days_ago: DaysAgo,
    /// What the trainer wrote to the owner with it.
    pub note: &'static str,
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
    /// Sittings really logged in a usual week. With three moments or more an item is written by hand from the first
    /// of them on.
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
    /// The same on the present step; at most 70 where the dog's story must not read as likely ready.
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
    /// Usual hours of the day, local: that of the first item, of the second, and so on.
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
    /// Met, and of how many, where the note speaks of them.
    pub counts: Option<(u8, u8)>,
    /// Metres, seconds or minutes, where the note speaks of them.
    pub reading: Option<u16>,
    /// Not before this day.
    pub since: DaysAgo,
}
