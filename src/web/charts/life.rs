//! The charts of life outside sittings: distances and recovery of encounters, bolts and bites, weight.

use crate::domain::charts::{Incident, distances, goals_say, incidents_say, recoveries, weights_say};
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::{EncounterKind, Recovery};
use crate::store::encounter::Encounter;
use crate::web::chart::{Cell, Chart, Column, Row, Shape, Style, Subject, Trace, between, upto};
use crate::web::charts::sittings::subject;
use crate::web::charts::{Frame, Item};
use crate::web::encounters::{kind_words, reaction_words};
use crate::web::zones;

const GOAL: &str = "The goal, in the household’s eyes";
const DISTANCE: &str = "Distance of encounters";
const RECOVERY: &str = "Recovery after encounters";
const WEIGHT: &str = "Weight";
/// Bolts and bites that are listed.
const LISTED: usize = 20;

/// Bolts and bites.
pub struct Incidents {
    /// The figure, in a sentence.
    pub says: String,
    /// The list, newest first.
    pub list: Vec<IncidentRow>,
    /// How many are not in it.
    pub more: usize,
}

/// One of them.
pub struct IncidentRow {
    /// The day.
    pub day: String,
    /// What it was.
    pub incident: Incident,
}

/// The charts, in their order.
pub fn charts(frame: &Frame<'_>) -> Vec<Item> {
    // oldest first
    let met: Vec<&Encounter> =
        frame.known.encounters.iter().rev().filter(|met| frame.has(met.facts.local_date)).collect();
    vec![goal(frame), distance(frame, &met), recovery(frame, &met), weight(frame)]
}

/// Bolts and bites since the beginning, whatever the range.
pub fn incidents(frame: &Frame<'_>) -> Incidents {
    let met = frame.known.encounters.iter().filter_map(|met| {
        let what = match met.facts.kind {
            EncounterKind::Bolted => "Bolted",
            EncounterKind::Bite => "Bit",
            _ => return None,
        };
        let href = format!("/dogs/{}/encounters/{}", frame.dog, met.id);
        Some((met.happened_at, Incident { on: met.facts.local_date, what, href, told: "told by itself" }))
    });
    let sat = frame.known.sittings.iter().filter_map(|one| {
        let what = match (one.sitting.bite, one.sitting.bolted) {
            (true, true) => "Bolted and bit",
            (true, false) => "Bit",
            (false, true) => "Bolted",
            (false, false) => return None,
        };
        let href = format!("/dogs/{}/log/{}", frame.dog, one.id);
        let incident = Incident { on: one.sitting.local_date, what, href, told: "told with a sitting" };
        Some((one.sitting.started_at?, incident))
    });
    let mut all: Vec<_> = met.chain(sat).collect();
    all.sort_by_key(|(at, incident)| std::cmp::Reverse((incident.on, *at)));
    let all: Vec<Incident> = all.into_iter().map(|(_, incident)| incident).collect();
    let says = incidents_say(&all, frame.known.facts.bite_on_record, frame.today());
    let more = all.len().saturating_sub(LISTED);
    let row = |incident: Incident| IncidentRow { day: zones::day(incident.on, frame.today()), incident };
    Incidents { says, more, list: all.into_iter().take(LISTED).map(row).collect() }
}

fn facts<'a>(met: &[&'a Encounter]) -> Vec<&'a EncounterFacts> {
    met.iter().map(|met| &met.facts).collect()
}

fn what(met: &Encounter) -> Cell {
    let kind = kind_words(met.facts.kind, true);
    Cell::words(if met.what.is_empty() { kind.to_owned() } else { format!("{kind}: {}", met.what) })
}

fn goal(frame: &Frame<'_>) -> Item {
    let shown: Vec<_> = frame.known.goals.iter().filter(|one| frame.has(one.0)).copied().collect();
    let reading = goals_say(&shown);
    if reading.is_empty() {
        return frame.nothing(GOAL, "The household told nothing of its goal");
    }
    let of_ten = |n: i16| Cell::value(n, format!("{n} of 10"));
    let rows = shown.iter().map(|(on, nearness, confidence)| {
        Row::on(*on, vec![of_ten(*nearness), confidence.map_or_else(Cell::unstated, of_ten)])
    });
    Item::Chart(Box::new(Chart::draw(Subject {
        reading,
        columns: vec![
            Column::drawn("How near the goal", Style::Points(Shape::Dot, Trace::Solid)),
            Column::drawn("How sure they feel", Style::Points(Shape::Ring, Trace::Dashed)),
        ],
        rows: rows.collect(),
        scale: upto(10.0, ""),
        ..subject(frame, "goal", GOAL)
    })))
}

fn distance(frame: &Frame<'_>, met: &[&Encounter]) -> Item {
    let reading = distances(&facts(met));
    if reading.is_empty() {
        return frame.nothing(DISTANCE, "No encounter states its distance");
    }
    let rows = met.iter().filter_map(|met| {
        let metres = met.facts.distance_m?;
        let cell = Cell::value(metres, format!("{metres} m"));
        let (cell, reaction) = match met.facts.reaction {
            Some(0) => (cell, reaction_words(0)),
            Some(n) => (cell.shaped(Shape::Triangle), reaction_words(n)),
            None => (cell.shaped(Shape::Cross), "not stated"),
        };
        Some(Row::on(met.facts.local_date, vec![cell, Cell::words(reaction), what(met)]))
    });
    let highest = met.iter().filter_map(|met| met.facts.distance_m).max().unwrap_or(1);
    Item::Chart(Box::new(Chart::draw(Subject {
        reading,
        columns: vec![
            Column::drawn("Distance, no reaction", Style::Points(Shape::Ring, Trace::None)),
            Column::words("Reaction"),
            Column::words("What happened"),
        ],
        shapes: vec![(Shape::Triangle, "A reaction"), (Shape::Cross, "How strong was not stated")],
        rows: rows.collect(),
        scale: upto(highest.max(1).into(), "m"),
        ..subject(frame, "distance", DISTANCE)
    })))
}

/// How long recovery took, as a rung of its scale.
fn rung(recovery: Recovery) -> (i16, &'static str) {
    match recovery {
        Recovery::Within5 => (1, "within 5 min"),
        Recovery::Within15 => (2, "within 15 min"),
        Recovery::Longer => (3, "longer"),
        Recovery::NotYet => (4, "not yet"),
    }
}

fn recovery(frame: &Frame<'_>, met: &[&Encounter]) -> Item {
    let reading = recoveries(&facts(met));
    if reading.is_empty() {
        return frame.nothing(RECOVERY, "No encounter says how soon the dog was itself again");
    }
    let rows = met.iter().filter_map(|met| {
        let (value, words) = rung(met.facts.recovery?);
        Some(Row::on(met.facts.local_date, vec![Cell::value(value, words), what(met)]))
    });
    let every = [Recovery::Within5, Recovery::Within15, Recovery::Longer, Recovery::NotYet].map(rung);
    Item::Chart(Box::new(Chart::draw(Subject {
        reading,
        columns: vec![
            Column::drawn("Itself again", Style::Points(Shape::Square, Trace::None)),
            Column::words("What happened"),
        ],
        rows: rows.collect(),
        scale: every.iter().map(|(value, words)| (f64::from(*value), (*words).to_owned())).collect(),
        ..subject(frame, "recovery", RECOVERY)
    })))
}

fn weight(frame: &Frame<'_>) -> Item {
    let facts = &frame.known.facts;
    let shown: Vec<_> = facts.weighings.iter().rev().filter(|one| frame.has(one.on)).copied().collect();
    let reading = weights_say(&shown, facts.expected_adult_kg);
    if reading.is_empty() {
        return frame.nothing(WEIGHT, "No weighing");
    }
    let expected = facts.expected_adult_kg.filter(|kg| *kg > 0.0);
    let all = || shown.iter().map(|one| one.kg).chain(expected);
    let rows = shown.iter().map(|one| Row::on(one.on, vec![Cell::value(one.kg, format!("{} kg", one.kg))]));
    Item::Chart(Box::new(Chart::draw(Subject {
        reading,
        columns: vec![Column::drawn("Weight", Style::Points(Shape::Dot, Trace::Solid))],
        rows: rows.collect(),
        scale: between(all().fold(f64::MAX, f64::min), all().fold(0.0, f64::max), "kg"),
        rules: expected.map(|kg| (kg, format!("Expected when grown: {kg} kg"))).into_iter().collect(),
        ..subject(frame, "weight", WEIGHT)
    })))
}
