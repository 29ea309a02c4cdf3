//! What is written is read back; what is not right is named.

use proptest::prelude::*;

use super::*;
use crate::domain::vocabulary::Clip;

fn one(exercise: &str) -> String {
    format!(r#"{{"format": "exercise-library", "version": 1, "exercises": [{exercise}]}}"#)
}

fn problems(text: &str) -> Vec<String> {
    read(text).expect_err("something is wrong").iter().map(ToString::to_string).collect()
}

const LEAST: &str = r#"{"kind": "exercise", "name": "Sniff", "criterion": "Head down"}"#;

#[test]
fn what_is_left_out_is_as_in_a_new_form() {
    let entries = read(&one(LEAST)).expect("a library");
    let entry = &entries[0];
    assert_eq!((entry.line, entry.clip, entry.energy), (Line::None, None, Energy::Calm));
    assert_eq!((entry.usual_attempts, entry.usual_times_a_week), (10, 4));
    assert_eq!(entry.source, "common practice");
    assert!(entry.steps.is_empty());
}

#[test]
fn every_problem_is_named_with_its_exercise_step_and_field() {
    let text =
        one(r#"{"kind": "trick", "name": "Come", "criterion": 7, "line": "long_line", "impact": "yes",
        "usual_attempts": 0, "steps": [{"name": "Near", "criterion": "Turns", "distraction": 9},
        {"criterion": "Turns", "distraction": 1, "colour": "red"}, 4]},
        {"kind": "exercise", "name": "Come", "criterion": "Turns"}"#);
    let found = problems(&text);
    for wanted in [
        "Exercise 1, “Come”, kind: use one of these words: exercise, standing_arrangement, owner_skill.",
        "Exercise 1, “Come”, criterion: enter a text in quotes.",
        "Exercise 1, “Come”, clip: a long line needs to say where it is clipped.",
        "Exercise 1, “Come”, impact: enter true or false, without quotes.",
        "Exercise 1, “Come”, usual_attempts: enter a whole number from 1 to 50.",
        "Exercise 1, “Come”, step 1, distraction: enter a whole number from 1 to 5.",
        "Exercise 1, “Come”, step 2: there is no field “colour” in this format.",
        "Exercise 1, “Come”, step 3: this must be an object in curly brackets.",
        "Exercise 2, “Come”, name: another exercise of this file has the same name.",
    ] {
        assert!(found.iter().any(|said| said == wanted), "{wanted} is not in {found:#?}");
    }
    assert_eq!(found.len(), 9, "{found:#?}");
}

#[test]
fn a_file_that_is_none_of_ours_says_so() {
    for (text, wanted) in [
        ("", "this must be an object in curly brackets."),
        ("[1]", "this must be an object in curly brackets."),
        ("{\"format\": ", "this is not JSON, from line 1, column 11 on."),
        ("{}", "format: this must be \"exercise-library\"."),
        (r#"{"format": "exercise-library", "version": 2, "exercises": []}"#, "version: we read version 1."),
        (r#"{"format": "x", "owner": 1}"#, "there is no field “owner” in this format."),
        (r#"{"exercises": 3}"#, "a list stands in square brackets."),
    ] {
        let found = problems(text);
        assert!(found.iter().any(|said| said == wanted), "{text}: {found:?}");
    }
    let twice = one(r#"{"kind": "exercise", "name": "A", "name": "B", "criterion": "C"}"#);
    assert_eq!(problems(&twice), ["Exercise 1: the field “name” is there twice."]);
}

#[test]
fn the_fields_that_the_page_shows_are_those_that_are_written() {
    let mut entry = read(&one(LEAST)).expect("a library").remove(0);
    entry.line = Line::LongLine;
    entry.clip = Some(Clip::HarnessBack);
    entry.steps = vec![Rung {
        name: "N".into(),
        criterion: "C".into(),
        distance: "D".into(),
        duration: "E".into(),
        distraction: 1,
    }];
    let text = write(&[entry]).expect("a file");
    let value: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let keys = |value: &serde_json::Value| {
        let object = value.as_object().expect("an object");
        let mut keys: Vec<String> = object.keys().cloned().collect();
        keys.sort();
        keys
    };
    let named = |fields: Vec<Field>| {
        let mut names: Vec<String> = fields.iter().map(|field| field.name.to_owned()).collect();
        names.sort();
        names
    };
    assert_eq!(keys(&value["exercises"][0]), named(fields()));
    assert_eq!(keys(&value["exercises"][0]["steps"][0]), named(step_fields()));
}

fn words(most: usize) -> impl Strategy<Value = String> {
    proptest::collection::vec(any::<char>(), 1..most).prop_map(|letters| {
        let text = judge::clean(&letters.into_iter().collect::<String>());
        if text.is_empty() { "x".to_owned() } else { text }
    })
}

fn of_set<W: Word + std::fmt::Debug>() -> impl Strategy<Value = W> {
    proptest::sample::select(W::ALL)
}

prop_compose! {
    fn rung()(name in words(160), criterion in words(60), distance in words(20), distraction in 1i16..=5) -> Rung {
        Rung { name, criterion, distance, duration: String::new(), distraction }
    }
}

prop_compose! {
    fn entry()(
        kind in of_set::<ItemKind>(),
        texts in proptest::collection::vec(words(120), 6),
        line in of_set::<Line>(),
        clip in of_set::<Clip>(),
        energy in of_set::<Energy>(),
        impact in any::<bool>(),
        class in of_set::<SkillClass>(),
        outcome in of_set::<Outcome>(),
        numbers in (0i16..=60, 1i16..=50, 1i16..=21),
        steps in proptest::collection::vec(rung(), 0..=12),
    ) -> Entry {
        let text = |n: usize| texts[n].clone();
        Entry {
            kind, name: text(0), purpose: text(1), owner_why: text(2), criterion: text(3), set_up: text(4),
            delivery: String::new(), equipment_note: text(5), line, clip: (line != Line::None).then_some(clip),
            energy, impact, class, outcome, cool_down_minutes: numbers.0, cool_down_way: String::new(),
            usual_attempts: numbers.1, usual_times_a_week: numbers.2, caution: text(1), source: text(2), steps,
        }
    }
}

proptest! {
    #[test]
    fn what_is_written_is_read_back(entry in entry()) {
        let text = write(std::slice::from_ref(&entry)).expect("a file");
        prop_assert_eq!(read(&text).expect("our own file"), vec![entry]);
    }

    #[test]
    fn nothing_that_is_read_makes_it_fall_over(text in ".{0,200}") {
        let _ = read(&text);
    }
}
