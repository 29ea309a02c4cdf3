//! Reports: a draft is composed of sections from what is recorded, a trainer edits them, and what is issued stays as it was read.
//!
//! Facts only: what was logged, seen and said, by whom and when. Nothing that is for trainers alone is in [`Facts`] but its
//! `notes`, which are there only where a trainer asked for them in a hand-over.

mod facts;
mod hand_over;
mod progress;
mod referral;
mod said;
#[cfg(test)]
mod tests;

pub use facts::{
    About, ConsentSaid, Decided, Facts, LineFacts, Met, Note, OnPlan, Period, PlaceSaid, PlanSaid, Practised,
    Raised, SeenInPractice, Step, StepCounts, Teller, Told, Waiting,
};

use serde::{Deserialize, Serialize};
use time::Date;

use super::dates::age_words;
use super::vocabulary::{ReportKind, Sex, Word};

/// The most characters of one section.
pub const MOST_TEXT: usize = 4000;
/// The key of the section in which a trainer says why a dog is referred.
pub const REASON: &str = "reason";

/// What stands on every report.
pub const STATEMENT: &str = "Facts only: no diagnosis, no advice beyond our trade. This tells what was logged, seen and said; what \
    is not stated here is not known to us. Pain, illness and sudden change are for a veterinary surgeon to judge, biting, guarding and \
    fear that does not ease for a veterinary surgeon and a qualified behaviourist. In an emergency, ring the nearest vet. The law is \
    that of where you are.";

/// One section of a draft.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Section {
    /// Its stable name.
    pub key: String,
    /// Its heading.
    pub heading: String,
    /// Its text; lines that begin with "- " are a list.
    pub body: String,
    /// Whether it is left out of what is issued.
    #[serde(default)]
    pub left_out: bool,
}

impl Section {
    fn new(key: &str, heading: &str, body: String) -> Self {
        Self { key: key.to_owned(), heading: heading.to_owned(), body: fitting(body), left_out: false }
    }

    /// Whether it will be read.
    pub fn is_read(&self) -> bool {
        !self.left_out && !self.body.trim().is_empty()
    }
}

/// A text that fits into a section: whole lines, and a word on what is left out.
fn fitting(body: String) -> String {
    const MORE: &str = "- and more: see the records";
    if body.chars().count() <= MOST_TEXT {
        return body;
    }
    let mut kept = String::new();
    for line in body.lines() {
        if kept.chars().count() + line.chars().count() + MORE.len() + 2 > MOST_TEXT {
            break;
        }
        kept.push_str(line);
        kept.push('\n');
    }
    kept + MORE
}

/// The sections of a new draft.
pub fn compose(kind: ReportKind, facts: &Facts) -> Vec<Section> {
    match kind {
        ReportKind::Progress => progress::sections(facts),
        ReportKind::Referral => referral::sections(facts),
        ReportKind::HandOver => hand_over::sections(facts),
    }
}

/// Why a draft may not be issued, if it may not.
pub fn objection(kind: ReportKind, sections: &[Section]) -> Option<&'static str> {
    let reason = sections.iter().find(|section| section.key == REASON);
    if kind == ReportKind::Referral && !reason.is_some_and(Section::is_read) {
        return Some("Write the reason for referring first, in your own words.");
    }
    let says_nothing = !sections.iter().any(Section::is_read);
    says_nothing.then_some("Nothing would be read: every section is empty or left out.")
}

/// A report as it is read: every word of it, so that it can be kept as it is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Document {
    /// What it is.
    pub title: String,
    /// What the dog is called.
    pub dog_name: String,
    /// Breed, age, sex, household in one line.
    pub about: String,
    /// The time it covers.
    pub period: String,
    /// Whom it is for; may be empty.
    pub addressed_to: String,
    /// Which report it takes the place of; empty for none.
    pub replaces: String,
    /// What it is not.
    pub statement: String,
    /// Headings and texts.
    pub sections: Vec<(String, String)>,
    /// The practice.
    pub practice: String,
    /// Who issues it.
    pub by: String,
    /// The day.
    pub on: Date,
}

/// What a document says beside its sections.
#[derive(Debug, Clone)]
pub struct Head<'a> {
    /// What kind of report it is.
    pub kind: ReportKind,
    /// What the dog is called.
    pub dog_name: &'a str,
    /// Its breed.
    pub breed: &'a str,
    /// When it was born.
    pub born: Option<Date>,
    /// Its sex.
    pub sex: Option<Sex>,
    /// Its household.
    pub household: &'a str,
    /// The time it covers.
    pub from: Date,
    /// The last day of it.
    pub to: Date,
    /// Whom it is for.
    pub addressed_to: &'a str,
    /// The day on which the report was issued that it takes the place of.
    pub replaces: Option<Date>,
    /// The practice.
    pub practice: &'a str,
    /// Who issues it.
    pub by: &'a str,
    /// The day.
    pub on: Date,
}

/// The report as it is read on a day.
pub fn document(head: &Head<'_>, sections: &[Section]) -> Document {
    let mut about = Vec::new();
    if !head.breed.is_empty() {
        about.push(head.breed.to_owned());
    }
    about.extend(head.born.filter(|born| *born <= head.on).map(|born| age_words(born, head.on)));
    about.extend(head.sex.map(|sex| sex.label().to_lowercase()));
    about.push(format!("{} household", head.household));
    Document {
        title: head.kind.label().to_owned(),
        dog_name: head.dog_name.to_owned(),
        about: about.join(", "),
        period: format!("{} to {}", said::day(head.from), said::day(head.to)),
        addressed_to: head.addressed_to.to_owned(),
        replaces: head
            .replaces
            .map(|on| format!("It takes the place of the report that was issued on {}.", said::day(on)))
            .unwrap_or_default(),
        statement: STATEMENT.to_owned(),
        sections: sections
            .iter()
            .filter(|section| section.is_read())
            .map(|section| (section.heading.clone(), section.body.clone()))
            .collect(),
        practice: head.practice.to_owned(),
        by: head.by.to_owned(),
        on: head.on,
    }
}

impl Document {
    /// The day of issue in words.
    pub fn day(&self) -> String {
        said::day(self.on)
    }
}
