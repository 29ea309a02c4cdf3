//! Cool-down: how a dog comes down after exciting or running work.

use super::catalogue::{Certainty, Finding, Group, LooksAt, Parameter, Rule};
use super::{HouseNumbers, LogContext, PlanContext};
use crate::domain::plan::PlannedItem;
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Finish, ItemKind, Recovery, Severity};

pub(super) const PATTERN: Parameter = Parameter {
    key: "pattern_times",
    name: "Sittings that show it",
    value: 3.0,
    low: 2.0,
    high: 5.0,
    unit: "of the window",
};
pub(super) const WINDOW: Parameter = Parameter {
    key: "pattern_window",
    name: "Last sittings looked at",
    value: 5.0,
    low: 3.0,
    high: 10.0,
    unit: "sittings",
};
/// Arousal at the end that counts as high by itself. Common practice.
pub const HIGH_AROUSAL: Parameter = Parameter {
    key: "high_arousal",
    name: "Arousal that counts as high",
    value: 4.0,
    low: 3.0,
    high: 5.0,
    unit: "on 1–5",
};
const RISE: Parameter = Parameter {
    key: "arousal_rise",
    name: "Rise that counts as high",
    value: 2.0,
    low: 1.0,
    high: 3.0,
    unit: "points",
};

/// How often a pattern must show: never more often than sittings are looked at, so that no two numbers together silence a rule.
pub(super) fn pattern_times(numbers: &HouseNumbers) -> usize {
    numbers.count(&PATTERN).min(numbers.count(&WINDOW))
}

/// No cool-down, or too short a one, after exciting or running work.
pub static COOL_DOWN_MISSING: Rule = Rule {
    id: "cool_down_missing",
    version: 1,
    group: Group::CoolDown,
    looks_at: LooksAt::Trend,
    title: "No cool-down after arousing work",
    owner_title: "Finish with a calm walk or a chew",
    raises: "After arousing or running work, a stated cool-down of none, or shorter than planned: notice. Caution at 3 \
             of the last 5 arousing sittings, or once with more than 15 minutes to recover. Silent after calm work and \
             where nothing was stated.",
    why: "A dog that goes home wound up stays wound up: the next thing it meets gets the rest of it.",
    trainer_do: "Plan the cool-down as the last part of the exercise: a slow sniffing walk, a chew, or settling, with \
                 its minutes. Shorten the work before it if time is short.",
    owner_do: "Next time, stop a few minutes sooner and finish calmly: a slow sniffing walk, then something to chew.",
    owner_why: "Exciting work leaves a dog buzzing. A calm ending helps body and head come down before the next thing \
                happens.",
    source: "Common practice. What a dog does right after learning matters: Affenzeller, Palme & Zulch 2017, Physiol \
             Behav 168:62–73; Kis et al. 2017, Sci Rep 7:41873 (neither tests a cool-down itself).",
    certainty: Certainty::CommonPractice,
    parameters: &[PATTERN, WINDOW],
};

/// The dog was still wound up at the end.
pub static STILL_HIGH: Rule = Rule {
    id: "still_high",
    version: 1,
    group: Group::CoolDown,
    looks_at: LooksAt::Trend,
    title: "Still high at the end",
    owner_title: "Still wound up at the end",
    raises: "Arousal of 4 or 5 at the end, two points above the start, or not yet recovered when logged: notice. \
             Caution at 5, or in 3 of the last 5 sittings.",
    why: "A dog that ends above where it began was asked for more than it could carry; it learns little and reacts sooner.",
    trainer_do: "Make the next sitting shorter and further from what excites, put calm work last, and look at the \
                 arousal before as well as after.",
    owner_do: "Give a quiet hour now: something to chew, water, no visitors, no ball. Next time, stop while it still goes \
               well.",
    owner_why: "A dog that is still buzzing cannot take much in, and small things set it off more easily until it has \
                rested.",
    source: "Common practice. More excitement helped calm dogs and hurt excitable ones: Bray, MacLean & Hare 2015, Anim \
             Cogn 18:1317–1329.",
    certainty: Certainty::CommonPractice,
    parameters: &[HIGH_AROUSAL, RISE, PATTERN, WINDOW],
};

/// A plan ends with exciting work and no way down.
pub static AROUSING_LAST: Rule = Rule {
    id: "arousing_last",
    version: 1,
    group: Group::CoolDown,
    looks_at: LooksAt::Plan,
    title: "The plan ends on arousing work",
    owner_title: "Finish with something calm",
    raises: "The last exercise is arousing or running, nothing calm follows it, and it has no cool-down: caution.",
    why: "Owners work from top to bottom; a plan that ends high sends the dog home high.",
    trainer_do: "Move a calm exercise to the end, or give this one a cool-down.",
    owner_do: "Finish with a slow sniffing walk or a chew.",
    owner_why: "A calm ending helps body and head come down.",
    source: "Common practice.",
    certainty: Certainty::CommonPractice,
    parameters: &[],
};

/// How a stated cool-down falls short, in words for both readers; `None` when it does not or nothing was stated.
fn shortfall(sitting: &Sitting) -> Option<(String, String)> {
    if !sitting.is_arousing() {
        return None;
    }
    let planned = sitting.planned.cool_down_minutes.unwrap_or(0);
    let calm_finish = sitting.finish.is_some_and(|finish| finish != Finish::StraightHome);
    match sitting.cool_down_minutes {
        Some(minutes) if minutes > 0 && minutes >= planned => None,
        Some(minutes) if minutes > 0 => Some((
            format!("Cool-down of {minutes} minutes where {planned} were planned"),
            format!("The calm ending took {minutes} minutes instead of {planned}"),
        )),
        Some(_) if calm_finish && planned == 0 => None,
        None if sitting.finish != Some(Finish::StraightHome) => None,
        Some(_) | None => Some(("No cool-down".to_owned(), "There was no calm ending".to_owned())),
    }
}

pub(super) fn cool_down_missing(context: &LogContext<'_>) -> Option<Finding> {
    let numbers = context.numbers;
    let (short, owner_short) = shortfall(context.sitting)?;
    let arousing = std::iter::once(context.sitting).chain(context.recent).filter(|past| past.is_arousing());
    let window: Vec<_> = arousing.take(numbers.count(&WINDOW)).collect();
    let times = window.iter().filter(|past| shortfall(past).is_some()).count();
    let slow = context.sitting.recovery == Some(Recovery::Longer);
    let pattern = times >= pattern_times(numbers);
    let severity = if slow || pattern { Severity::Caution } else { Severity::Notice };
    let name = &context.dog.name;
    let tail = match (pattern, slow) {
        (true, _) => format!(", {times} times in the last {} arousing sittings", window.len()),
        (false, true) => ", and more than 15 minutes to recover".to_owned(),
        (false, false) => String::new(),
    };
    let owner_tail = match (pattern, slow) {
        (true, _) => format!(", {times} times of the last {}", window.len()),
        (false, true) => format!(", and it took {name} more than 15 minutes to settle"),
        (false, false) => String::new(),
    };
    Some(
        Finding::new(
            &COOL_DOWN_MISSING,
            severity,
            format!("{short} after arousing work{tail}."),
            format!("{owner_short} after the exciting part{owner_tail}."),
        )
        .fact_if("Finish", context.sitting.finish)
        .fact_if("Cool-down, minutes", context.sitting.cool_down_minutes)
        .fact_if("Planned, minutes", context.sitting.planned.cool_down_minutes)
        .fact_if("Recovery", context.sitting.recovery)
        .fact("Without, of the last arousing", format!("{times} of {}", window.len())),
    )
}

/// Whether the arousal at the end counts as high, by itself or against the start.
fn high_arousal(sitting: &Sitting, numbers: &HouseNumbers) -> bool {
    let at_least = |value: i16, parameter: &Parameter| f64::from(value) >= numbers.of(parameter);
    let rise =
        sitting.arousal_end.zip(sitting.arousal_before).map(|(end, before)| end.saturating_sub(before));
    sitting.arousal_end.is_some_and(|end| at_least(end, &HIGH_AROUSAL))
        || rise.is_some_and(|rise| at_least(rise, &RISE))
}

fn is_high(sitting: &Sitting, numbers: &HouseNumbers) -> bool {
    high_arousal(sitting, numbers) || sitting.recovery == Some(Recovery::NotYet)
}

pub(super) fn still_high(context: &LogContext<'_>) -> Option<Finding> {
    let (sitting, numbers) = (context.sitting, context.numbers);
    if !is_high(sitting, numbers) {
        return None;
    }
    let before = context.recent.iter().take(numbers.count(&WINDOW).saturating_sub(1));
    let earlier = before.filter(|past| is_high(past, numbers)).count();
    let often = earlier + 1 >= pattern_times(numbers);
    let severity = if often || sitting.arousal_end.is_some_and(|end| end >= 5) {
        Severity::Caution
    } else {
        Severity::Notice
    };
    let name = &context.dog.name;
    let arousal = high_arousal(sitting, numbers);
    let slow = sitting.recovery == Some(Recovery::NotYet);
    let seen = match (sitting.arousal_before, sitting.arousal_end.filter(|_| arousal)) {
        (Some(before), Some(end)) => format!("{name} began at arousal {before} and ended at {end}"),
        (None, Some(end)) => format!("{name} ended at arousal {end}"),
        (_, None) => format!("{name} had not recovered yet when this was logged"),
    };
    let seen = if arousal && slow {
        format!("{seen}, and had not recovered yet when this was logged")
    } else {
        seen
    };
    let tail = if often { format!("; high in {} of the last sittings", earlier + 1) } else { String::new() };
    Some(
        Finding::new(
            &STILL_HIGH,
            severity,
            format!("{seen}{tail}."),
            format!("{name} was still wound up at the end."),
        )
        .fact_if("Arousal before", sitting.arousal_before)
        .fact_if("Arousal at the end", sitting.arousal_end)
        .fact_if("Recovery", sitting.recovery),
    )
}

pub(super) fn arousing_last(context: &PlanContext<'_>) -> Option<Finding> {
    let is_exercise = |(_, item): &(usize, &PlannedItem)| item.kind == ItemKind::Exercise;
    let last = context.plan.items.iter().enumerate().rfind(is_exercise);
    let (index, last) = last.filter(|(_, item)| item.is_arousing() && !item.has_cool_down())?;
    let title = &last.title;
    let finding = Finding::new(
        &AROUSING_LAST,
        Severity::Caution,
        format!("“{title}” is arousing, comes last and has no cool-down."),
        format!("“{title}” is exciting and comes last."),
    );
    Some(Finding { item: Some(index), ..finding })
}
