//! A hand-over to another trainer: the dog, what its household hopes for, the plan, what works and what is open.

use super::facts::{Facts, PlaceSaid};
use super::referral::trigger;
use super::said::{self, day, labelled, list, parts};
use super::{Section, progress};
use crate::domain::vocabulary::{Choice, FlagState, Word};

/// A reinforcer that is worth this much works well; house scale, common practice.
const WORKS_WELL: i16 = 4;

pub(super) fn sections(facts: &Facts) -> Vec<Section> {
    let mut sections = vec![
        Section::new("dog", "The dog and its household", said::dog(facts)),
        Section::new("goal", "What the household hopes for", said::goal(facts)),
        Section::new("safety", "What keeps everybody safe", safety(facts)),
        Section::new("places", "Places", places(facts)),
        Section::new("triggers", "What sets the dog off", triggers(facts)),
        Section::new("reinforcers", "What the dog works for", reinforcers(facts)),
        Section::new("plan", "The plan", said::plan(facts)),
        Section::new("practised", "How practice went", practised(facts)),
        Section::new("works", "What works", works(facts)),
        Section::new("open", "What is open", open(facts)),
        Section::new("health", "Health, as recorded", said::health(facts)),
        Section::new("consent", "What the household agreed to", said::consent(facts)),
    ];
    if let Some(notes) = &facts.notes {
        let says = match notes.is_empty() {
            true => "No notes for trainers.".to_owned(),
            false => list(notes.iter().map(|note| format!("{}: {}", note.what, note.says))),
        };
        sections.push(Section::new("notes", "Notes for trainers", says));
    }
    sections.push(Section::new("else", "What else matters", String::new()));
    sections
}

fn safety(facts: &Facts) -> String {
    let dog = &facts.dog;
    let record = if dog.bite_on_record { "A bite is on record." } else { "No bite is on record here." };
    let ran_off = facts.seen.iter().any(|seen| seen.bolted)
        || facts.met.iter().any(|met| met.kind == crate::domain::vocabulary::EncounterKind::Bolted);
    let incidents: Vec<String> =
        facts.met.iter().filter(|met| said::is_incident(met)).map(said::met_in_their_words).collect();
    let incidents = match incidents.is_empty() {
        true => String::new(),
        false => format!("Told in this time:\n{}", list(incidents)),
    };
    parts([
        record.to_owned(),
        if ran_off { "Ran off in this time.".to_owned() } else { String::new() },
        labelled("Muzzle", &dog.muzzle),
        labelled("Must not meet", &dog.must_not_meet),
        incidents,
    ])
}

fn place(place: &PlaceSaid) -> String {
    let mut said = vec![place.name.clone(), format!("distraction {} of 5", place.distraction)];
    said.extend(place.secure.map(|yes| if yes { "fenced" } else { "not fenced" }.to_owned()));
    said.extend(place.near_road.map(|yes| if yes { "near a road" } else { "no road near" }.to_owned()));
    said.push(if place.off_lead { "off lead was allowed here" } else { "on the line" }.to_owned());
    said::sentence(&said)
}

fn places(facts: &Facts) -> String {
    match facts.places.is_empty() {
        true => "None recorded.".to_owned(),
        false => list(facts.places.iter().map(place)),
    }
}

fn triggers(facts: &Facts) -> String {
    match facts.triggers.is_empty() {
        true => "Nothing recorded.".to_owned(),
        false => list(facts.triggers.iter().map(|(what, note)| trigger(what, note))),
    }
}

fn reinforcers(facts: &Facts) -> String {
    match facts.reinforcers.is_empty() {
        true => "Nothing recorded.".to_owned(),
        false => list(facts.reinforcers.iter().map(|(what, worth)| format!("{what}, worth {worth} of 5."))),
    }
}

fn practised(facts: &Facts) -> String {
    parts([progress::practised(facts), progress::exercises(facts)])
}

fn works(facts: &Facts) -> String {
    let best: Vec<String> = facts
        .reinforcers
        .iter()
        .filter(|(_, worth)| *worth >= WORKS_WELL)
        .map(|(what, _)| what.clone())
        .collect();
    let moved = facts.decided.iter().filter(|d| d.choice == Choice::MoveOn);
    let moved: Vec<String> = moved.map(|d| format!("{}, {}.", d.exercise, day(d.on))).collect();
    let helped =
        facts.told.as_ref().map(|told| labelled("What seemed to help, in their words", &told.helped));
    let said = parts([
        if best.is_empty() { String::new() } else { format!("Works best for: {}.", best.join(", ")) },
        helped.unwrap_or_default(),
        match moved.is_empty() {
            true => String::new(),
            false => format!("Moved on to a harder step:\n{}", list(moved)),
        },
    ]);
    if said.is_empty() { "Nothing recorded.".to_owned() } else { said }
}

fn open(facts: &Facts) -> String {
    let raised: Vec<String> = facts
        .raised
        .iter()
        .filter(|raised| raised.state == FlagState::Open)
        .map(|raised| {
            format!(
                "{}: {} ({}).",
                day(raised.on),
                raised.title.trim_end_matches('.'),
                raised.severity.label().to_lowercase()
            )
        })
        .collect();
    let raised = match raised.is_empty() {
        true => "Nothing that was raised waits for an answer.".to_owned(),
        false => format!("Raised and not answered yet:\n{}", list(raised)),
    };
    let decisions = match facts.waiting.decisions.is_empty() {
        true => String::new(),
        false => format!("A decision about the step waits for: {}.", facts.waiting.decisions.join(", ")),
    };
    let question = match facts.waiting.question {
        true => "A message of the household waits for an answer.",
        false => "No message of the household waits.",
    };
    parts([raised, decisions, question.to_owned()])
}
