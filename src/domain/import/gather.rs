//! Rows put together: several rows of a dog are one dog, and what they say of it agrees.

use std::collections::HashMap;

use time::Date;

use super::cell;
use super::column::Column;
use super::read::{Setting, fault};
use super::{DogEntry, Fault, HouseholdEntry, key};
use crate::domain::dog::Weighing;

/// The heaviest that a weight may be, kg: above the heaviest dogs on record.
const HEAVIEST: f64 = 149.0;

/// A row: its fields by column.
pub(super) struct Row {
    line: u64,
    cells: Vec<(Column, String)>,
}

impl Row {
    pub(super) fn new(line: u64, cells: Vec<(Column, String)>) -> Self {
        Self { line, cells }
    }

    fn field(&self, column: Column) -> &str {
        self.cells.iter().find(|(at, _)| *at == column).map_or("", |(_, field)| field.as_str())
    }

    fn fault(&self, column: Column, wrong: &str) -> Fault {
        fault(self.line, column.name(), wrong, self.field(column))
    }

    /// What a field says; a mistake in it is noted.
    fn said<T>(
        &self,
        column: Column,
        faults: &mut Vec<Fault>,
        read: impl FnOnce(&str) -> Result<Option<T>, String>,
    ) -> Option<T> {
        match read(self.field(column)) {
            Ok(said) => said,
            Err(wrong) => {
                faults.push(self.fault(column, &wrong));
                None
            }
        }
    }
}

/// What the rows so far say.
#[derive(Default)]
pub(super) struct Gathered {
    households: Vec<HouseholdEntry>,
    household_at: HashMap<String, usize>,
    dog_at: HashMap<(usize, String), usize>,
    /// The line that first said something: of a household, or of a dog of it.
    said_on: HashMap<(usize, Option<usize>, Column), u64>,
    weighed_on: HashMap<(usize, usize, Date), (f64, u64)>,
}

impl Gathered {
    pub(super) fn is_empty(&self) -> bool {
        self.households.is_empty()
    }

    /// The households, each dog's weights by day.
    pub(super) fn households(mut self) -> Vec<HouseholdEntry> {
        for dog in self.households.iter_mut().flat_map(|household| &mut household.dogs) {
            dog.weights.sort_by_key(|weight| weight.on);
        }
        self.households
    }

    /// Takes a row in; what is wrong with it, alone or beside the rows before, is noted.
    pub(super) fn take(&mut self, row: Row, setting: Setting, faults: &mut Vec<Fault>) {
        let name = row.said(Column::Household, faults, |field| cell::text(field, 120));
        let said = household(&row, setting, faults);
        let (dog_name, dog) =
            (row.said(Column::Dog, faults, |field| cell::text(field, 60)), dog(&row, setting, faults));
        let weight = weight(&row, setting, faults);
        let Some(name) = name else {
            if row.field(Column::Household).is_empty() {
                faults.push(row.fault(Column::Household, "Write which household this row is about."));
            }
            return;
        };
        let household = self.household(&name);
        self.merge_household(household, &row, said, faults);
        let Some(dog_name) = dog_name else {
            let stated =
                row.cells.iter().find(|(column, field)| !column.is_of_household() && !field.is_empty());
            if let Some((column, _)) = stated.filter(|_| row.field(Column::Dog).is_empty()) {
                let wrong =
                    format!("Write which dog this is about: the row says something under {}.", column.name());
                faults.push(row.fault(Column::Dog, &wrong));
            }
            return;
        };
        let at = self.dog(household, &dog_name);
        self.merge_dog(household, at, &row, dog, faults);
        if let Some(weight) = weight {
            self.weigh(household, at, &row, weight, faults);
        }
    }

    fn household(&mut self, name: &str) -> usize {
        let next = self.households.len();
        let at = *self.household_at.entry(key(name)).or_insert(next);
        if at == next {
            self.households.push(HouseholdEntry { name: name.to_owned(), ..HouseholdEntry::default() });
        }
        at
    }

    fn dog(&mut self, household: usize, name: &str) -> usize {
        let dogs = &mut self.households[household].dogs;
        let next = dogs.len();
        let at = *self.dog_at.entry((household, key(name))).or_insert(next);
        if at == next {
            dogs.push(DogEntry { name: name.to_owned(), ..DogEntry::default() });
        }
        at
    }

    fn merge_household(&mut self, at: usize, row: &Row, said: HouseholdEntry, faults: &mut Vec<Fault>) {
        let kept = &mut self.households[at];
        let mut merge = Merge { said_on: &mut self.said_on, about: (at, None), row, faults };
        merge.keep(Column::Zone, &mut kept.zone, said.zone);
        merge.keep(Column::Children, &mut kept.children, said.children);
        merge.keep(Column::HouseholdNote, &mut kept.note, said.note);
    }

    fn merge_dog(&mut self, household: usize, at: usize, row: &Row, said: DogEntry, faults: &mut Vec<Fault>) {
        let kept = &mut self.households[household].dogs[at];
        let mut merge = Merge { said_on: &mut self.said_on, about: (household, Some(at)), row, faults };
        merge.keep(Column::Breed, &mut kept.breed, said.breed);
        merge.keep(Column::Born, &mut kept.born, said.born);
        merge.keep(Column::BirthPrecision, &mut kept.birth_precision, said.birth_precision);
        merge.keep(Column::Sex, &mut kept.sex, said.sex);
        merge.keep(Column::Neutered, &mut kept.neutered, said.neutered);
        merge.keep(Column::HomeSince, &mut kept.home_since, said.home_since);
        merge.keep(Column::Phase, &mut kept.phase, said.phase);
        merge.keep(Column::ExpectedAdultKg, &mut kept.expected_adult_kg, said.expected_adult_kg);
        merge.keep(Column::MainFood, &mut kept.main_food, said.main_food);
        merge.keep(Column::MainFoodKcalPerG, &mut kept.main_food_kcal_per_g, said.main_food_kcal_per_g);
        merge.keep(Column::Allergies, &mut kept.allergies, said.allergies);
        merge.keep(Column::Medicines, &mut kept.medicines, said.medicines);
        merge.keep(Column::Goal, &mut kept.goal, said.goal);
    }

    fn weigh(&mut self, household: usize, dog: usize, row: &Row, weight: Weighing, faults: &mut Vec<Fault>) {
        match self.weighed_on.get(&(household, dog, weight.on)) {
            Some((kg, line)) if *kg != weight.kg => {
                let wrong = format!("Line {line} says {kg} kg for this dog and day. Keep one of the two.");
                faults.push(row.fault(Column::Kg, &wrong));
            }
            Some(_) => {}
            None => {
                self.weighed_on.insert((household, dog, weight.on), (weight.kg, row.line));
                self.households[household].dogs[dog].weights.push(weight);
            }
        }
    }
}

/// Putting what a row says beside what was said before.
struct Merge<'a> {
    said_on: &'a mut HashMap<(usize, Option<usize>, Column), u64>,
    about: (usize, Option<usize>),
    row: &'a Row,
    faults: &'a mut Vec<Fault>,
}

impl Merge<'_> {
    fn keep<T: PartialEq>(&mut self, column: Column, kept: &mut Option<T>, said: Option<T>) {
        let Some(said) = said else { return };
        match kept {
            Some(kept) if *kept != said => {
                let line =
                    self.said_on.get(&(self.about.0, self.about.1, column)).copied().unwrap_or_default();
                let whose = if column.is_of_household() { "household" } else { "dog" };
                let wrong = format!("Line {line} says something else of this {whose}. Keep one of the two.");
                self.faults.push(self.row.fault(column, &wrong));
            }
            Some(_) => {}
            None => {
                self.said_on.insert((self.about.0, self.about.1, column), self.row.line);
                *kept = Some(said);
            }
        }
    }
}

fn household(row: &Row, setting: Setting, faults: &mut Vec<Fault>) -> HouseholdEntry {
    let zone = |field: &str| match cell::text(field, 64)? {
        Some(zone) if !(setting.knows_zone)(&zone) => {
            Err("This is no time zone that we know. Write one such as Europe/London, or leave it empty."
                .to_owned())
        }
        zone => Ok(zone),
    };
    HouseholdEntry {
        zone: row.said(Column::Zone, faults, zone),
        children: row.said(Column::Children, faults, cell::word),
        note: row.said(Column::HouseholdNote, faults, |field| cell::text(field, 4000)),
        ..HouseholdEntry::default()
    }
}

fn dog(row: &Row, setting: Setting, faults: &mut Vec<Fault>) -> DogEntry {
    let past = |field: &str| cell::day(field, setting.today);
    DogEntry {
        name: String::new(),
        breed: row.said(Column::Breed, faults, |field| cell::text(field, 120)),
        born: row.said(Column::Born, faults, past),
        birth_precision: row.said(Column::BirthPrecision, faults, cell::word),
        sex: row.said(Column::Sex, faults, cell::word),
        neutered: row.said(Column::Neutered, faults, cell::yes_no),
        home_since: row.said(Column::HomeSince, faults, past),
        phase: row.said(Column::Phase, faults, cell::word),
        expected_adult_kg: row
            .said(Column::ExpectedAdultKg, faults, |field| cell::number(field, 0.5, HEAVIEST)),
        main_food: row.said(Column::MainFood, faults, |field| cell::text(field, 200)),
        main_food_kcal_per_g: row
            .said(Column::MainFoodKcalPerG, faults, |field| cell::number(field, 0.1, 9.9)),
        allergies: row.said(Column::Allergies, faults, |field| cell::text(field, 1000)),
        medicines: row.said(Column::Medicines, faults, |field| cell::text(field, 1000)),
        goal: row.said(Column::Goal, faults, |field| cell::text(field, 1000)),
        weights: Vec::new(),
    }
}

/// The weighing of a row, which needs both its day and its figure.
fn weight(row: &Row, setting: Setting, faults: &mut Vec<Fault>) -> Option<Weighing> {
    let on = row.said(Column::WeighedOn, faults, |field| cell::day(field, setting.today));
    let kg = row.said(Column::Kg, faults, |field| cell::number(field, 0.1, HEAVIEST));
    match (row.field(Column::WeighedOn).is_empty(), row.field(Column::Kg).is_empty()) {
        (true, false) => faults.push(row.fault(Column::WeighedOn, "Write the day of this weighing.")),
        (false, true) => faults.push(row.fault(Column::Kg, "Write what the dog weighed that day, in kg.")),
        _ => {}
    }
    Some(Weighing { on: on?, kg: kg? })
}
