//! Checks of the catalogue as a whole; each group of rules has its own file.

mod catalogue;
mod children;
mod clips;
mod day_load;
mod encounters;
mod failure;
mod food;
mod plans;
mod progression;
mod properties;
mod reactions;
mod roads;
mod silences;
mod sittings;
mod slow_change;

use super::*;
use crate::domain::plan::PlannedItem;
use crate::domain::vocabulary::Severity;
use time::macros::date;

const DAY: Date = date!(2025 - 06 - 20);

fn dog() -> DogFacts {
    DogFacts { name: "Bracken".to_owned(), born: Some(date!(2021 - 06 - 01)), ..DogFacts::default() }
}

fn sitting(change: impl FnOnce(&mut Sitting)) -> Sitting {
    let mut sitting = Sitting::on(DAY);
    change(&mut sitting);
    sitting
}

/// Rule ids and severities found in a sitting after earlier ones, newest first.
fn after(recent: &[Sitting], change: impl FnOnce(&mut Sitting)) -> Vec<(&'static str, Severity)> {
    let sitting = sitting(change);
    short(&evaluate_log(&LogContext { recent, ..LogContext::of(&sitting, &dog()) }))
}

fn log(change: impl FnOnce(&mut Sitting)) -> Vec<(&'static str, Severity)> {
    after(&[], change)
}

fn short(findings: &[Finding]) -> Vec<(&'static str, Severity)> {
    findings.iter().map(|finding| (finding.rule.id, finding.severity)).collect()
}

/// How bad one rule finds it.
fn of(id: &str, findings: &[Finding]) -> Option<Severity> {
    assert!(rule(id).is_some(), "{id} is no rule");
    findings.iter().filter(|finding| finding.rule.id == id).map(|finding| finding.severity).max()
}

/// What one rule finds in a sitting of a dog after earlier ones, newest first.
fn in_log(
    id: &str,
    dog: &DogFacts,
    recent: &[Sitting],
    change: impl FnOnce(&mut Sitting),
) -> Option<Severity> {
    of(id, &evaluate_log(&LogContext { recent, ..LogContext::of(&sitting(change), dog) }))
}

/// What one rule finds in a plan.
fn in_plan(id: &str, dog: &DogFacts, items: Vec<PlannedItem>) -> Option<Severity> {
    of(id, &evaluate_plan(&PlanContext::of(&PlanFacts { items }, dog, DAY)))
}
