//! Reading a library from its file.

use std::collections::BTreeSet;

use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;
use serde_json::error::Category;
use serde_json::value::RawValue;

use super::judge::{Judge, Problem, clean};
use super::{Entry, FORMAT, Field, MOST_ENTRIES, MOST_STEPS, Rung, VERSION, fields, step_fields};
use crate::domain::vocabulary::{Energy, ItemKind, Line, Outcome, SkillClass};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawFile {
    format: Option<Value>,
    version: Option<Value>,
    exercises: Option<Vec<Box<RawValue>>>,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct RawEntry {
    kind: Option<Value>,
    name: Option<Value>,
    purpose: Option<Value>,
    owner_why: Option<Value>,
    criterion: Option<Value>,
    set_up: Option<Value>,
    delivery: Option<Value>,
    equipment_note: Option<Value>,
    line: Option<Value>,
    clip: Option<Value>,
    energy: Option<Value>,
    impact: Option<Value>,
    class: Option<Value>,
    outcome: Option<Value>,
    cool_down_minutes: Option<Value>,
    cool_down_way: Option<Value>,
    usual_attempts: Option<Value>,
    usual_times_a_week: Option<Value>,
    caution: Option<Value>,
    source: Option<Value>,
    steps: Option<Vec<Box<RawValue>>>,
}

#[derive(Deserialize, Default)]
#[serde(deny_unknown_fields, default)]
struct RawRung {
    name: Option<Value>,
    criterion: Option<Value>,
    distance: Option<Value>,
    duration: Option<Value>,
    distraction: Option<Value>,
}

/// What an exercise is called, whatever else is wrong with it.
#[derive(Deserialize, Default)]
#[serde(default)]
struct Called {
    name: Option<Value>,
}

/// The exercises of a file, or everything that is not right about it.
pub fn read(text: &str) -> Result<Vec<Entry>, Vec<Problem>> {
    let file: RawFile = object(text).map_err(|message| vec![of_file("", message)])?;
    let mut problems = Vec::new();
    if file.format.as_ref().and_then(Value::as_str) != Some(FORMAT) {
        problems.push(of_file("format", format!("this must be \"{FORMAT}\".")));
    }
    if file.version.as_ref().and_then(Value::as_i64) != Some(VERSION.into()) {
        problems.push(of_file("version", format!("we read version {VERSION}.")));
    }
    let raw = file.exercises.unwrap_or_default();
    if raw.is_empty() {
        problems.push(of_file("exercises", "there is none in this file."));
    }
    if raw.len() > MOST_ENTRIES {
        problems.push(of_file("exercises", format!("a file holds at most {MOST_ENTRIES}.")));
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let (of_entry, of_step) = (fields(), step_fields());
    let mut names = BTreeSet::new();
    let mut entries = Vec::new();
    for (number, raw) in (1..).zip(&raw) {
        let entry = entry(raw.get(), number, &of_entry, &of_step, &mut problems);
        let Some(entry) = entry else { continue };
        if !entry.name.is_empty() && !names.insert(entry.name.clone()) {
            let place = place(&entry.name, number);
            let message = "another exercise of this file has the same name.".to_owned();
            problems.push(Problem { place, field: "name".to_owned(), message });
        }
        entries.push(entry);
    }
    if problems.is_empty() { Ok(entries) } else { Err(problems) }
}

fn of_file(field: &str, message: impl Into<String>) -> Problem {
    Problem { place: String::new(), field: field.to_owned(), message: message.into() }
}

/// How problems name an exercise.
fn place(name: &str, number: usize) -> String {
    if name.is_empty() { format!("Exercise {number}") } else { format!("Exercise {number}, “{name}”") }
}

fn entry(
    text: &str,
    number: usize,
    fields: &[Field],
    step_fields: &[Field],
    problems: &mut Vec<Problem>,
) -> Option<Entry> {
    let called: Called = serde_json::from_str(text).unwrap_or_default();
    let called: String = called
        .name
        .as_ref()
        .and_then(Value::as_str)
        .map(clean)
        .unwrap_or_default()
        .chars()
        .take(120)
        .collect();
    let mut judge = Judge { place: place(&called, number), fields, problems };
    let raw: RawEntry = match object(text) {
        Ok(raw) => raw,
        Err(message) => {
            judge.refuse("", message);
            return None;
        }
    };
    let line = judge.word("line", raw.line).unwrap_or(Line::None);
    let clip = judge.word("clip", raw.clip).filter(|_| line != Line::None);
    let kind = judge.word("kind", raw.kind).unwrap_or(ItemKind::Exercise);
    // a skill is learnt without the dog: nothing is clipped
    if line == Line::LongLine && clip.is_none() && kind != ItemKind::OwnerSkill {
        judge.refuse("clip", "a long line needs to say where it is clipped.");
    }
    let steps = raw.steps.unwrap_or_default();
    if steps.len() > MOST_STEPS {
        judge.refuse("steps", format!("an exercise has at most {MOST_STEPS}."));
    }
    let mut entry = Entry {
        kind,
        name: judge.text("name", raw.name),
        purpose: judge.text("purpose", raw.purpose),
        owner_why: judge.text("owner_why", raw.owner_why),
        criterion: judge.text("criterion", raw.criterion),
        set_up: judge.text("set_up", raw.set_up),
        delivery: judge.text("delivery", raw.delivery),
        equipment_note: judge.text("equipment_note", raw.equipment_note),
        line,
        clip,
        energy: judge.word("energy", raw.energy).unwrap_or(Energy::Calm),
        impact: judge.yes_no("impact", raw.impact),
        class: judge.word("class", raw.class).unwrap_or(SkillClass::Ordinary),
        outcome: judge.word("outcome", raw.outcome).unwrap_or(Outcome::Count),
        cool_down_minutes: judge.whole("cool_down_minutes", raw.cool_down_minutes, 0),
        cool_down_way: judge.text("cool_down_way", raw.cool_down_way),
        usual_attempts: judge.whole("usual_attempts", raw.usual_attempts, 10),
        usual_times_a_week: judge.whole("usual_times_a_week", raw.usual_times_a_week, 4),
        caution: judge.text("caution", raw.caution),
        source: judge.text("source", raw.source),
        steps: Vec::new(),
    };
    let here = judge.place;
    for (number, text) in (1..).zip(&steps) {
        let place = format!("{here}, step {number}");
        let judge = Judge { place, fields: step_fields, problems: &mut *problems };
        entry.steps.extend(rung(text.get(), judge));
    }
    Some(entry)
}

fn rung(text: &str, mut judge: Judge<'_>) -> Option<Rung> {
    let raw: RawRung = match object(text) {
        Ok(raw) => raw,
        Err(message) => {
            judge.refuse("", message);
            return None;
        }
    };
    Some(Rung {
        name: judge.text("name", raw.name),
        criterion: judge.text("criterion", raw.criterion),
        distance: judge.text("distance", raw.distance),
        duration: judge.text("duration", raw.duration),
        distraction: judge.whole("distraction", raw.distraction, 1),
    })
}

/// An object with these fields and no others; in words what it is instead.
fn object<T: DeserializeOwned>(text: &str) -> Result<T, String> {
    // a list would be read as the fields of an object in their order
    let text = text.trim_start_matches('\u{feff}').trim_start();
    if !text.starts_with('{') {
        return Err("this must be an object in curly brackets.".to_owned());
    }
    serde_json::from_str(text).map_err(|error| in_words(&error))
}

fn in_words(error: &serde_json::Error) -> String {
    if error.classify() != Category::Data {
        return format!("this is not JSON, from line {}, column {} on.", error.line(), error.column());
    }
    let said = error.to_string();
    let quoted = said.split('`').nth(1).unwrap_or_default();
    match said.split('`').next().unwrap_or_default().trim() {
        "unknown field" => format!("there is no field “{quoted}” in this format."),
        "duplicate field" => format!("the field “{quoted}” is there twice."),
        _ => "a list stands in square brackets.".to_owned(),
    }
}
