//! Sittings written by hand, and what happened outside them.

use super::dog::DaysAgo;
use super::plan::CoolDown;
use super::profile::Incident;
pub use crate::domain::vocabulary::{Busy, HealthSign, Looked, Recovery, TookFood};
use crate::domain::vocabulary::{Clip, Line};

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
