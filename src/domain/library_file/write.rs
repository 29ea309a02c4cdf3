//! Writing a library into its file.

use serde::Serialize;

use super::{Entry, FORMAT, Rung, VERSION};
use crate::domain::vocabulary::Word;

#[derive(Serialize)]
struct OutFile<'a> {
    format: &'static str,
    version: i16,
    exercises: Vec<OutEntry<'a>>,
}

#[derive(Serialize)]
struct OutEntry<'a> {
    kind: &'static str,
    name: &'a str,
    purpose: &'a str,
    owner_why: &'a str,
    criterion: &'a str,
    set_up: &'a str,
    delivery: &'a str,
    equipment_note: &'a str,
    line: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    clip: Option<&'static str>,
    energy: &'static str,
    impact: bool,
    class: &'static str,
    outcome: &'static str,
    cool_down_minutes: i16,
    cool_down_way: &'a str,
    usual_attempts: i16,
    usual_times_a_week: i16,
    caution: &'a str,
    source: &'a str,
    steps: Vec<OutRung<'a>>,
}

#[derive(Serialize)]
struct OutRung<'a> {
    name: &'a str,
    criterion: &'a str,
    distance: &'a str,
    duration: &'a str,
    distraction: i16,
}

/// The file of these exercises, in lines that people can read.
///
/// # Errors
/// None that these fields can have; the writer's are handed on.
pub fn write(entries: &[Entry]) -> Result<String, serde_json::Error> {
    let exercises = entries.iter().map(entry).collect();
    let mut text = serde_json::to_string_pretty(&OutFile { format: FORMAT, version: VERSION, exercises })?;
    text.push('\n');
    Ok(text)
}

fn entry(entry: &Entry) -> OutEntry<'_> {
    OutEntry {
        kind: entry.kind.stored(),
        name: &entry.name,
        purpose: &entry.purpose,
        owner_why: &entry.owner_why,
        criterion: &entry.criterion,
        set_up: &entry.set_up,
        delivery: &entry.delivery,
        equipment_note: &entry.equipment_note,
        line: entry.line.stored(),
        clip: entry.clip.map(Word::stored),
        energy: entry.energy.stored(),
        impact: entry.impact,
        class: entry.class.stored(),
        outcome: entry.outcome.stored(),
        cool_down_minutes: entry.cool_down_minutes,
        cool_down_way: &entry.cool_down_way,
        usual_attempts: entry.usual_attempts,
        usual_times_a_week: entry.usual_times_a_week,
        caution: &entry.caution,
        source: &entry.source,
        steps: entry.steps.iter().map(rung).collect(),
    }
}

fn rung(rung: &Rung) -> OutRung<'_> {
    OutRung {
        name: &rung.name,
        criterion: &rung.criterion,
        distance: &rung.distance,
        duration: &rung.duration,
        distraction: rung.distraction,
    }
}
