//! Welfare: rules on plans, sittings, encounters and silence.
//!
//! One rule is one small pure function and one entry in the catalogue. A finding says what was seen, why it
//! matters, what to do first and where that comes from; it never diagnoses.

mod catalogue;
mod cool_down;
mod distress;
mod equipment;
mod food;
mod health;
mod left_open;
mod pause;
mod progress;
mod rhythm;
mod safety;
mod workload;

pub use catalogue::{CATALOGUE, Danger, Fact, Finding, Group, LooksAt, Parameter, Rule, rule};
pub use cool_down::HIGH_AROUSAL;
pub use distress::NOT_COPING;
pub use pause::{Pause, pause};
pub use rhythm::{Quiet, SilenceFacts, quiet, silence};
pub use safety::INCIDENT_WINDOW_DAYS;

use super::dog::DogFacts;
use super::encounter::EncounterFacts;
use super::plan::PlanFacts;
use super::sitting::Sitting;

/// A sitting with what went before.
#[derive(Debug, Clone, Copy)]
pub struct LogContext<'a> {
    /// The sitting.
    pub sitting: &'a Sitting,
    /// The dog.
    pub dog: &'a DogFacts,
    /// The dog's earlier sittings, newest first, without this one.
    pub recent: &'a [Sitting],
    /// The dog's other bites, growls and snaps within 30 days, a bite in another sitting among them.
    pub encounters: &'a [EncounterFacts],
}

/// An encounter with what went before.
#[derive(Debug, Clone, Copy)]
pub struct EncounterContext<'a> {
    /// The encounter.
    pub encounter: &'a EncounterFacts,
    /// The dog.
    pub dog: &'a DogFacts,
    /// The dog's other bites, growls and snaps within 30 days; a bite in a sitting stands among them.
    pub recent: &'a [EncounterFacts],
}

/// What the rules find in a sitting, the worst first.
pub fn evaluate_log(context: &LogContext<'_>) -> Vec<Finding> {
    let rules: [fn(&LogContext<'_>) -> Option<Finding>; 13] = [
        equipment::long_line_without_harness,
        cool_down::cool_down_missing,
        cool_down::still_high,
        distress::shut_down,
        workload::longer_than_planned,
        progress::under_half_met,
        food::marker_unpaid,
        health::vet_now,
        health::heat_illness,
        health::vet_soon,
        safety::bite_in_sitting,
        safety::second_incident_in_sitting,
        safety::bolted_in_sitting,
    ];
    worst_first(rules.iter().filter_map(|rule| rule(context)).collect())
}

/// What the rules find in an encounter, the worst first.
pub fn evaluate_encounter(context: &EncounterContext<'_>) -> Vec<Finding> {
    let rules: [fn(&EncounterContext<'_>) -> Option<Finding>; 6] = [
        safety::bite,
        safety::puppy_mouthing,
        safety::growl_at_child,
        safety::second_incident,
        safety::bolted,
        distress::not_coping,
    ];
    worst_first(rules.iter().filter_map(|rule| rule(context)).collect())
}

/// What the rules find in a plan before it is published, the worst first.
pub fn evaluate_plan(plan: &PlanFacts) -> Vec<Finding> {
    let mut findings = equipment::planned_long_line_on_collar(plan);
    findings.extend(cool_down::arousing_last(plan));
    findings.extend(rhythm::plan_too_large(plan));
    findings.extend(food::no_reinforcer(plan));
    findings.extend(workload::no_length(plan));
    findings.extend(progress::no_place(plan));
    worst_first(findings)
}

fn worst_first(mut findings: Vec<Finding>) -> Vec<Finding> {
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.rule.gravity(finding.severity)));
    findings
}

#[cfg(test)]
mod tests;
