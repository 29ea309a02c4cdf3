//! What sections say of facts, and what may be issued.

use time::macros::date;

use super::*;
use crate::domain::vocabulary::{EncounterKind, Outcome, VetStatus};

fn nothing() -> Facts {
    let (from, to) = (date!(2026 - 02 - 12), date!(2026 - 03 - 12));
    Facts {
        period: Period { from, to, today: to },
        dog: About {
            name: "Moss".to_owned(),
            breed: String::new(),
            born: None,
            sex: None,
            neutered: None,
            home_since: None,
            household: "Okoro".to_owned(),
            owners: Vec::new(),
            trainer: "Ines Quill".to_owned(),
            goal: String::new(),
            goal_score: None,
            tried_before: String::new(),
            body_condition: None,
            heart_or_breathing: String::new(),
            orthopaedic: String::new(),
            other_health: String::new(),
            medicines: String::new(),
            allergies: String::new(),
            main_food: String::new(),
            muzzle: String::new(),
            must_not_meet: String::new(),
            bite_on_record: false,
            vet: VetStatus::None,
            vet_on: None,
        },
        practised: Practised::default(),
        lines: Vec::new(),
        decided: Vec::new(),
        met: Vec::new(),
        seen: Vec::new(),
        raised: Vec::new(),
        lessons: Vec::new(),
        plan: None,
        weights: Vec::new(),
        triggers: Vec::new(),
        reinforcers: Vec::new(),
        places: Vec::new(),
        told: None,
        consent: None,
        waiting: Waiting::default(),
        notes: None,
    }
}

fn body(sections: &[Section], key: &str) -> String {
    sections.iter().find(|section| section.key == key).map(|section| section.body.clone()).expect(key)
}

fn step(position: i16) -> Option<Step> {
    Some(Step { position, total: 4, name: format!("Rung {position}") })
}

fn counts(position: i16, (met, attempts): (i64, i64)) -> StepCounts {
    StepCounts { step: step(position), sittings: 2, attempts, met, first: None, last: None }
}

#[test]
fn where_nothing_is_recorded_every_section_says_so_and_keys_are_there_once() {
    for kind in ReportKind::ALL {
        let sections = compose(*kind, &nothing());
        let mut keys: Vec<&str> = sections.iter().map(|section| section.key.as_str()).collect();
        let to_write = ["else", REASON];
        assert!(
            sections.iter().all(|s| s.body.is_empty() == to_write.contains(&s.key.as_str())),
            "{kind}: {sections:#?}"
        );
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), sections.len(), "{kind}");
        assert!(!keys.contains(&"notes"), "nobody asked for them");
    }
}

#[test]
fn an_exercise_is_told_by_its_steps_and_counts() {
    let line = LineFacts {
        name: "Nose to hand".to_owned(),
        outcome: Outcome::Count,
        start: step(1),
        end: step(2),
        joined: false,
        left: false,
        counts: vec![counts(1, (7, 10)), counts(2, (18, 20))],
    };
    assert_eq!(
        said::line(&line),
        "Nose to hand. At the start step 1 of 4 (Rung 1), at the end step 2 of 4 (Rung 2). 4 sittings, 25 of 30 went well \
         (step 1: 7 of 10; step 2: 18 of 20)."
    );
    let unchanged = LineFacts { end: step(1), left: true, counts: Vec::new(), ..line.clone() };
    assert_eq!(
        said::line(&unchanged),
        "Nose to hand. At step 1 of 4 (Rung 1) all the time. No longer on the plan at the end. Nothing logged."
    );
    let reading = |on, value| Some((on, value));
    let measured = LineFacts {
        outcome: Outcome::Distance,
        start: None,
        end: None,
        counts: vec![
            StepCounts {
                first: reading(date!(2026 - 02 - 13), 45.0),
                last: reading(date!(2026 - 02 - 20), 30.0),
                ..counts(1, (0, 0))
            },
            StepCounts {
                first: reading(date!(2026 - 03 - 01), 28.0),
                last: reading(date!(2026 - 03 - 10), 22.5),
                ..counts(2, (0, 0))
            },
        ],
        ..line
    };
    assert_eq!(
        said::line(&measured),
        "Nose to hand. 4 sittings, comfortable at 45 m at first and at 22.5 m at last."
    );
}

#[test]
fn an_encounter_is_told_neutrally_and_what_is_not_stated_is_not_said() {
    let by = Teller { name: "Ada Okoro".to_owned(), is_trainer: false };
    let bare = Met {
        on: date!(2026 - 03 - 10),
        kind: EncounterKind::Bite,
        what: String::new(),
        metres: None,
        reaction: None,
        recovery: None,
        towards: None,
        skin_broken: None,
        froze: None,
        warned: None,
        place: String::new(),
        note: String::new(),
        by,
    };
    assert_eq!(said::met(&bare), "10 Mar 2026: bit, told by Ada Okoro (household).");
    let told = Met { skin_broken: Some(false), note: "He reached\nover her.".to_owned(), ..bare };
    assert_eq!(
        said::met_in_their_words(&told),
        "10 Mar 2026: bit, skin not broken, told by Ada Okoro (household). In their words: “He reached over her.”"
    );
}

#[test]
fn a_section_never_grows_beyond_what_its_field_takes() {
    let mut facts = nothing();
    facts.triggers = (0..60).map(|n| (format!("Thing {n}"), "x".repeat(300))).collect();
    let sections = compose(ReportKind::HandOver, &facts);
    let triggers = body(&sections, "triggers");
    assert!(triggers.chars().count() <= MOST_TEXT, "{}", triggers.chars().count());
    assert!(triggers.ends_with("and more: see the records"), "{triggers}");
    facts.triggers = (0..60).map(|n| (format!("Thing {n}"), String::new())).collect();
    let triggers = body(&compose(ReportKind::HandOver, &facts), "triggers");
    assert!(triggers.ends_with("- and 20 more: see the records"), "{triggers}");
}

#[test]
fn a_report_is_issued_with_something_in_it_and_a_referral_with_its_reason() {
    let mut sections = compose(ReportKind::Referral, &nothing());
    assert!(objection(ReportKind::Referral, &sections).is_some());
    assert!(objection(ReportKind::Progress, &sections).is_none());
    for section in sections.iter_mut().filter(|section| section.key == REASON) {
        section.body = "Please look at her.".to_owned();
    }
    assert!(objection(ReportKind::Referral, &sections).is_none());
    for section in &mut sections {
        section.left_out = true;
    }
    assert!(objection(ReportKind::Referral, &sections).is_some());
    assert!(objection(ReportKind::Progress, &sections).is_some());
}

#[test]
fn a_document_holds_what_is_read_and_nothing_else() {
    let mut sections = compose(ReportKind::Progress, &nothing());
    for section in sections.iter_mut().filter(|section| section.key == "decided") {
        section.left_out = true;
    }
    let head = Head {
        kind: ReportKind::Progress,
        dog_name: "Moss",
        breed: "lurcher",
        born: Some(date!(2023 - 05 - 01)),
        sex: Some(Sex::Female),
        household: "Okoro",
        from: date!(2026 - 02 - 12),
        to: date!(2026 - 03 - 12),
        addressed_to: "",
        replaces: Some(date!(2026 - 03 - 01)),
        practice: "Heath and Hollow",
        by: "Ines Quill",
        on: date!(2026 - 03 - 12),
    };
    let document = document(&head, &sections);
    assert_eq!(document.about, "lurcher, 2 years, female, Okoro household");
    assert_eq!(document.period, "12 Feb 2026 to 12 Mar 2026");
    assert!(document.replaces.contains("1 Mar 2026"), "{}", document.replaces);
    let headings: Vec<&str> = document.sections.iter().map(|(heading, _)| heading.as_str()).collect();
    assert!(
        !headings.contains(&"What was decided") && !headings.contains(&"What else matters"),
        "{headings:?}"
    );
    assert_eq!(headings.len(), sections.len() - 2);
}
