//! A progress report: how the work went over a time.

use super::Section;
use super::facts::{Facts, Raised};
use super::said::{self, day, list, parts};
use crate::domain::dates::counted;
use crate::domain::owner_words::OwnerWord;
use crate::domain::vocabulary::{EncounterKind, FlagState, Severity, Word};

pub(super) fn sections(facts: &Facts) -> Vec<Section> {
    vec![
        Section::new("goal", "What the household hopes for", said::goal(facts)),
        Section::new("practised", "What was practised", practised(facts)),
        Section::new("exercises", "How each exercise went", exercises(facts)),
        Section::new("decided", "What was decided", decided(facts)),
        Section::new("happened", "What happened besides", happened(facts)),
        Section::new("raised", "What was raised and answered", raised(facts)),
        Section::new("next", "What comes next", said::plan(facts)),
        Section::new("else", "What else matters", String::new()),
    ]
}

/// How much was practised.
pub(super) fn practised(facts: &Facts) -> String {
    let all = facts.practised;
    let lessons = match facts.lessons.as_slice() {
        [] => String::new(),
        days => format!(
            "{}: {}.",
            counted(i64::try_from(days.len()).unwrap_or(i64::MAX), "lesson", "lessons"),
            days.iter().copied().map(day).collect::<Vec<_>>().join(", ")
        ),
    };
    if all.sittings == 0 {
        return parts(["Nothing was logged in this time.".to_owned(), lessons]);
    }
    let total = format!(
        "{} on {}, {} in all.",
        counted(all.sittings, "sitting", "sittings"),
        counted(all.days, "day", "days"),
        counted(all.minutes, "minute", "minutes")
    );
    let open = match all.without_minutes {
        0 => String::new(),
        n => format!("How long it took is not stated for {}.", counted(n, "sitting", "sittings")),
    };
    let seen = match all.trainer_seen {
        0 => "No sitting was seen by a trainer.".to_owned(),
        n => format!("Seen by a trainer: {}.", counted(n, "sitting", "sittings")),
    };
    parts([total, open, seen, lessons])
}

pub(super) fn exercises(facts: &Facts) -> String {
    match facts.lines.is_empty() {
        true => "No exercise was on a plan in this time.".to_owned(),
        false => list(facts.lines.iter().map(said::line)),
    }
}

fn decided(facts: &Facts) -> String {
    if facts.decided.is_empty() {
        return "No decision about a step in this time.".to_owned();
    }
    list(facts.decided.iter().map(|d| {
        format!("{}: {}, {} ({}).", day(d.on), d.exercise, d.choice.for_owner().to_lowercase(), d.by)
    }))
}

fn happened(facts: &Facts) -> String {
    let mut counts: Vec<String> = Vec::new();
    for kind in EncounterKind::ALL {
        let n = facts.met.iter().filter(|met| met.kind == *kind).count();
        if n > 0 {
            counts.push(format!("{}: {n}", kind.label()));
        }
    }
    let met = match facts.met.is_empty() {
        true => "Nothing was told beside the sittings.".to_owned(),
        false => format!("{}.\n{}", counts.join(". "), list(facts.met.iter().map(said::met))),
    };
    let seen = match facts.seen.is_empty() {
        true => String::new(),
        false => format!("In sittings:\n{}", list(facts.seen.iter().map(said::seen))),
    };
    parts([met, seen])
}

fn raised(facts: &Facts) -> String {
    let here: Vec<&Raised> =
        facts.raised.iter().filter(|r| r.in_period && r.state != FlagState::Withdrawn).collect();
    if here.is_empty() {
        return "Nothing was raised in this time.".to_owned();
    }
    let mut counts = Vec::new();
    for severity in Severity::ALL.iter().rev() {
        let n = here.iter().filter(|r| r.severity == *severity).count();
        if n > 0 {
            counts.push(format!("{}: {n}", severity.for_owner()));
        }
    }
    let answered = here.iter().filter(|r| r.state == FlagState::Answered).count();
    let line = |r: &&Raised| {
        let said = format!("{}: {}. {}.", day(r.on), r.title.trim_end_matches('.'), r.severity.for_owner());
        match (r.state, r.answer.trim()) {
            (FlagState::Answered, "") => format!("{said} Answered."),
            (FlagState::Answered, answer) => {
                format!("{said} Answered: {}", said::quoted(&said::one_line(answer)))
            }
            _ => format!("{said} Not answered yet."),
        }
    };
    format!("{}. Answered: {answered} of {}.\n{}", counts.join(". "), here.len(), list(here.iter().map(line)))
}
