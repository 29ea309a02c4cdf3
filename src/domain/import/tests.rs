use proptest::prelude::*;
use time::Date;
use time::macros::date;

use super::*;
use crate::ids::{DogId, HouseholdId};
use uuid::Uuid;

const SETTING: Setting = Setting { today: date!(2026 - 03 - 12), knows_zone: |zone| zone.contains('/') };

fn faults(text: &str) -> Vec<(u64, String, String)> {
    let found = read(text, SETTING).expect_err("faults");
    found.into_iter().map(|fault| (fault.line, fault.column, fault.read)).collect()
}

fn found(line: u64, column: &str, read: &str) -> (u64, String, String) {
    (line, column.to_owned(), read.to_owned())
}

#[test]
fn several_rows_of_a_dog_are_one_dog_with_its_weights_by_day() {
    let text = "household,zone,dog,breed,weighed_on,kg\n\
                Okoro,Europe/London,Moss,lurcher,2026-03-01,18.5\n\
                 okoro ,,moss,,2026-01-01,\"17,25\"\n\
                Okoro,,Fern,,,\n\
                Lund,,,,,\n";
    let households = read(text, SETTING).expect("households");
    assert_eq!(households.len(), 2);
    let okoro = &households[0];
    assert_eq!((okoro.name.as_str(), okoro.zone.as_deref()), ("Okoro", Some("Europe/London")));
    let moss = &okoro.dogs[0];
    assert_eq!((moss.name.as_str(), moss.breed.as_deref()), ("Moss", Some("lurcher")));
    let weights: Vec<(Date, f64)> = moss.weights.iter().map(|weight| (weight.on, weight.kg)).collect();
    assert_eq!(weights, [(date!(2026 - 01 - 01), 17.25), (date!(2026 - 03 - 01), 18.5)]);
    assert!(okoro.dogs[1].weights.is_empty() && households[1].dogs.is_empty());
}

#[test]
fn every_mistake_is_found_with_its_line_and_column() {
    let text = "household,zone,children,dog,born,sex,neutered,phase,expected_adult_kg,weighed_on,kg\n\
                Okoro,Nowhere,many,Moss,12/03/2020,bitch,perhaps,done,heavy,2026-03-13,0\n\
                ,,,Moss,,,,,,,\n\
                Okoro,,,,,,,,,2026-03-01,12\n\
                Okoro,,,Moss,,,,,,2026-03-01,\n\
                Okoro,,,Moss,,,,,,,12\n\
                Okoro,,,Moss,,,,,,2026-02-30,12\n";
    let wanted = [
        found(2, "zone", "Nowhere"),
        found(2, "children", "many"),
        found(2, "born", "12/03/2020"),
        found(2, "sex", "bitch"),
        found(2, "neutered", "perhaps"),
        found(2, "phase", "done"),
        found(2, "expected_adult_kg", "heavy"),
        found(2, "weighed_on", "2026-03-13"),
        found(2, "kg", "0"),
        found(3, "household", ""),
        found(4, "dog", ""),
        found(5, "kg", ""),
        found(6, "weighed_on", ""),
        found(7, "weighed_on", "2026-02-30"),
    ];
    assert_eq!(faults(text), wanted);
}

#[test]
fn rows_of_a_dog_must_agree() {
    let text = "household,children,dog,breed,weighed_on,kg\n\
                Okoro,none,Moss,lurcher,2026-03-01,18\n\
                Okoro,living,Moss,whippet,2026-03-01,19\n\
                Okoro,none,Moss,lurcher,2026-03-01,18\n";
    assert_eq!(
        faults(text),
        [found(3, "children", "living"), found(3, "breed", "whippet"), found(3, "kg", "19")]
    );
    let said = read(text, SETTING).expect_err("faults");
    assert!(said[1].wrong.starts_with("Line 2 says something else"), "{}", said[1].wrong);
}

#[test]
fn lines_are_counted_as_an_editor_counts_them() {
    for end in ["\n", "\r\n", "\r"] {
        let text = "\u{feff}\nhousehold;dog;goal;born\n\nOkoro;Moss;\"Walk past\nthe gate; calmly\n\";x\n\n\nLund;Wren;;y\n"
            .replace('\n', end);
        assert_eq!(faults(&text), [found(4, "born", "x"), found(9, "born", "y")], "{end:?}");
    }
}

#[test]
fn what_is_no_table_is_said_once() {
    assert_eq!(faults(""), [found(1, "", "")]);
    assert_eq!(faults("In so many words."), [found(1, "household", "In so many words.")]);
    assert_eq!(faults("household,dog\n"), [found(1, "", "")]);
    assert_eq!(faults("household,dog\nOkoro,\"Moss\nLund,Wren\n"), [found(2, "", "")]);
    assert_eq!(faults("household,dog\nOkoro,Moss,18\n"), [found(2, "", "18")]);
    assert_eq!(
        faults("household,hound,Household\nOkoro,Moss,\n"),
        [found(1, "hound", "hound"), found(1, "household", "Household")]
    );
    assert!(
        read("household,dog,,\nOkoro,Moss,,\nLund\n", SETTING).is_ok(),
        "empty columns at the end are a spreadsheet's"
    );
}

#[test]
fn more_rows_than_are_read_at_once_are_refused() {
    let text = |rows: usize| format!("household\n{}", "Okoro\n".repeat(rows));
    assert!(read(&text(MOST_ROWS), SETTING).is_ok());
    assert_eq!(faults(&text(MOST_ROWS + 1)), [found(20_002, "", "")]);
}

#[test]
fn nothing_that_is_written_can_be_run() {
    let evil = ["=1+1", "+1", "-1", "@x", "'=1", "''", "＝1", "=\"a\",\"b\""];
    for name in evil {
        let entry = HouseholdEntry {
            name: name.to_owned(),
            note: Some(name.to_owned()),
            ..HouseholdEntry::default()
        };
        let text = write(std::slice::from_ref(&entry));
        let row = text.lines().nth(1).expect("a row");
        assert!(row.trim_start_matches('"').starts_with('\''), "{row}");
        assert_eq!(read(&text, SETTING), Ok(vec![entry]));
    }
    let kept = read("household\n'Okoro'\n", SETTING).expect("a household");
    assert_eq!(kept[0].name, "'Okoro'", "an apostrophe of one's own stays");
}

#[test]
fn names_that_are_shared_are_told_apart_and_found_again() {
    let id = |n: u128| Uuid::from_u128(n);
    let dog = |n: u128, name: &str| KnownDog {
        id: DogId(id(n)),
        entry: DogEntry { name: name.to_owned(), ..DogEntry::default() },
    };
    let household = |n: u128, name: &str, dogs: Vec<KnownDog>| Known {
        id: HouseholdId(id(n)),
        entry: HouseholdEntry { name: name.to_owned(), ..HouseholdEntry::default() },
        dogs,
    };
    let all = vec![
        household(1, "Smith", vec![dog(11, "Moss"), dog(12, "moss")]),
        household(2, "smith (2)", vec![]),
        household(3, "SMITH", vec![dog(13, "Moss")]),
    ];
    let known = Known::told_apart(all);
    let names: Vec<&str> = known.iter().map(|household| household.entry.name.as_str()).collect();
    assert_eq!(names, ["Smith", "smith (2)", "SMITH (3)"]);
    let written: Vec<HouseholdEntry> = known.iter().cloned().map(Known::whole).collect();
    let again = read(&write(&written), SETTING).expect("households");
    assert_eq!(again, written);
    assert!(compare(&again, &known).is_empty());
}

#[test]
fn what_is_here_stays_as_it_is_and_the_rest_is_added() {
    let weighing = |on: Date, kg: f64| Weighing { on, kg };
    let moss = DogEntry {
        name: "Moss".to_owned(),
        weights: vec![weighing(date!(2026 - 01 - 01), 17.0), weighing(date!(2026 - 02 - 01), 18.0)],
        ..DogEntry::default()
    };
    let known = vec![Known {
        id: HouseholdId(Uuid::from_u128(1)),
        entry: HouseholdEntry { name: "Okoro".to_owned(), ..HouseholdEntry::default() },
        dogs: vec![KnownDog { id: DogId(Uuid::from_u128(2)), entry: moss }],
    }];
    let text = "household,dog,weighed_on,kg\nOKORO,moss,2026-01-01,17\nOkoro,Moss,2026-02-01,18.5\n\
                Okoro,Moss,2026-03-01,19\nOkoro,Fern,2026-03-01,9\nLund,Moss,2026-03-01,7\n";
    let file = read(text, SETTING).expect("households");
    let additions = compare(&file, &known);
    assert_eq!(additions.already, Already { households: 1, dogs: 1, weights: 2, differ: 1 });
    assert_eq!(additions.households.len(), 1);
    let dogs: Vec<(HouseholdOf, &str)> =
        additions.dogs.iter().map(|dog| (dog.household, dog.entry.name.as_str())).collect();
    assert_eq!(
        dogs,
        [(HouseholdOf::Here(HouseholdId(Uuid::from_u128(1))), "Fern"), (HouseholdOf::New(0), "Moss")]
    );
    let weights: Vec<(Result<DogId, usize>, f64)> =
        additions.weights.iter().map(|new| (new.dog, new.weight.kg)).collect();
    assert_eq!(weights, [(Ok(DogId(Uuid::from_u128(2))), 19.0), (Err(0), 9.0), (Err(1), 7.0)]);
}

/// A text as a form keeps it: trimmed, with plain line ends and nothing that cannot be seen.
fn words() -> impl Strategy<Value = Option<String>> {
    let kept = |text: String| {
        let text: String = text.chars().filter(|c| *c == '\n' || !c.is_control()).collect();
        Some(text.trim().to_owned()).filter(|text| !text.is_empty())
    };
    "[-=+@'\",; \\n\\PC]{0,12}".prop_map(kept)
}

fn days() -> impl Strategy<Value = Date> {
    (0..5_000_i64).prop_map(|ago| SETTING.today - time::Duration::days(ago))
}

prop_compose! {
    fn dog()(
        breed in words(), goal in words(), born in proptest::option::of(days()), neutered in proptest::option::of(any::<bool>()),
        heavy in proptest::option::of(0.5..149.0_f64), weights in proptest::collection::btree_map(days(), 0.1..149.0_f64, 0..4),
    ) -> DogEntry {
        DogEntry {
            breed, goal, born, neutered,
            birth_precision: born.map(|_| BirthPrecision::Month),
            sex: neutered.map(|_| Sex::Female),
            expected_adult_kg: heavy,
            weights: weights.into_iter().map(|(on, kg)| Weighing { on, kg }).collect(),
            ..DogEntry::default()
        }
    }
}

prop_compose! {
    fn household()(note in words(), dogs in proptest::collection::vec(dog(), 0..3)) -> HouseholdEntry {
        let dogs = dogs.into_iter().enumerate().map(|(at, dog)| DogEntry { name: format!("Dog {at}"), ..dog });
        HouseholdEntry { note, dogs: dogs.collect(), children: Some(Children::Visiting), ..HouseholdEntry::default() }
    }
}

proptest! {
    #[test]
    fn what_is_written_is_read_back(households in proptest::collection::vec(household(), 1..4)) {
        let named = households.into_iter().enumerate().map(|(at, one)| HouseholdEntry { name: format!("=Home; {at}"), ..one });
        let named: Vec<HouseholdEntry> = named.collect();
        prop_assert_eq!(read(&write(&named), SETTING), Ok(named));
    }

    #[test]
    fn no_text_breaks_the_reader(text in "[\",;\\n\\r\\t a-z0-9\\PC]{0,80}") {
        let lines = u64::try_from(text.matches(['\n', '\r']).count()).unwrap_or(u64::MAX);
        for text in [text.clone(), format!("household,dog,kg\n{text}")] {
            if let Err(faults) = read(&text, SETTING) {
                prop_assert!(!faults.is_empty() && faults.iter().all(|fault| (1..=lines + 2).contains(&fault.line)));
            }
        }
    }
}
