//! The catalogue as a whole: unique names, words, bounds.

use super::*;

#[test]
fn every_entry_is_whole_and_found_by_its_name() {
    for entry in CATALOGUE {
        assert!(std::ptr::eq(rule(entry.id).expect("a rule"), *entry), "{} stands twice", entry.id);
        for text in [
            entry.title,
            entry.owner_title,
            entry.raises,
            entry.why,
            entry.trainer_do,
            entry.owner_do,
            entry.owner_why,
            entry.source,
        ] {
            assert!(!text.is_empty() && !text.contains("  ") && !text.contains('!'), "{}: {text}", entry.id);
        }
        assert!(entry.version > 0);
    }
    assert_eq!(rule("nothing"), None);
}

#[test]
fn every_number_stands_within_its_safe_bounds() {
    for parameter in CATALOGUE.iter().flat_map(|entry| entry.parameters) {
        assert!((parameter.low..=parameter.high).contains(&parameter.value), "{}", parameter.name);
        let same = |other: &&Parameter| other.key == parameter.key;
        for other in CATALOGUE.iter().flat_map(|entry| entry.parameters).filter(same) {
            assert_eq!(other, parameter, "one key, one number");
        }
    }
}

#[test]
fn every_source_is_published_or_says_that_it_is_not() {
    for entry in CATALOGUE {
        let published = entry.source.chars().filter(char::is_ascii_digit).count() >= 4;
        assert!(published || entry.source.to_lowercase().contains("common practice"), "{}", entry.id);
    }
}

#[test]
fn owners_read_their_own_words() {
    for entry in CATALOGUE {
        let said = format!("{} {} {}", entry.owner_title, entry.owner_do, entry.owner_why).to_lowercase();
        for word in [
            "missed",
            "fail",
            "adherence",
            "flag",
            "criterion",
            "incident",
            "reinforcer",
            "trigger",
            "aggress",
            "attachment",
            "marker",
            "dominan",
            "disobey",
        ] {
            assert!(!said.contains(word), "{} says {word}", entry.id);
        }
    }
}

#[test]
fn health_and_bites_defer_to_those_who_know() {
    for id in ["vet_now", "heat_illness", "vet_soon", "bite", "second_incident"] {
        let entry = rule(id).expect("a rule");
        assert!(entry.owner_do.to_lowercase().contains("vet"), "{id}");
    }
    for id in ["bite", "growl_at_child", "second_incident"] {
        let entry = rule(id).expect("a rule");
        assert!(entry.trainer_do.contains("qualified behaviourist"), "{id}");
        assert!(entry.source.contains("local law"), "{id}");
    }
}

#[test]
fn teeth_and_breath_stand_before_clips_and_cool_downs() {
    let gravity = |id, severity| rule(id).expect("a rule").gravity(severity);
    let stop = Severity::Stop;
    for grave in ["bite", "growl_at_child", "second_incident", "vet_now", "heat_illness"] {
        for work in ["long_line_without_harness", "cool_down_missing", "bolted"] {
            assert!(gravity(grave, stop) > gravity(work, stop), "{grave} before {work}");
        }
    }
    assert!(gravity("vet_now", stop) > gravity("bite", stop));
    assert!(gravity("cool_down_missing", stop) > gravity("bite", Severity::Caution), "severity comes first");
}
