//! Welfare: rules on plans, sittings, encounters and silence.
//!
//! One rule is one small pure function and one entry in the catalogue. A finding says what was seen, why it
//! matters, what to do first and where that comes from; it never diagnoses.

mod catalogue;
mod children;
mod clips;
mod cool_down;
mod day_load;
mod distress;
mod equipment;
mod failure;
mod food;
mod food_share;
mod food_words;
mod health;
mod heat;
mod impact;
mod in_plan;
mod numbers;
mod pause;
mod progress;
mod progression;
mod reactions;
mod rhythm;
mod roads;
mod safety;
mod slow_change;
mod warnings;
mod workload;

pub use catalogue::{CATALOGUE, Certainty, Danger, Fact, Finding, Group, LooksAt, Parameter, Rule, rule};
pub use cool_down::HIGH_AROUSAL;
pub use day_load::{minutes_to_lay_out, sitting_minutes};
pub use distress::NOT_COPING;
pub use food_share::TREATS;
pub use health::cannot_wait;
pub use heat::heat_limits;
pub use numbers::{HouseNumbers, parameter, parameters};
pub use pause::{Pause, pause};
pub use reactions::REACTION_HOURS;
pub use rhythm::{Quiet, SilenceFacts, quiet, silence};
pub use safety::{BOLTED, INCIDENT_DAYS};

use time::Date;

use super::dog::DogFacts;
use super::encounter::EncounterFacts;
use super::food::earned::Paid;
use super::plan::PlanFacts;
use super::sitting::Sitting;
use super::vocabulary::Clip;

/// A sitting with what went before.
#[derive(Debug, Clone, Copy)]
pub struct LogContext<'a> {
    /// The sitting.
    pub sitting: &'a Sitting,
    /// The dog.
    pub dog: &'a DogFacts,
    /// The dog's earlier sittings, newest first, without this one.
    pub recent: &'a [Sitting],
    /// The dog's other bites, growls and snaps within the window of incidents, a bite in another sitting among them.
    pub encounters: &'a [EncounterFacts],
    /// What the dog was paid with.
    pub paid: PaidFood<'a>,
    /// The numbers as the practice has them.
    pub numbers: &'a HouseNumbers,
    /// Clips that the practice does not use.
    pub not_used: &'a [Clip],
}

/// What a dog was paid with.
#[derive(Debug, Clone, Copy, Default)]
pub struct PaidFood<'a> {
    /// The reinforcer of this sitting, in words; `None` where the plan names none.
    pub with: Option<&'a str>,
    /// Everything over the seven days that end with the day of this sitting, this sitting counted.
    pub over_seven_days: &'a [Paid],
}

/// An encounter with what went before.
#[derive(Debug, Clone, Copy)]
pub struct EncounterContext<'a> {
    /// The encounter.
    pub encounter: &'a EncounterFacts,
    /// The dog.
    pub dog: &'a DogFacts,
    /// The dog's other bites, growls and snaps within the window of incidents, and its reactions of the days around; a
    /// bite in a sitting stands among them.
    pub recent: &'a [EncounterFacts],
    /// The numbers as the practice has them.
    pub numbers: &'a HouseNumbers,
}

/// A plan that may be published, with what it would take the place of.
#[derive(Debug, Clone, Copy)]
pub struct PlanContext<'a> {
    /// The plan.
    pub plan: &'a PlanFacts,
    /// The version that owners read now.
    pub current: Option<&'a PlanFacts>,
    /// The dog.
    pub dog: &'a DogFacts,
    /// The day, where the dog is.
    pub today: Date,
    /// The numbers as the practice has them.
    pub numbers: &'a HouseNumbers,
    /// Clips that the practice does not use.
    pub not_used: &'a [Clip],
}

impl<'a> LogContext<'a> {
    /// A first sitting of a dog, with the catalogue's numbers and nothing beside it.
    pub fn of(sitting: &'a Sitting, dog: &'a DogFacts) -> Self {
        let numbers = HouseNumbers::as_catalogued();
        Self { sitting, dog, recent: &[], encounters: &[], paid: PaidFood::default(), numbers, not_used: &[] }
    }
}

impl<'a> EncounterContext<'a> {
    /// A first encounter of a dog, with the catalogue's numbers and nothing beside it.
    pub fn of(encounter: &'a EncounterFacts, dog: &'a DogFacts) -> Self {
        Self { encounter, dog, recent: &[], numbers: HouseNumbers::as_catalogued() }
    }
}

impl<'a> PlanContext<'a> {
    /// A first plan of a dog, with the catalogue's numbers.
    pub fn of(plan: &'a PlanFacts, dog: &'a DogFacts, today: Date) -> Self {
        let numbers = HouseNumbers::as_catalogued();
        Self { plan, current: None, dog, today, numbers, not_used: &[] }
    }
}

/// What the rules find in a sitting, the worst first.
pub fn evaluate_log(context: &LogContext<'_>) -> Vec<Finding> {
    let rules: [fn(&LogContext<'_>) -> Option<Finding>; 36] = [
        equipment::long_line_without_harness,
        clips::clip_not_used,
        clips::retractable_lead,
        clips::chase_without_harness,
        clips::hand_in_loop,
        roads::road_near,
        roads::off_lead_not_allowed,
        cool_down::cool_down_missing,
        cool_down::still_high,
        distress::shut_down,
        reactions::snatching_grows,
        reactions::reaction_in_fear_work,
        workload::longer_than_planned,
        workload::no_break,
        day_load::long_for_age,
        day_load::arousing_day,
        day_load::two_arousing,
        day_load::no_rest_day,
        impact::impact_for_body,
        progress::under_half_met,
        failure::misses_running,
        failure::decline,
        food::marker_unpaid,
        food_share::over_daily_share,
        food_words::harmful_food_paid,
        food_words::allergen_paid,
        heat::heat_at_work,
        health::vet_now,
        health::heat_illness,
        health::vet_soon,
        slow_change::slow_pain,
        slow_change::weight_change,
        safety::bite_in_sitting,
        safety::second_incident_in_sitting,
        safety::bolted_in_sitting,
        children::child_held_line,
    ];
    worst_first(rules.iter().filter_map(|rule| rule(context)).collect())
}

/// What the rules find in an encounter, the worst first.
pub fn evaluate_encounter(context: &EncounterContext<'_>) -> Vec<Finding> {
    let rules: [fn(&EncounterContext<'_>) -> Option<Finding>; 10] = [
        safety::bite,
        safety::puppy_mouthing,
        safety::growl_at_child,
        safety::second_incident,
        safety::bolted,
        warnings::guarding,
        warnings::growl_gone,
        clips::equipment_failed,
        reactions::two_reactions,
        distress::not_coping,
    ];
    worst_first(rules.iter().filter_map(|rule| rule(context)).collect())
}

/// What the rules find in a plan before it is published, the worst first.
pub fn evaluate_plan(context: &PlanContext<'_>) -> Vec<Finding> {
    let in_each: [fn(&PlanContext<'_>) -> Vec<Finding>; 15] = [
        equipment::planned_long_line_on_collar,
        clips::clip_not_used_planned,
        clips::retractable_planned,
        clips::chase_planned,
        clips::line_too_long,
        roads::road_planned,
        roads::off_lead_planned,
        day_load::long_for_age_planned,
        impact::impact_planned,
        warnings::bite_near_target,
        progression::two_raised,
        progression::rung_jumped,
        progression::marker_amid_distractions,
        progression::weak_reinforcer,
        progression::asked_again,
    ];
    let mut findings: Vec<Finding> = in_each.iter().flat_map(|rule| rule(context)).collect();
    findings.extend(children::child_within_reach(context));
    findings.extend(cool_down::arousing_last(context));
    findings.extend(rhythm::plan_too_large(context));
    findings.extend(food::no_reinforcer(context));
    findings.extend(food_words::harmful_food_planned(context));
    findings.extend(food_words::allergen_planned(context));
    findings.extend(workload::no_length(context));
    findings.extend(progress::no_place(context));
    worst_first(findings)
}

fn worst_first(mut findings: Vec<Finding>) -> Vec<Finding> {
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.rule.gravity(finding.severity)));
    findings
}

#[cfg(test)]
mod tests;
