//! Facts as sentences and as lines of a list, in words that owners, vets and trainers all read.

use time::Date;

use super::facts::{Facts, LineFacts, Met, OnPlan, SeenInPractice, Step, StepCounts, Teller};
use crate::domain::dates::counted;
use crate::domain::lists::in_a_sentence;
use crate::domain::vocabulary::{EncounterKind, Outcome, Recovery, VetStatus, Word};

/// The most lines of one list.
const MOST_LINES: usize = 40;

/// A day: "12 Mar 2026".
pub fn day(date: Date) -> String {
    format!("{} {} {}", date.day(), &date.month().to_string()[..3], date.year())
}

/// Lines as a list, cut where it is long.
pub fn list(lines: impl IntoIterator<Item = String>) -> String {
    let lines: Vec<String> = lines.into_iter().map(|line| format!("- {}", one_line(&line))).collect();
    let more = lines.len().saturating_sub(MOST_LINES);
    let mut text = lines.into_iter().take(MOST_LINES).collect::<Vec<_>>().join("\n");
    if more > 0 {
        text.push_str(&format!("\n- and {more} more: see the records"));
    }
    text
}

/// Parts one under the other, without those that say nothing.
pub fn parts<const N: usize>(parts: [String; N]) -> String {
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n")
}

/// A text without line ends.
pub fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Somebody's words.
pub fn quoted(text: &str) -> String {
    format!("“{}”", text.trim())
}

/// "label: text", or nothing.
pub fn labelled(label: &str, text: &str) -> String {
    if text.trim().is_empty() { String::new() } else { format!("{label}: {}", one_line(text)) }
}

/// A sentence with its full stop.
pub fn sentence(parts: &[String]) -> String {
    let said = parts.join(", ");
    if said.ends_with(['.', '”', '?', '!']) { said } else { format!("{said}.") }
}

/// Who told it.
pub fn teller(by: &Teller) -> String {
    let role = if by.is_trainer { "trainer" } else { "household" };
    format!("told by {} ({role})", by.name)
}

/// A rung: "step 2 of 5 (Length of the garden)".
pub fn step(step: &Step) -> String {
    let Step { position, total, name } = step;
    if name.is_empty() {
        format!("step {position} of {total}")
    } else {
        format!("step {position} of {total} ({name})")
    }
}

/// How an exercise went.
pub fn line(line: &LineFacts) -> String {
    let mut said = vec![format!("{}.", line.name)];
    match (&line.start, &line.end) {
        (Some(start), Some(end)) if start == end => said.push(format!("At {} all the time.", step(end))),
        (Some(start), Some(end)) => {
            let first = if line.joined { "Joined the plan at" } else { "At the start" };
            said.push(format!("{first} {}, at the end {}.", step(start), step(end)));
        }
        _ => {}
    }
    if line.left {
        said.push("No longer on the plan at the end.".to_owned());
    }
    said.push(practised(line));
    said.join(" ")
}

fn practised(line: &LineFacts) -> String {
    let sittings: i64 = line.counts.iter().map(|c| c.sittings).sum();
    if sittings == 0 {
        return "Nothing logged.".to_owned();
    }
    let mut said = vec![counted(sittings, "sitting", "sittings")];
    let (attempts, met) = line.counts.iter().fold((0, 0), |(a, m), c| (a + c.attempts, m + c.met));
    if attempts > 0 {
        said.push(format!("{met} of {attempts} went well"));
    }
    said.extend(measured(line.outcome, &line.counts));
    let by_step: Vec<String> = line
        .counts
        .iter()
        .filter(|c| c.attempts > 0)
        .filter_map(|c| c.step.as_ref().map(|s| format!("step {}: {} of {}", s.position, c.met, c.attempts)))
        .collect();
    let detail = if by_step.len() > 1 { format!(" ({})", by_step.join("; ")) } else { String::new() };
    format!("{}{detail}.", said.join(", "))
}

/// The first and the last reading of what is measured.
fn measured(outcome: Outcome, counts: &[StepCounts]) -> Option<String> {
    let first = counts.iter().filter_map(|c| c.first).min_by_key(|(on, _)| *on)?.1;
    let last = counts.iter().filter_map(|c| c.last).max_by_key(|(on, _)| *on)?.1;
    Some(match outcome {
        Outcome::Count => return None,
        Outcome::Distance => format!("comfortable at {first} m at first and at {last} m at last"),
        Outcome::Duration => format!("calm for {first} min at first and for {last} min at last"),
        Outcome::Recovery => format!("recovered in {first} min at first and in {last} min at last"),
        Outcome::Events => format!("it happened {first} times at first and {last} times at last"),
    })
}

/// How much an instruction of the plan asks for, and where.
pub fn on_plan(item: &OnPlan) -> String {
    let mut said = vec![item.name.clone()];
    said.extend(item.step.as_ref().map(step));
    said.extend(item.times_a_week.map(|n| match n {
        1 => "once a week".to_owned(),
        n => format!("{n} times a week"),
    }));
    said.extend(item.attempts.map(|n| counted(n.into(), "try", "tries")));
    said.extend(item.minutes.filter(|n| *n > 0).map(|n| counted(n.into(), "minute", "minutes")));
    for words in [&item.place, &item.reinforcer] {
        if !words.is_empty() {
            said.push(words.clone());
        }
    }
    let mut text = sentence(&said);
    if !item.criterion.is_empty() {
        text.push_str(&format!(" {}", one_line(&item.criterion)));
    }
    if !item.note.is_empty() {
        text.push_str(&format!(" Note: {}", one_line(&item.note)));
    }
    text
}

fn recovery(recovery: Recovery) -> &'static str {
    match recovery {
        Recovery::Within5 => "calm again within 5 minutes",
        Recovery::Within15 => "calm again within 15 minutes",
        Recovery::Longer => "calm again after more than 15 minutes",
        Recovery::NotYet => "not calm yet when it was told",
    }
}

/// An encounter as neutral facts, without what was written of it.
pub fn met(met: &Met) -> String {
    let mut said = vec![format!("{}: {}", day(met.on), met.kind.label().to_lowercase())];
    if !met.what.is_empty() {
        said.push(one_line(&met.what));
    }
    said.extend(met.towards.map(|towards| format!("towards {}", towards.in_a_sentence())));
    said.extend(
        met.skin_broken.map(|broken| if broken { "skin broken" } else { "skin not broken" }.to_owned()),
    );
    said.extend(met.froze.filter(|froze| *froze).map(|_| "went stiff or froze".to_owned()));
    said.extend(
        met.warned
            .map(|warned| if warned { "a warning came first" } else { "no warning was seen" }.to_owned()),
    );
    said.extend(met.metres.map(|metres| format!("{metres} m away")));
    said.extend(met.reaction.map(|reaction| format!("reaction {reaction} of 4")));
    said.extend(met.recovery.map(|after| recovery(after).to_owned()));
    if !met.place.is_empty() {
        said.push(one_line(&met.place));
    }
    said.push(teller(&met.by));
    sentence(&said)
}

/// The same with what was written of it.
pub fn met_in_their_words(encounter: &Met) -> String {
    let facts = met(encounter);
    if encounter.note.is_empty() {
        facts
    } else {
        format!("{facts} In their words: {}", quoted(&one_line(&encounter.note)))
    }
}

/// Whether an encounter is one that a vet or behaviourist asks about first.
pub fn is_incident(met: &Met) -> bool {
    use EncounterKind::{Bite, Bolted, EquipmentFailed, GrowlOrSnap, Guarded};
    matches!(met.kind, Bite | GrowlOrSnap | Guarded | Bolted | EquipmentFailed)
}

/// What was seen in a sitting.
pub fn seen(seen: &SeenInPractice) -> String {
    let mut said = Vec::new();
    if seen.bite {
        said.push("teeth touched somebody".to_owned());
    }
    if seen.bolted {
        said.push("ran off".to_owned());
    }
    said.extend(seen.signs.iter().map(|sign| sign.label().to_lowercase()));
    let saw = if seen.trainer_seen { ", seen by a trainer" } else { "" };
    format!("{}: {}, at {}, {}{saw}.", day(seen.on), in_a_sentence(&said), seen.exercise, teller(&seen.by))
}

/// How far a vet has been part of this.
pub fn vet(facts: &Facts) -> String {
    let since = facts.dog.vet_on.map(|on| format!(", {}", day(on))).unwrap_or_default();
    match facts.dog.vet {
        VetStatus::None => "Vet: nobody was asked to see one yet, as far as is recorded.".to_owned(),
        status => format!("Vet: {}{since}.", status.label().to_lowercase()),
    }
}

/// What the dog weighed last, and at the first weighing within the period.
pub fn weight(facts: &Facts) -> String {
    let Some(last) = facts.weights.first() else { return "Weight: not recorded.".to_owned() };
    let within = |on: Date| on >= facts.period.from && on <= facts.period.to;
    let first = facts.weights.iter().rev().find(|weighing| within(weighing.on) && weighing.on != last.on);
    let before = first.map(|one| format!("; {} kg on {}", one.kg, day(one.on))).unwrap_or_default();
    format!("Weight: {} kg on {}{before}.", last.kg, day(last.on))
}

/// What the household signed.
pub fn consent(facts: &Facts) -> String {
    let Some(signed) = &facts.consent else {
        return "Nothing is signed yet.".to_owned();
    };
    let clause = |(words, agreed): &(String, bool)| {
        format!("{}: {}", if *agreed { "Agreed" } else { "Not agreed" }, quoted(&one_line(words)))
    };
    format!("Signed by {} on {}.\n{}", signed.name, day(signed.on), list(signed.clauses.iter().map(clause)))
}

/// The dog and its household.
pub fn dog(facts: &Facts) -> String {
    let dog = &facts.dog;
    let neutered = dog.neutered.map(|yes| if yes { "neutered" } else { "not neutered" }.to_owned());
    let sex = dog.sex.map(|sex| sex.label().to_lowercase());
    let kind: Vec<String> = [Some(dog.breed.clone()).filter(|breed| !breed.is_empty()), sex, neutered]
        .into_iter()
        .flatten()
        .collect();
    let kind = if kind.is_empty() { String::new() } else { format!("{}: {}.", dog.name, kind.join(", ")) };
    let born = dog.born.map(|on| format!("Born: {}.", day(on))).unwrap_or_default();
    let since = dog.home_since.map(|on| format!("In this home since {}.", day(on))).unwrap_or_default();
    let owners = match dog.owners.is_empty() {
        true => format!("Household: {}.", dog.household),
        false => format!("Household: {} ({}).", dog.household, in_a_sentence(&dog.owners)),
    };
    let condition =
        dog.body_condition.map(|n| format!("Body condition, as noted: {n} of 9.")).unwrap_or_default();
    parts([
        kind,
        born,
        since,
        owners,
        format!("Trainer: {}.", dog.trainer),
        weight(facts),
        condition,
        labelled("Main food", &dog.main_food),
    ])
}

/// Health as it is recorded.
pub fn health(facts: &Facts) -> String {
    let dog = &facts.dog;
    let told = facts.told.clone().unwrap_or_default();
    let signs: Vec<String> = facts.seen.iter().filter(|s| !s.signs.is_empty()).map(seen).collect();
    let logged = match signs.is_empty() {
        true => "No sign of illness or pain was ticked in this time; what was written stands under what stood out.".to_owned(),
        false => format!("Signs that were logged in this time:\n{}", list(signs)),
    };
    parts([
        vet(facts),
        labelled("Their vet, in the household’s words", &told.vet),
        labelled("Heart and breathing, as noted", &dog.heart_or_breathing),
        labelled("Bones and joints, as noted", &dog.orthopaedic),
        labelled("Other health, as noted", &dog.other_health),
        labelled("Medicines", &dog.medicines),
        labelled("Medicines, in the household’s words", &told.medicines),
        labelled("Allergies", &dog.allergies),
        labelled("Health, in the household’s words", &told.health),
        logged,
    ])
}

/// The goal in the owner's words.
pub fn goal(facts: &Facts) -> String {
    if facts.dog.goal.trim().is_empty() {
        return "No goal is written down yet.".to_owned();
    }
    let near = facts.dog.goal_score.map(|n| format!("How near that is, in their eyes: {n} of 10."));
    parts([quoted(&facts.dog.goal), near.unwrap_or_default()])
}

/// The plan as it stands.
pub fn plan(facts: &Facts) -> String {
    let Some(plan) = &facts.plan else { return "No plan is published yet.".to_owned() };
    let standing: Vec<String> = plan.items.iter().filter(|i| !i.is_exercise).map(on_plan).collect();
    let exercises: Vec<String> = plan.items.iter().filter(|i| i.is_exercise).map(on_plan).collect();
    let under = |heading: &str, lines: Vec<String>| match lines.is_empty() {
        true => String::new(),
        false => format!("{heading}\n{}", list(lines)),
    };
    parts([
        format!("Plan {} of {}.", plan.number, day(plan.on)),
        under("All the time:", standing),
        under("To practise:", exercises),
    ])
}
