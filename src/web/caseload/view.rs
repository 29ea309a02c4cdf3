//! What a caseload's row says, and in which group it stands.

use std::collections::HashMap;

use time::{Date, Duration, OffsetDateTime};

use crate::domain::caseload::{DogState, Need, Standing};
use crate::domain::dates::{age_words, ago, counted};
use crate::domain::vocabulary::{Severity, Word};
use crate::domain::welfare::HouseNumbers;
use crate::ids::DogId;
use crate::store::caseload::{CaseloadRow, DayMark};
use crate::web::flags::Duty;
use crate::web::zones;

/// Dogs that need the same kind of attention.
pub struct Group {
    /// Its heading.
    pub heading: &'static str,
    /// Whether they wait for the trainer.
    pub presses: bool,
    /// The dogs, the most pressing first.
    pub rows: Vec<Row>,
}

/// One dog.
pub struct Row {
    /// The dog.
    pub dog: DogId,
    /// Its name.
    pub name: String,
    /// Household, breed, age.
    pub about: String,
    /// The kind of the mark: stop, caution, notice, advice, well.
    pub kind: &'static str,
    /// The need in a word or two.
    pub need: &'static str,
    /// The reason.
    pub reason: String,
    /// What else there is, and since when.
    pub more: String,
    /// Fourteen days, oldest first, as the strip draws them.
    pub strip: Vec<&'static str>,
    /// The same in a sentence.
    pub strip_reading: String,
    /// Sittings this week.
    pub done: i32,
    /// Sittings that the plan asks for in a week.
    pub planned: i32,
    /// What to do: (address, words, whether it is the main thing).
    pub act: (String, &'static str, bool),
}

/// How long a row says that the dog was handed over. House rule.
const HANDED_OVER_IS_NEW: Duration = Duration::days(7);

const GROUPS: [(&str, bool, &[Need]); 5] = [
    ("Before anything else", true, &[Need::NewStop, Need::QuietAfterTrouble, Need::NotCoping]),
    ("Waiting for your word", true, &[Need::Incident, Need::Question, Need::Decision, Need::Caution]),
    ("Worth a look", false, &[Need::AfterTrouble, Need::GoneQuiet, Need::ReviewDue, Need::New]),
    ("Going well", false, &[Need::GoingWell]),
    ("Resting", false, &[Need::Resting]),
];

/// A dog, where it stands, and the day it is where it lives.
pub struct Stands<'a> {
    /// What the caseload reads of it.
    pub row: &'a CaseloadRow,
    /// The same, as its rules want it.
    pub state: DogState,
    /// Where it stands.
    pub standing: Standing,
    today: Date,
}

/// Where every dog stands, the most pressing first.
pub fn standing<'a>(rows: &'a [CaseloadRow], numbers: &HouseNumbers, now: OffsetDateTime) -> Vec<Stands<'a>> {
    let stands = rows.iter().map(|row| {
        let today = zones::local_date(now, &row.zone);
        let state = row.state(|at| zones::local_date(at, &row.zone), today);
        Stands { row, standing: state.standing(today, numbers), state, today }
    });
    let mut stands: Vec<Stands<'a>> = stands.collect();
    stands.sort_by(|a, b| a.standing.rank.cmp(&b.standing.rank));
    stands
}

/// The groups that have dogs in them, in order of need; of one need alone, where one was chosen.
pub fn groups(standing: Vec<Stands<'_>>, chosen: Option<Need>, marks: &[DayMark], duty: &Duty) -> Vec<Group> {
    let mut by_dog: HashMap<DogId, Vec<&DayMark>> = HashMap::new();
    for mark in marks {
        by_dog.entry(mark.dog).or_default().push(mark);
    }
    let groups = GROUPS.iter().map(|(heading, presses, needs)| Group {
        heading,
        presses: *presses,
        rows: standing
            .iter()
            .filter(|stands| needs.contains(&stands.standing.need))
            .filter(|stands| chosen.is_none_or(|need| stands.standing.need == need))
            .map(|stands| row(stands, by_dog.get(&stands.row.dog).map_or(&[], Vec::as_slice), duty))
            .collect(),
    });
    groups.filter(|g| !g.rows.is_empty()).collect()
}

/// "Three dogs need you today".
pub fn heading(groups: &[Group]) -> String {
    const WORDS: [&str; 11] =
        ["No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten"];
    let pressing: usize = groups.iter().filter(|g| g.presses).map(|g| g.rows.len()).sum();
    match pressing {
        0 => "Nobody is waiting for you".to_owned(),
        1 => "One dog needs you today".to_owned(),
        n => {
            format!("{} dogs need you today", WORDS.get(n).map_or_else(|| n.to_string(), |w| (*w).to_owned()))
        }
    }
}

fn row(stands: &Stands<'_>, marks: &[&DayMark], duty: &Duty) -> Row {
    let Stands { row, standing, today, .. } = stands;
    let today = *today;
    let (strip, strip_reading) = strip(marks, today);
    let monday = today - Duration::days(i64::from(today.weekday().number_days_from_monday()));
    let done = marks.iter().filter(|m| m.on >= monday && m.on <= today).map(|m| m.sittings).sum();
    let age = row.born.filter(|born| *born <= today).map(|born| age_words(born, today));
    let kind_and_age: Vec<String> =
        [Some(row.breed.clone()), age].into_iter().flatten().filter(|part| !part.is_empty()).collect();
    let kind_and_age = kind_and_age.join(", ");
    let separator = if kind_and_age.is_empty() { "" } else { " · " };
    Row {
        dog: row.dog,
        name: row.name.clone(),
        about: format!("{} household{separator}{kind_and_age}", row.household),
        kind: kind(standing.need),
        need: standing.need.label(),
        reason: reason(row, standing),
        more: more(row, standing, duty, today),
        strip,
        strip_reading,
        done,
        planned: if standing.need == Need::Resting { 0 } else { row.planned_times_a_week },
        act: act(row, standing.need),
    }
}

fn kind(need: Need) -> &'static str {
    match need {
        Need::NewStop | Need::QuietAfterTrouble => "stop",
        Need::NotCoping | Need::Incident | Need::Caution => "caution",
        Need::Question | Need::Decision | Need::New => "advice",
        Need::AfterTrouble | Need::GoneQuiet | Need::ReviewDue | Need::Resting => "notice",
        Need::GoingWell => "well",
    }
}

/// The reason in the words that tell most: what was seen, what was asked.
fn reason(row: &CaseloadRow, standing: &Standing) -> String {
    let flagged = matches!(standing.need, Need::NewStop | Need::Incident | Need::Caution);
    match &row.top_flag {
        _ if standing.need == Need::NotCoping => {
            let said = standing.reasons.first().map(String::as_str).unwrap_or_default();
            format!("{said}. It waits until you have answered it; a message alone does not settle it.")
        }
        Some((_, seen)) if flagged => seen.clone(),
        _ if standing.need == Need::Question => format!("“{}”", row.last_owner_message),
        _ if standing.need == Need::Decision => row.decision_waits_on.clone(),
        _ if standing.need == Need::New => "Write the first one, and the owner can begin".to_owned(),
        _ => standing.reasons.first().cloned().unwrap_or_default(),
    }
}

fn more(row: &CaseloadRow, standing: &Standing, duty: &Duty, today: Date) -> String {
    let answers =
        row.answer_due.map(|due| duty.for_trainers(due, &row.trainer, (row.trainer_id, &row.zone), today));
    let mut parts: Vec<String> = answers.into_iter().collect();
    parts.extend(row.rests_until_plan.then(|| "Rests until the next plan".to_owned()));
    let lesson = row.lessons_at.iter().map(|at| zones::local(*at, &row.zone)).find(|at| at.date() == today);
    parts.extend(lesson.map(|at| format!("Lesson today at {:02}:{:02}", at.hour(), at.minute())));
    let handed = row.handed_over.as_ref().map(|(at, by)| (zones::local_date(*at, &row.zone), by));
    let handed = handed.filter(|(on, _)| today - *on < HANDED_OVER_IS_NEW);
    parts.extend(handed.map(|(on, by)| format!("Handed over by {by} {}", ago(on, today))));
    parts.extend(standing.reasons.iter().skip(1).cloned());
    parts.push(format!("{}, {}", row.trainer, row.phase.label().to_lowercase()));
    parts.join(" · ")
}

fn act(row: &CaseloadRow, need: Need) -> (String, &'static str, bool) {
    let dog = row.dog;
    let messages = format!("/dogs/{dog}/messages?from=caseload");
    let answer = match row.top_flag_id {
        Some(flag) => format!("/flags/{flag}?from=caseload"),
        None => format!("/dogs/{dog}/welfare"),
    };
    match need {
        Need::NewStop => (answer, "Answer", true),
        Need::NotCoping | Need::Incident | Need::Caution => (answer, "Answer", false),
        Need::QuietAfterTrouble => (messages, "Get in touch", true),
        Need::GoneQuiet => (messages, "Get in touch", false),
        Need::Question => (messages, "Reply", false),
        Need::Decision => match row.decision_item {
            Some(item) => (format!("/dogs/{dog}/decide/{item}"), "Decide", false),
            None => (format!("/dogs/{dog}"), "Open", false),
        },
        Need::New => (format!("/dogs/{dog}/plan/edit"), "Write a plan", false),
        Need::AfterTrouble => (messages, "Ask how it goes", false),
        Need::ReviewDue | Need::GoingWell | Need::Resting => (format!("/dogs/{dog}"), "Open", false),
    }
}

/// The last fourteen days, oldest first, and the same in a sentence.
pub fn strip(marks: &[&DayMark], today: Date) -> (Vec<&'static str>, String) {
    let (mut practised, mut watched, mut stopped) = (0, 0, 0);
    let days = (0..14).rev().map(|back| today - Duration::days(back));
    let strip = days
        .map(|day| {
            let Some(mark) = marks.iter().find(|m| m.on == day) else { return "rest" };
            practised += i64::from(mark.sittings > 0);
            match mark.severity {
                Some(Severity::Stop) => {
                    stopped += 1;
                    "stop"
                }
                Some(Severity::Caution | Severity::Notice) => {
                    watched += 1;
                    "watch"
                }
                None if mark.sittings > 1 => "more",
                None if mark.sittings == 1 => "done",
                None => "rest",
            }
        })
        .collect();
    let mut reading = format!("Last 14 days: practised on {}", counted(practised, "day", "days"));
    if watched > 0 {
        reading.push_str(&format!(", something to watch on {watched}"));
    }
    if stopped > 0 {
        reading.push_str(&format!(", a stop on {stopped}"));
    }
    (strip, reading)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn mark(on: Date, sittings: i32, severity: Option<Severity>) -> DayMark {
        DayMark { dog: DogId(uuid::Uuid::nil()), on, sittings, severity }
    }

    #[test]
    fn the_strip_ends_today_and_says_the_same_in_words() {
        let today = date!(2026 - 03 - 14);
        let marks = [
            mark(today, 1, None),
            mark(today - Duration::days(1), 2, None),
            mark(today - Duration::days(2), 1, Some(Severity::Caution)),
            mark(today - Duration::days(13), 0, Some(Severity::Stop)),
            mark(today - Duration::days(14), 1, None),
        ];
        let (strip, reading) = strip(&marks.iter().collect::<Vec<_>>(), today);
        assert_eq!(strip.len(), 14);
        assert_eq!((strip[13], strip[12], strip[11], strip[0]), ("done", "more", "watch", "stop"));
        assert_eq!(reading, "Last 14 days: practised on 3 days, something to watch on 1, a stop on 1");
    }

    #[test]
    fn every_need_stands_in_exactly_one_group() {
        for need in Need::ALL {
            assert_eq!(GROUPS.iter().filter(|g| g.2.contains(&need)).count(), 1, "{need:?}");
        }
    }
}
