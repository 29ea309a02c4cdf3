//! A letter with which a dog is referred to a vet or a behaviourist: what was seen, by whom, when. It concludes nothing.

use super::facts::{Facts, Raised};
use super::said::{self, day, labelled, list, one_line, parts};
use super::{REASON, Section, progress};
use crate::domain::vocabulary::{FlagState, Severity};

pub(super) fn sections(facts: &Facts) -> Vec<Section> {
    vec![
        Section::new(REASON, "Reason for referring", String::new()),
        Section::new("dog", "The dog and its household", said::dog(facts)),
        Section::new("health", "Health, as recorded", said::health(facts)),
        Section::new("incidents", "Bites and other incidents, as told", incidents(facts)),
        Section::new("seen", "What else was seen", seen(facts)),
        Section::new("raised", "What stood out, in the words of those who told it", raised(facts)),
        Section::new("tried", "What has been tried", tried(facts)),
        Section::new("consent", "What the household agreed to", said::consent(facts)),
        Section::new("else", "What else matters", String::new()),
    ]
}

fn incidents(facts: &Facts) -> String {
    let record = match facts.dog.bite_on_record {
        true => "A bite is on record.",
        false => "No bite is on record here.",
    };
    let told: Vec<String> =
        facts.met.iter().filter(|met| said::is_incident(met)).map(said::met_in_their_words).collect();
    let in_sittings: Vec<String> =
        facts.seen.iter().filter(|seen| seen.bite || seen.bolted).map(said::seen).collect();
    let before = facts.told.as_ref().filter(|told| !told.teeth.is_empty());
    let before = before.map(|told| {
        let on = told.on.map(|on| format!(" ({})", day(on))).unwrap_or_default();
        format!("Told by the household before the first lesson{on}:\n{}", list(told.teeth.iter().cloned()))
    });
    let under = |heading: &str, lines: Vec<String>| match lines.is_empty() {
        true => String::new(),
        false => format!("{heading}\n{}", list(lines)),
    };
    let nothing = match told.is_empty() && in_sittings.is_empty() {
        true => "No incident was told in this time.".to_owned(),
        false => String::new(),
    };
    parts([
        record.to_owned(),
        nothing,
        under("Told in this time:", told),
        under("In sittings:", in_sittings),
        before.unwrap_or_default(),
    ])
}

fn seen(facts: &Facts) -> String {
    let met: Vec<String> =
        facts.met.iter().filter(|met| !said::is_incident(met)).map(said::met_in_their_words).collect();
    let met = match met.is_empty() {
        true => "No other encounter was told in this time.".to_owned(),
        false => list(met),
    };
    let triggers: Vec<String> = facts.triggers.iter().map(|(what, note)| trigger(what, note)).collect();
    let triggers = match triggers.is_empty() {
        true => String::new(),
        false => format!("What sets {} off, as recorded:\n{}", facts.dog.name, list(triggers)),
    };
    parts([met, triggers])
}

/// What was found to be watched for or stopped, with what was seen and written there. A notice is about how practice goes: it is left out.
fn raised(facts: &Facts) -> String {
    let here = facts
        .raised
        .iter()
        .filter(|one| one.in_period && one.state != FlagState::Withdrawn && one.severity != Severity::Notice);
    let line = |one: &Raised| {
        let seen = one_line(&one.seen);
        let told = match &one.told {
            Some((note, by)) => {
                format!(" Written by {}: {}", said::teller(by), said::quoted(&one_line(note)))
            }
            None => String::new(),
        };
        format!("{}: {}{told}", day(one.on), seen)
    };
    // one sitting may raise several: what was written there stands once
    let mut written: Vec<&str> = Vec::new();
    let mut lines = Vec::new();
    for one in here {
        let is_new = match &one.told {
            Some((note, _)) if written.contains(&note.as_str()) => false,
            Some((note, _)) => {
                written.push(note);
                true
            }
            None => true,
        };
        lines.push(match is_new {
            true => line(one),
            false => line(&Raised { told: None, ..one.clone() }),
        });
    }
    match lines.is_empty() {
        true => "Nothing stood out in this time.".to_owned(),
        false => list(lines),
    }
}

/// What sets a dog off, with a word more.
pub(super) fn trigger(what: &str, note: &str) -> String {
    if note.is_empty() { one_line(what) } else { format!("{}: {}", one_line(what), one_line(note)) }
}

fn tried(facts: &Facts) -> String {
    let told = facts.told.clone().unwrap_or_default();
    parts([
        labelled("Before", &facts.dog.tried_before),
        labelled("In the household’s words", &told.tried),
        labelled("What seemed to help, in their words", &told.helped),
        progress::practised(facts),
        progress::exercises(facts),
    ])
}
