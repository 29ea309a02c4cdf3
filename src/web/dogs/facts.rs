//! A profile as facts to read: every one of them stated, or shown as not stated.

use time::Date;

use crate::domain::dates::age_words;
use crate::domain::lists::in_a_sentence;
use crate::domain::vocabulary::{BirthPrecision, DayOfWeek, VetStatus, Word};
use crate::store::dog_profile::{Food, Goal, Health, Identity, Profile, Safety, Vet};
use crate::web::dogs::section::Section;
use crate::web::zones::day;

/// One fact.
#[derive(Debug)]
pub struct Fact {
    /// What it is about.
    pub term: &'static str,
    /// What was said; `None` when not stated.
    pub said: Option<String>,
}

/// One section of facts.
#[derive(Debug)]
pub struct Facts {
    /// The section.
    pub section: Section,
    /// Its facts.
    pub facts: Vec<Fact>,
}

/// All of a profile.
pub fn of(profile: &Profile, trainer: &str, today: Date) -> Vec<Facts> {
    let facts_of = |section| match section {
        Section::Who => who(&profile.identity, today),
        Section::Health => health(&profile.health),
        Section::Food => food(&profile.food),
        Section::Vet => vec![fact("Vet", Some(vet(&profile.vet, today)))],
        Section::Safety => safety(&profile.safety),
        Section::Goal => goal(&profile.goal),
        Section::Days => vec![fact("Days", days(&profile.days))],
        Section::Care => vec![
            fact("Phase", Some(profile.care.phase.label().to_owned())),
            fact("Trainer", Some(trainer.to_owned())),
        ],
    };
    Section::ALL.into_iter().map(|section| Facts { section, facts: facts_of(section) }).collect()
}

/// The age in words: "4 years", or "about 4 years" where the birth date is no more than near.
pub fn age(identity: &Identity, today: Date) -> Option<String> {
    let age = age_words(identity.born?, today);
    Some(if identity.birth_precision == BirthPrecision::Exact { age } else { format!("about {age}") })
}

/// How far a vet has been part of this, and since when.
pub fn vet(vet: &Vet, today: Date) -> String {
    match vet.on {
        Some(on) if vet.status != VetStatus::None => format!("{}, {}", vet.status.label(), day(on, today)),
        _ => vet.status.label().to_owned(),
    }
}

/// A text that may be empty: empty means not stated.
pub fn text(said: &str) -> Option<String> {
    (!said.is_empty()).then(|| said.to_owned())
}

fn fact(term: &'static str, said: Option<String>) -> Fact {
    Fact { term, said }
}

fn yes_no(said: Option<bool>) -> Option<String> {
    said.map(|yes| if yes { "Yes" } else { "No" }.to_owned())
}

fn word<W: Word>(said: Option<W>) -> Option<String> {
    said.map(|word| word.label().to_owned())
}

fn who(identity: &Identity, today: Date) -> Vec<Fact> {
    let born = identity.born.map(|born| {
        let month = format!("{} {}", born.month(), born.year());
        match identity.birth_precision {
            BirthPrecision::Exact => format!("{} {month}", born.day()),
            BirthPrecision::Month => month,
            BirthPrecision::Estimated => format!("around {month}"),
        }
    });
    vec![
        fact("Breed or kind", text(&identity.breed)),
        fact("Born", born),
        fact("Age", age(identity, today)),
        fact("Sex", word(identity.sex)),
        fact("Neutered", yes_no(identity.neutered)),
        fact("In this home since", identity.home_since.map(|on| day(on, today))),
    ]
}

fn health(health: &Health) -> Vec<Fact> {
    vec![
        fact("Expected adult weight", health.expected_adult_kg.map(|kg| format!("{kg} kg"))),
        fact("Body condition", health.body_condition.map(|score| format!("{score} of 9"))),
        fact("Activity", word(health.activity)),
        fact("Coat", word(health.coat)),
        fact("Short-nosed", yes_no(health.short_nosed)),
        fact("Heart and breathing", text(&health.heart_or_breathing)),
        fact("Bones and joints", text(&health.orthopaedic)),
        fact("Other health", text(&health.other)),
        fact("Medicines", text(&health.medicines)),
        fact("Allergies", text(&health.allergies)),
    ]
}

fn food(food: &Food) -> Vec<Fact> {
    vec![
        fact("Main food", text(&food.main)),
        fact("Energy of it", food.kcal_per_g.map(|kcal| format!("{kcal} kcal a gram"))),
    ]
}

fn safety(safety: &Safety) -> Vec<Fact> {
    let bite = if safety.bite_on_record { "Yes" } else { "None on record" };
    vec![
        fact("Bite", Some(bite.to_owned())),
        fact("Muzzle", text(&safety.muzzle)),
        fact("Must not meet", text(&safety.must_not_meet)),
        fact("History", text(&safety.history)),
    ]
}

fn days(days: &[DayOfWeek]) -> Option<String> {
    let names: Vec<&str> = days.iter().map(|day| day.label()).collect();
    text(&in_a_sentence(&names))
}

fn goal(goal: &Goal) -> Vec<Fact> {
    vec![fact("In the owner's words", text(&goal.goal)), fact("Tried before", text(&goal.tried_before))]
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn born(birth_precision: BirthPrecision) -> Identity {
        Identity {
            name: "Bramble".to_owned(),
            breed: String::new(),
            born: Some(date!(2022 - 03 - 01)),
            birth_precision,
            sex: None,
            neutered: None,
            home_since: None,
        }
    }

    #[test]
    fn a_birth_date_is_said_as_exactly_as_it_is_known() {
        let today = date!(2026 - 03 - 01);
        let said = |precision| {
            let identity = born(precision);
            let facts = who(&identity, today);
            (facts[1].said.clone().unwrap_or_default(), age(&identity, today).unwrap_or_default())
        };
        assert_eq!(said(BirthPrecision::Exact), ("1 March 2022".into(), "4 years".into()));
        assert_eq!(said(BirthPrecision::Month), ("March 2022".into(), "about 4 years".into()));
        assert_eq!(said(BirthPrecision::Estimated), ("around March 2022".into(), "about 4 years".into()));
    }

    #[test]
    fn what_nobody_said_is_not_stated() {
        let facts = who(&Identity { born: None, ..born(BirthPrecision::Exact) }, date!(2026 - 03 - 01));
        assert!(facts.iter().all(|fact| fact.said.is_none()));
    }
}
