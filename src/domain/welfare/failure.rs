//! Work that stops working: misses that must have come one after another, and decline after success.

use super::LogContext;
use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::progress::{POOL, pooled, under_half_met};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Outcome, Severity};

const ROW: Parameter = Parameter {
    key: "misses_running",
    name: "Misses one after another after which to make it easier",
    value: 3.0,
    low: 2.0,
    high: 3.0,
    unit: "misses",
};
const WAS_SURE: Parameter = Parameter {
    key: "was_sure_percent",
    name: "Share met that counts as success before",
    value: 80.0,
    low: 70.0,
    high: 90.0,
    unit: "%",
};
const DECLINED: Parameter = Parameter {
    key: "declined_percent",
    name: "Share met that counts as decline after it",
    value: 60.0,
    low: 50.0,
    high: 70.0,
    unit: "%",
};

/// Three misses ran one after another, and it went on.
pub static MISSES_RUNNING: Rule = Rule {
    id: "misses_running",
    version: 1,
    group: Group::Failure,
    looks_at: LooksAt::Log,
    title: "Three misses running",
    owner_title: "Make it easier after two that did not work",
    raises: "So few of the attempts met the criterion that at least three misses must have come one after another, in \
             whatever order: notice. Counted skills only; silent where the rule on half met speaks.",
    why: "After two misses the third is likelier. What is repeated is learnt, and both ends lose heart.",
    trainer_do: "Agree on a rule of two: after two misses, one thing is made easier at once. Show how.",
    owner_do: "When two tries in a row do not work, make it easier at once: nearer, shorter, or quieter. Finish on an easy \
               one.",
    owner_why: "A quick win keeps both of you in the game. There is nothing to prove.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[ROW],
};

/// A step that was sure is not any more.
pub static DECLINE: Rule = Rule {
    id: "decline",
    version: 1,
    group: Group::Failure,
    looks_at: LooksAt::Trend,
    title: "Decline after success",
    owner_title: "It went better before",
    raises: "At one step, under 60 % of the last 10 attempts met the criterion where at least 80 % of the 10 before did, \
             sittings taken whole: notice.",
    why: "What a dog could do last week and cannot do now has a reason: pain, tiredness, a harder place, or weaker pay.",
    trainer_do: "Ask what changed at home and in the dog. Think of pain first: if nothing else explains it, ask for a vet's \
                 look. Go back to the last easy version.",
    owner_do: "Go back to an easier version for a few days. If your dog also seems stiff, tired or off food, let your vet \
               have a look.",
    owner_why: "Good days and bad days are normal. When something easy becomes hard, the dog is telling us something.",
    source: "Common practice. Pain stands behind many sudden changes: Mills et al. 2020, Animals 10(2):318.",
    certainty: Certainty::CommonPractice,
    parameters: &[POOL, WAS_SURE, DECLINED],
};

pub(super) fn misses_running(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let (attempts, met) = sitting.counted()?;
    let (attempts, met) = (i32::from(attempts), i32::from(met));
    let is_skill = sitting.outcome.is_none_or(|outcome| outcome == Outcome::Count);
    // m met leave m + 1 gaps; more than (row - 1) misses a gap must put a whole row into one of them
    let row = context.numbers.count(&ROW) as i32;
    let must = attempts - met > (row - 1) * (met + 1);
    if !is_skill || !must || under_half_met(context).is_some() {
        return None;
    }
    Some(
        Finding::new(
            &MISSES_RUNNING,
            Severity::Notice,
            format!("{met} of {attempts} attempts met the criterion: at least {row} misses came one after another."),
            format!("{met} of {attempts} tries worked, so several in a row did not."),
        )
        .fact("Met", format!("{met} of {attempts}")),
    )
}

pub(super) fn decline(context: &LogContext<'_>) -> Option<Finding> {
    let LogContext { sitting, recent, numbers, .. } = *context;
    let line = sitting.plan_line?;
    sitting.counted()?;
    if sitting.outcome.is_some_and(|outcome| outcome != Outcome::Count) {
        return None;
    }
    let pool = numbers.count(&POOL) as i32;
    let same_step = |past: &&Sitting| past.plan_line == Some(line) && past.step == sitting.step;
    let mut stream = std::iter::once(sitting).chain(recent.iter().filter(same_step));
    let (attempts, met) = pooled(stream.by_ref(), pool)?;
    let (before, met_before) = pooled(stream, pool)?;
    let share = |met: i32, attempts: i32| f64::from(met) / f64::from(attempts);
    let was_sure = share(met_before, before) >= numbers.share(&WAS_SURE);
    (was_sure && share(met, attempts) < numbers.share(&DECLINED)).then(|| {
        Finding::new(
            &DECLINE,
            Severity::Notice,
            format!(
                "{met} of the last {attempts} attempts at this step met the criterion, after {met_before} of the {before} before."
            ),
            format!("{met} of the last {attempts} tries worked; before that it was {met_before} of {before}."),
        )
        .fact("Met lately", format!("{met} of {attempts}"))
        .fact("Met before", format!("{met_before} of {before}"))
    })
}
