//! What the charts of a dog show, and the one sentence that each of them carries: a conclusion that its numbers bear, or that
//! there is too little to say. Drawing is `web::chart`'s.

mod arousal;
mod cool_down;
mod evidence;
mod food;
mod goal;
mod incidents;
mod measured;
mod met;
mod range;
mod success;
mod weeks;
mod weight;

#[cfg(test)]
mod tests;

use time::Date;

use super::food::earned::Paid;
use super::sitting::Sitting;
use super::vocabulary::{Outcome, SkillClass};
use crate::ids::{LineId, PracticeLogId, StepId};

pub use arousal::arousal;
pub use cool_down::{cool_down, cooled_down};
pub use evidence::{Evidence, evidence, evidence_says};
pub use food::{FoodDay, FoodDays, food_days};
pub use goal::{Reading, goals_say};
pub use incidents::{Incident, incidents_say};
pub use measured::{measured, value_words};
pub use met::{distances, recoveries};
pub use range::Range;
pub use success::{Success, successes, successes_say};
pub use weeks::{Day, Week, weeks, weeks_say};
pub use weight::weights_say;

/// Something that happened on a day and may be read beside every chart: a move, a medicine, fireworks.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// The day.
    pub on: Date,
    /// What it was.
    pub words: String,
}

/// One sitting as the charts read it.
#[derive(Debug, Clone, PartialEq)]
pub struct Charted {
    /// The log.
    pub id: PracticeLogId,
    /// The number of the plan that it was practised by.
    pub plan: i32,
    /// Whether it was an exercise: a standing arrangement and an owner's skill pay nothing.
    pub is_exercise: bool,
    /// What earned the marker, as the plan said it then.
    pub criterion: String,
    /// The step's name, as it was.
    pub step_name: String,
    /// Metres, minutes or times, where the exercise yields those.
    pub value: Option<f64>,
    /// What it was paid with.
    pub paid: Paid,
    /// The facts.
    pub sitting: Sitting,
}

/// A line of one published plan, as the charts read it.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedLine {
    /// The instruction across plans.
    pub line: LineId,
    /// The number of the plan.
    pub plan: i32,
    /// Its place in the plan.
    pub position: i16,
    /// What it is called.
    pub name: String,
    /// The step.
    pub step: Option<StepId>,
    /// Which rung that is, from 1.
    pub step_position: Option<i16>,
    /// How many rungs there are.
    pub steps_total: i16,
    /// The step's name.
    pub step_name: String,
    /// How sure to be.
    pub class: SkillClass,
    /// What a sitting yields.
    pub outcome: Outcome,
    /// Whether the evidence of its step begins anew with this plan: the line came to it from another step, or its criterion
    /// changed.
    pub is_anew: bool,
    /// Whether the line came to this step from an easier one with this plan; `None` where it was at it before.
    pub is_up: Option<bool>,
}

/// A number as people say it: whole where it is whole, else with one decimal; below nothing with a minus sign.
fn said(value: f64) -> String {
    let tenths = (value * 10.0).round() / 10.0;
    let size = tenths.abs();
    let words = if size.fract() == 0.0 { format!("{size:.0}") } else { format!("{size:.1}") };
    if tenths < 0.0 { format!("−{words}") } else { words }
}

/// The last of some things, at most so many.
fn last<T>(all: &[T], most: usize) -> &[T] {
    &all[all.len().saturating_sub(most)..]
}
