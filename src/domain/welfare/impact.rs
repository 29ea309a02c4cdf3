//! Running, jumping and sudden stops for bodies that should be spared them.

use time::Date;

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::day_load::is_old;
use super::in_plan::in_exercises;
use super::{HouseNumbers, LogContext, PlanContext};
use crate::domain::dates::days_between;
use crate::domain::dog::DogFacts;
use crate::domain::lists::in_a_sentence;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{HealthSign, Severity};

const TIMES: Parameter = Parameter {
    key: "impact_times",
    name: "Running or impact sittings in a week from which it is repeated",
    value: 2.0,
    low: 1.0,
    high: 3.0,
    unit: "sittings",
};
const STIFF_DAYS: Parameter = Parameter {
    key: "stiff_days",
    name: "Days for which a sign of stiffness counts",
    value: 14.0,
    low: 14.0,
    high: 42.0,
    unit: "days",
};

/// Repeated running or impact for a dog that is growing, old, sore or stiff.
pub static IMPACT_FOR_BODY: Rule = Rule {
    id: "impact_for_body",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::PlanAndLog,
    title: "Repeated impact for this body",
    owner_title: "Spare those joints",
    raises: "Running, jumping or sudden stops twice a week or more, for a dog that is stated to be growing (under \
                12 months; 18 where it will weigh over 25 kg), old, with something written about bones and joints, or \
                in a log, with a sign of stiffness in the last 14 days (of the last 30 sittings): caution.",
    why: "Growing joints and sore ones may pay for chase, jumps and hard stops, often days later.",
    trainer_do: "Swap the run for a search on foot, and ask for a vet's word before anything fast.",
    owner_do: "Leave out running after things, jumping and hard stops for now. Searching with the nose tires a dog just as \
               well. Ask your vet what your dog may do.",
    owner_why: "Growing bodies are easily overdone, and older ones mend slowly. Fun now may hurt days later.",
    source: "Common practice. Pain stands behind many behaviour cases: Mills et al. 2020, Animals 10(2):318.",
    certainty: Certainty::CommonPractice,
    parameters: &[TIMES, STIFF_DAYS],
};

/// A sign of pain in movement.
pub(super) fn is_stiff(sitting: &Sitting) -> bool {
    use HealthSign as H;
    sitting.health_signs.iter().any(|sign| matches!(sign, H::Lame | H::Reluctant | H::TouchSore))
}

/// Why this body should be spared, in words; empty where nothing is stated.
fn reasons(dog: &DogFacts, on: Date, is_stiff: bool, numbers: &HouseNumbers) -> Vec<&'static str> {
    let all = [
        (dog.growing(on) == Some(true), "still growing"),
        (is_old(dog, on, numbers) == Some(true), "old"),
        (dog.sore == Some(true), "noted for bones or joints"),
        (is_stiff, "stiff or sore lately"),
    ];
    all.into_iter().filter(|(holds, _)| *holds).map(|(_, words)| words).collect()
}

fn finding(dog: &DogFacts, reasons: &[&str], what: &str, owner_what: &str) -> Option<Finding> {
    let (name, why) = (&dog.name, in_a_sentence(reasons));
    (!reasons.is_empty()).then(|| {
        Finding::new(
            &IMPACT_FOR_BODY,
            Severity::Caution,
            format!("{what}; {name} is {why}."),
            format!("{owner_what}, and {name} is {why}."),
        )
        .fact("Because", why)
    })
}

pub(super) fn impact_for_body(context: &LogContext<'_>) -> Option<Finding> {
    let LogContext { sitting, dog, recent, numbers, .. } = *context;
    if sitting.impact != Some(true) {
        return None;
    }
    let day = sitting.local_date;
    let within = |past: &&Sitting, days: f64| {
        let ago = days_between(past.local_date, day);
        ago >= 0 && (ago as f64) < days
    };
    let all = || std::iter::once(sitting).chain(recent);
    let times = all().filter(|past| past.impact == Some(true) && within(past, 7.0)).count();
    let stiff = all().any(|past| is_stiff(past) && within(&past, numbers.of(&STIFF_DAYS)));
    let reasons = reasons(dog, day, stiff, numbers);
    if times < numbers.count(&TIMES) {
        return None;
    }
    let what = format!("Running, jumping or hard stops {times} times within a week");
    finding(dog, &reasons, &what, &what).map(|found| found.fact("Within a week", times))
}

pub(super) fn impact_planned(context: &PlanContext<'_>) -> Vec<Finding> {
    let PlanContext { dog, today, numbers, .. } = *context;
    let reasons = reasons(dog, today, false, numbers);
    in_exercises(context.plan, |item| {
        let times = item.times_a_week.filter(|_| item.impact == Some(true))?;
        if usize::try_from(times).unwrap_or(0) < numbers.count(&TIMES) {
            return None;
        }
        let title = &item.title;
        let what = format!("“{title}” means running, jumping or hard stops {times} times a week");
        finding(dog, &reasons, &what, &what)
    })
}
