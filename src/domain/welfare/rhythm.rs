//! Rhythm: silence, and how much is asked.

use time::Date;

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::{HouseNumbers, PlanContext};
use crate::domain::dates::days_between;
use crate::domain::vocabulary::{Phase, Severity};

const QUIET_DAYS: Parameter = Parameter {
    key: "quiet_days",
    name: "Days without a log",
    value: 7.0,
    low: 5.0,
    high: 21.0,
    unit: "days",
};
const INTERVALS: Parameter = Parameter {
    key: "quiet_intervals",
    name: "Planned intervals without a log",
    value: 2.0,
    low: 1.5,
    high: 4.0,
    unit: "intervals",
};
const TROUBLE_DAYS: Parameter = Parameter {
    key: "trouble_days",
    name: "Days before the silence in which trouble counts",
    value: 7.0,
    low: 3.0,
    high: 30.0,
    unit: "days",
};
const INSTRUCTIONS: Parameter = Parameter {
    key: "instructions",
    name: "Instructions in a plan",
    value: 5.0,
    low: 3.0,
    high: 8.0,
    unit: "instructions",
};

/// Nothing has been logged for a while.
pub static GONE_QUIET: Rule = Rule {
    id: "gone_quiet",
    version: 1,
    group: Group::Rhythm,
    looks_at: LooksAt::Silence,
    title: "Gone quiet",
    owner_title: "No need to catch up",
    raises: "No log for 7 days or twice the planned interval, whichever is longer, counted at the earliest from the day \
             on which the plan was published or the dog came back to it: notice. Caution after a bite, a bolt, a \
             stop or “I am not coping” that came in the week before or since. Silent while paused, maintaining, \
             graduated or on holiday.",
    why: "Silence may mean a good week, or that the plan is too much, or that something happened. After trouble it \
          usually needs a call.",
    trainer_do: "Ask how they are before asking about practice. Offer less: one exercise, one time. After trouble, ring.",
    owner_do: "Start again with one small thing today, or tell your trainer that the plan does not fit this week.",
    owner_why: "Weeks like this happen. A small start is worth more than catching up.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[QUIET_DAYS, INTERVALS, TROUBLE_DAYS],
};

/// A plan asks for more than five things.
pub static PLAN_TOO_LARGE: Rule = Rule {
    id: "plan_too_large",
    version: 1,
    group: Group::Rhythm,
    looks_at: LooksAt::Plan,
    title: "More than five instructions",
    owner_title: "Start with three things",
    raises: "More than five instructions in a plan, standing arrangements among them: notice.",
    why: "Fewer dogs improved when their owners were given more than five instructions.",
    trainer_do: "Keep what holds everyone safe and the three exercises that matter most; save the rest for the next plan.",
    owner_do: "Do the first three, and leave the rest until there is time.",
    owner_why: "A few things done well help more than many done in a rush.",
    source: "Takeuchi, Houpt & Scarlett 2000, JAVMA 217(3):342–345 (52 dogs).",
    certainty: Certainty::Verified,
    parameters: &[INSTRUCTIONS],
};

/// What the rule on silence reads.
#[derive(Debug, Clone, PartialEq)]
pub struct SilenceFacts {
    /// What the dog is called.
    pub dog_name: String,
    /// Where it stands in its work.
    pub phase: Phase,
    /// A life event such as a holiday covers today.
    pub on_holiday: bool,
    /// The day of the last sitting.
    pub last_log_on: Option<Date>,
    /// The day on which the current plan was published, or the dog came back to it, whichever is later.
    pub plan_since: Option<Date>,
    /// Sittings that the plan asks for in a week.
    pub planned_times_a_week: Option<i16>,
    /// The day of the last bite, bolt, stop or "I am not coping".
    pub last_trouble_on: Option<Date>,
}

/// A silence that is long enough to matter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Quiet {
    /// The last day on which something was heard, the plan was published or the dog came back to it.
    pub since: Date,
    /// Days since then.
    pub days: i64,
    /// Days from which silence counts for this plan.
    pub from_days: i64,
    /// Whether trouble came in the week before the silence, or since.
    pub after_trouble: bool,
}

/// Whether a dog has gone quiet.
pub fn quiet(facts: &SilenceFacts, today: Date, numbers: &HouseNumbers) -> Option<Quiet> {
    let may_be_silent = matches!(facts.phase, Phase::Paused | Phase::Maintaining | Phase::Graduated);
    if may_be_silent || facts.on_holiday {
        return None;
    }
    let since = facts.last_log_on.max(facts.plan_since)?;
    let planned = facts.planned_times_a_week.filter(|times| *times > 0);
    let intervals = planned.map_or(0.0, |times| numbers.of(&INTERVALS) * 7.0 / f64::from(times));
    let from_days = numbers.of(&QUIET_DAYS).max(intervals).ceil() as i64;
    let days = days_between(since, today);
    let near = |trouble: Date| days_between(trouble, since) as f64 <= numbers.of(&TROUBLE_DAYS);
    let after_trouble = facts.last_trouble_on.is_some_and(near);
    (days >= from_days).then_some(Quiet { since, days, from_days, after_trouble })
}

/// The finding on silence; derived when read, never kept.
pub fn silence(facts: &SilenceFacts, today: Date, numbers: &HouseNumbers) -> Option<Finding> {
    let Quiet { since, days, from_days, after_trouble } = quiet(facts, today, numbers)?;
    let name = &facts.dog_name;
    let day = format!("{} {}", since.day(), since.month());
    let (severity, tail) =
        if after_trouble { (Severity::Caution, ", after trouble") } else { (Severity::Notice, "") };
    Some(
        Finding::new(
            &GONE_QUIET,
            severity,
            format!("Nothing logged for {name} for {days} days, since {day}{tail}."),
            format!("We have not heard from you about {name} since {day}."),
        )
        .fact("Days", days)
        .fact("Counts from, days", from_days)
        .fact_if("Trouble on", facts.last_trouble_on.filter(|_| after_trouble)),
    )
}

pub(super) fn plan_too_large(context: &PlanContext<'_>) -> Option<Finding> {
    let count = context.plan.items.len();
    (count as f64 > context.numbers.of(&INSTRUCTIONS)).then(|| {
        Finding::new(
            &PLAN_TOO_LARGE,
            Severity::Notice,
            format!("The plan has {count} instructions."),
            format!("There are {count} things in this plan."),
        )
        .fact("Instructions", count)
    })
}
