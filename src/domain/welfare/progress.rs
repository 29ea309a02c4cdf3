//! Progress: work that goes wrong more often than right.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::in_plan::left_open;
use super::{LogContext, PlanContext};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Outcome, Severity};

pub(super) const POOL: Parameter = Parameter {
    key: "attempts_pooled",
    name: "Attempts pooled",
    value: 10.0,
    low: 8.0,
    high: 20.0,
    unit: "attempts",
};
const SHARE: Parameter = Parameter {
    key: "met_percent",
    name: "Share met below which it speaks",
    value: 50.0,
    low: 40.0,
    high: 60.0,
    unit: "%",
};

/// Fewer than half of the last attempts at the step met the criterion.
pub static UNDER_HALF_MET: Rule = Rule {
    id: "under_half_met",
    version: 1,
    group: Group::Failure,
    looks_at: LooksAt::Trend,
    title: "Under half met",
    owner_title: "A little too hard just now",
    raises: "Of the last 10 attempts at the step, pooled over sittings taken whole, fewer than half met the criterion: \
             notice. Caution when it holds over the last 20 as well. Counted skills only.",
    why: "Below about half, a dog practises getting it wrong, pay runs thin and both ends lose heart.",
    trainer_do: "Make it easier: lower one of distance, duration or distraction, or go back a step. Check the reinforcer \
                 against the place.",
    owner_do: "Make it easier next time: nearer, shorter, or somewhere quieter. Stop after a good one.",
    owner_why: "Dogs learn from what works. When it works most of the time, it is worth trying for.",
    source: "Common practice (below about 50–60 % make it easier). Stepping up only at 80 % right: Meyer & Ladewig 2008, \
             Appl Anim Behav Sci 111:311–320.",
    certainty: Certainty::SecondHand,
    parameters: &[POOL, SHARE],
};

/// An exercise without a place.
pub static NO_PLACE: Rule = Rule {
    id: "no_place",
    version: 1,
    group: Group::Progress,
    looks_at: LooksAt::Plan,
    title: "No place planned",
    owner_title: "Begin where it is quiet",
    raises: "An exercise in a plan that does not say where it is practised: notice.",
    why: "How hard a step is depends on the place. Without one, counts from a kitchen and from a car park are read as \
          the same, and nobody has looked for a road nearby.",
    trainer_do: "Choose a place of this dog's whose distractions fit the step, or add one to the profile first.",
    owner_do: "Begin somewhere quiet that you know well, at home or in a fenced garden.",
    owner_why: "The same thing is much harder where more is going on.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

pub(super) fn no_place(context: &PlanContext<'_>) -> Option<Finding> {
    left_open(context.plan, &NO_PLACE, |item| item.place.is_none(), "where it is practised")
}

/// Attempts and met of the newest sittings, taken whole until there are enough attempts.
pub(super) fn pooled<'a>(sittings: impl Iterator<Item = &'a Sitting>, enough: i32) -> Option<(i32, i32)> {
    let (mut attempts, mut met) = (0, 0);
    for (tried, good) in sittings.filter_map(Sitting::counted) {
        attempts += i32::from(tried);
        met += i32::from(good);
        if attempts >= enough {
            return Some((attempts, met));
        }
    }
    None
}

pub(super) fn under_half_met(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let line = sitting.plan_line?;
    sitting.counted()?;
    if sitting.outcome.is_some_and(|outcome| outcome != Outcome::Count) {
        return None;
    }
    let same_step = |past: &&Sitting| past.plan_line == Some(line) && past.step == sitting.step;
    let (pool, share) = (context.numbers.count(&POOL) as i32, context.numbers.share(&SHARE));
    let under = |enough: i32| {
        let stream = std::iter::once(sitting).chain(context.recent.iter().filter(same_step));
        pooled(stream, enough).filter(|(attempts, met)| f64::from(*met) < share * f64::from(*attempts))
    };
    let (attempts, met) = under(pool)?;
    let severity = if under(2 * pool).is_some() { Severity::Caution } else { Severity::Notice };
    Some(
        Finding::new(
            &UNDER_HALF_MET,
            severity,
            format!("{met} of the last {attempts} attempts at this step met the criterion."),
            format!("{met} of the last {attempts} tries earned the reward."),
        )
        .fact("Met", format!("{met} of {attempts}")),
    )
}
