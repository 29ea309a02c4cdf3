//! Workload: how long a sitting lasted.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::in_plan::left_open;
use super::{LogContext, PlanContext};
use crate::domain::vocabulary::Severity;

const FACTOR: Parameter = Parameter {
    key: "longer_factor",
    name: "Times the planned minutes",
    value: 1.5,
    low: 1.2,
    high: 2.0,
    unit: "×",
};
const MORE: Parameter = Parameter {
    key: "longer_minutes",
    name: "Minutes more than planned",
    value: 5.0,
    low: 3.0,
    high: 10.0,
    unit: "minutes",
};

/// A sitting lasted far longer than planned.
pub static LONGER_THAN_PLANNED: Rule = Rule {
    id: "longer_than_planned",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::Log,
    title: "Far longer than planned",
    owner_title: "Shorter is better",
    raises: "Over 1.5 times the planned minutes and at least 5 minutes more: notice. Caution after arousing or running \
             work.",
    why: "Long sittings wear a dog out and end on its worst tries.",
    trainer_do: "Ask what made it long: keenness, a struggle, or a plan that cannot be done in the time. Set a number of \
                 tries instead of minutes.",
    owner_do: "Next time, set a timer or put out only the planned pieces, and stop while it still goes well.",
    owner_why: "Dogs learn more from short sittings with rest between them than from one long one.",
    source: "Common practice. Dogs trained once or twice a week, in single sittings, needed fewer of them: Demant et al. \
             2011, Appl Anim Behav Sci 133:228–234 (spacing of lessons; tests neither age nor excitement).",
    certainty: Certainty::CommonPractice,
    parameters: &[FACTOR, MORE],
};

const UNBROKEN: Parameter = Parameter {
    key: "unbroken_minutes",
    name: "Minutes of exciting work without a break",
    value: 5.0,
    low: 3.0,
    high: 10.0,
    unit: "minutes",
};

/// Exciting work without a break.
pub static NO_BREAK: Rule = Rule {
    id: "no_break",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::Log,
    title: "No break in between",
    owner_title: "A break in the middle",
    raises: "Arousing or running work of more than 5 minutes in which, as stated, there was no break: notice.",
    why: "Arousal climbs from try to try, and the last tries are the worst ones.",
    trainer_do: "Split the sitting in the plan: a few tries, a minute of sniffing, a few more.",
    owner_do: "Next time, stop in the middle for a minute: let your dog sniff about, then go on.",
    owner_why: "A short break lets the excitement come down before it gets too much.",
    source: "Common practice: several short blocks of two to five minutes with breaks. No experiment was found.",
    certainty: Certainty::CommonPractice,
    parameters: &[UNBROKEN],
};

pub(super) fn no_break(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let minutes = sitting.minutes.filter(|minutes| f64::from(*minutes) > context.numbers.of(&UNBROKEN))?;
    (sitting.had_break == Some(false) && sitting.is_arousing()).then(|| {
        Finding::new(
            &NO_BREAK,
            Severity::Notice,
            format!("{minutes} minutes of arousing or running work without a break."),
            format!("{minutes} exciting minutes without a break."),
        )
        .fact("Minutes", minutes)
    })
}

/// An exercise without minutes.
pub static NO_LENGTH: Rule = Rule {
    id: "no_length",
    version: 1,
    group: Group::Workload,
    looks_at: LooksAt::Plan,
    title: "No length planned",
    owner_title: "Short is enough",
    raises: "An exercise in a plan that does not say how many minutes one sitting takes: notice.",
    why: "Without a length an owner goes on until it goes wrong, and nothing tells afterwards that it was too long.",
    trainer_do: "Say how many minutes one sitting takes at most, cool-down apart. Three good ones are better than ten.",
    owner_do: "Keep it to a few minutes, and stop while it still goes well.",
    owner_why: "Dogs learn more from short sittings with rest between them than from one long one.",
    source: "Common practice. Dogs trained once or twice a week, in single sittings, needed fewer of them: Demant et al. \
             2011, Appl Anim Behav Sci 133:228–234 (spacing of lessons; tests neither age nor excitement).",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

pub(super) fn no_length(context: &PlanContext<'_>) -> Option<Finding> {
    left_open(context.plan, &NO_LENGTH, |item| item.minutes.is_none(), "how long a sitting takes")
}

pub(super) fn longer_than_planned(context: &LogContext<'_>) -> Option<Finding> {
    let sitting = context.sitting;
    let (minutes, planned) = sitting.minutes.zip(sitting.planned.minutes)?;
    let over = f64::from(minutes) > context.numbers.of(&FACTOR) * f64::from(planned);
    if !over || f64::from(minutes) - f64::from(planned) < context.numbers.of(&MORE) {
        return None;
    }
    let severity = if sitting.is_arousing() { Severity::Caution } else { Severity::Notice };
    Some(
        Finding::new(
            &LONGER_THAN_PLANNED,
            severity,
            format!("The sitting took {minutes} minutes; {planned} were planned."),
            format!("It took {minutes} minutes; {planned} are enough."),
        )
        .fact("Minutes", minutes)
        .fact("Planned, minutes", planned),
    )
}
