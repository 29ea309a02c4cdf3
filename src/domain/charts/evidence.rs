//! Evidence after each sitting: the readiness chart played again over the sittings of a line, each step and each new beginning
//! by itself.
//!
//! A sitting belongs to the plan that it was practised by: one at an item of a plan before its step's evidence began anew
//! stands with the old evidence, as in `store::readiness::terms`.

use std::collections::HashMap;

use time::Date;

use super::{Charted, PlannedLine, said};
use crate::domain::dates::{ago, counted};
use crate::domain::readiness::{CountedSitting, PlaceMatch, Readiness, Verdict, limit};
use crate::domain::vocabulary::SkillClass;
use crate::ids::StepId;

/// Where the evidence stood after a sitting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Evidence<'a> {
    /// The sitting.
    pub of: &'a Charted,
    /// Whether it counted: in a place as hard as planned.
    pub place: PlaceMatch,
    /// The class by whose chart it was played.
    pub class: SkillClass,
    /// The step, and the plan with which its evidence began.
    pub begun: (StepId, i32),
    /// The state after it.
    pub state: Readiness,
}

/// The plan with which the evidence began that a sitting at a step, by a plan, belongs to; 0 for the first.
fn began(planned: &[&PlannedLine], step: StepId, plan: i32) -> i32 {
    let anew = planned.iter().filter(|line| line.step == Some(step) && line.is_anew && line.plan <= plan);
    anew.map(|line| line.plan).max().unwrap_or(0)
}

/// Whether a step that was begun with a plan is watched for decline: the line came up to it.
fn is_watched(planned: &[&PlannedLine], step: StepId, plan: i32) -> bool {
    let came = planned.iter().filter(|line| line.step == Some(step) && line.plan <= plan);
    came.filter_map(|line| line.is_up.map(|up| (line.plan, up))).max().is_some_and(|(_, up)| up)
}

fn class_of(planned: &[&PlannedLine], step: StepId) -> Option<SkillClass> {
    planned.iter().filter(|line| line.step == Some(step)).max_by_key(|line| line.plan).map(|line| line.class)
}

/// The evidence after each counted sitting of one line, oldest first; `planned` are its items, of every plan.
pub fn evidence<'a>(sittings: &[&'a Charted], planned: &[&PlannedLine]) -> Vec<Evidence<'a>> {
    let mut states: HashMap<(StepId, i32), Readiness> = HashMap::new();
    let mut after = Vec::new();
    for of in sittings {
        let Some((step, sitting)) = of.sitting.step.zip(CountedSitting::from_sitting(&of.sitting)) else {
            continue;
        };
        let Some(class) = class_of(planned, step) else { continue };
        let begun = (step, began(planned, step, of.plan));
        let fresh = || match is_watched(planned, step, of.plan) {
            true => Readiness::after_moving_on(),
            false => Readiness::default(),
        };
        let state = states.entry(begun).or_insert_with(fresh);
        *state = state.advance(&sitting, class);
        after.push(Evidence { of, place: sitting.place, class, begun, state: *state });
    }
    after
}

/// What the evidence says of where the line stands now; `now` is its item of the current plan, `None` where that has it no more.
pub fn evidence_says(
    all: &[Evidence<'_>],
    planned: &[&PlannedLine],
    now: Option<&PlannedLine>,
    today: Date,
) -> String {
    let Some(now) = now else {
        return "The current plan has this exercise no more: nothing is gathered.".to_owned();
    };
    let Some(step) = now.step else { return String::new() };
    let begun = (step, began(planned, step, now.plan));
    let limit = limit(now.class);
    let Some(latest) = all.iter().rfind(|one| one.begun == begun && one.state.sittings > 0) else {
        return format!("Nothing counted at the present step yet: evidence begins at 0 of {limit:.2}.");
    };
    let state = latest.state;
    let after = counted(state.sittings.into(), "counted sitting", "counted sittings");
    match (state.verdict(now.class), state.signalled_on) {
        (Verdict::Relapse, _) => format!(
            "After moving on there were more misses than a dog makes that is ready; evidence stands at {:.2} of {limit:.2} after {after}.",
            state.score
        ),
        (_, Some(since)) => {
            format!(
                "Evidence reached its limit of {limit:.2} {} and stands there, after {after} at the present step.",
                ago(since, today)
            )
        }
        _ => format!(
            "Evidence stands at {:.2} of {limit:.2} after {after} at the present step: at the fewest, {} more met in a row would reach it.",
            state.score,
            said(state.fewest_more_good(now.class).into())
        ),
    }
}
