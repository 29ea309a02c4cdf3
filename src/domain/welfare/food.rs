//! Food: a marker is a promise.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::in_plan::left_open;
use super::{LogContext, PlanContext};
use crate::domain::vocabulary::Severity;

const ALLOWED: Parameter = Parameter {
    key: "unpaid_count",
    name: "Unpaid pieces let pass",
    value: 1.0,
    low: 0.0,
    high: 3.0,
    unit: "at least",
};
const ALLOWED_SHARE: Parameter = Parameter {
    key: "unpaid_percent",
    name: "Share unpaid let pass",
    value: 10.0,
    low: 0.0,
    high: 20.0,
    unit: "% of those met",
};

/// Some markers were not followed by a reward.
pub static MARKER_UNPAID: Rule = Rule {
    id: "marker_unpaid",
    version: 1,
    group: Group::Food,
    looks_at: LooksAt::Log,
    title: "Marker not paid",
    owner_title: "Every “yes” earns a reward",
    raises: "Fewer rewards than attempts that met the criterion, where both were counted: notice. One, or one in ten, may \
             be a miscount and is let pass. Caution when fewer than half were paid.",
    why: "A marker that is not followed by its reinforcer loses its meaning, and the behaviour thins out with it.",
    trainer_do: "Ask how it was counted. Show the rhythm again: mark, then hand to pouch, every time. If food ran out, \
                 plan fewer tries or smaller pieces.",
    owner_do: "Put out as many pieces as tries, and give one after every “yes”, even when the “yes” slipped out by \
               mistake.",
    owner_why: "The “yes” tells your dog that something good is coming. It keeps its power only if that is always true.",
    source: "Common practice. In classes watched by Browne et al. (Waikato), 31 % of correct answers earned nothing.",
    certainty: Certainty::CommonPractice,
    parameters: &[ALLOWED, ALLOWED_SHARE],
};

/// An exercise without a reinforcer.
pub static NO_REINFORCER: Rule = Rule {
    id: "no_reinforcer",
    version: 1,
    group: Group::Food,
    looks_at: LooksAt::Plan,
    title: "No reinforcer planned",
    owner_title: "Choose the reward beforehand",
    raises: "An exercise in a plan that does not say what is paid with: notice.",
    why: "An owner who has to guess takes what is at hand, and that is often too weak for the place.",
    trainer_do: "Choose one of this dog's reinforcers that is worth more than the place distracts, or add one to the \
                 profile first.",
    owner_do: "Take something your dog really likes, in small pieces, and have it in the pouch before you begin.",
    owner_why: "What is worth working for at home may be worth little outdoors.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

pub(super) fn no_reinforcer(context: &PlanContext<'_>) -> Option<Finding> {
    left_open(context.plan, &NO_REINFORCER, |item| item.reinforcer.is_none(), "what is paid with")
}

pub(super) fn marker_unpaid(context: &LogContext<'_>) -> Option<Finding> {
    let (met, paid) = context.sitting.met.zip(context.sitting.rewarded)?;
    let allowed = context.numbers.of(&ALLOWED).max(context.numbers.share(&ALLOWED_SHARE) * f64::from(met));
    let unpaid = met.saturating_sub(paid);
    if f64::from(unpaid) <= allowed {
        return None;
    }
    let severity = if 2 * i32::from(paid) < i32::from(met) { Severity::Caution } else { Severity::Notice };
    Some(
        Finding::new(
            &MARKER_UNPAID,
            severity,
            format!("{met} attempts met the criterion and {paid} were paid: {unpaid} without a reward."),
            format!("{met} good ones, and {paid} rewards."),
        )
        .fact("Met", met)
        .fact("Rewarded", paid),
    )
}
