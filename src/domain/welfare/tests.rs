//! Checks of the catalogue as a whole; each group of rules has its own file.

mod catalogue;
mod encounters;
mod food;
mod plans;
mod silences;
mod sittings;

use super::*;
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
