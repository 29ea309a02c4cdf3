//! Households as a text that [`read`](super::read) reads back, and faults as a list for a spreadsheet.

use super::cell::guarded;
use super::column::Column;
use super::{DogEntry, Fault, HouseholdEntry};
use crate::domain::dog::Weighing;
use crate::domain::vocabulary::Word;

/// Marks the text as UTF-8 for spreadsheets that guess.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// Households, dogs and weights, a row for each weighing; what is said of a household or a dog stands in its first row.
pub fn write(households: &[HouseholdEntry]) -> String {
    let mut sheet = Sheet::headed(Column::ALL.iter().map(|column| column.name().to_owned()));
    for household in households {
        let mut is_first = true;
        if household.dogs.is_empty() {
            sheet
                .row(Column::ALL.iter().map(|column| field(*column, &household.name, Some(household), None)));
        }
        for dog in &household.dogs {
            let weights: Vec<Option<Weighing>> = if dog.weights.is_empty() {
                vec![None]
            } else {
                dog.weights.iter().copied().map(Some).collect()
            };
            for (at, weight) in weights.into_iter().enumerate() {
                let said = std::mem::take(&mut is_first).then_some(household);
                let about = About { name: &dog.name, said: (at == 0).then_some(dog), weight };
                sheet.row(
                    Column::ALL.iter().map(|column| field(*column, &household.name, said, Some(&about))),
                );
            }
        }
    }
    sheet.text
}

/// Everything that is wrong in a file, a row for each fault.
pub fn faults_as_text(faults: &[Fault]) -> String {
    let mut sheet =
        Sheet::headed(["line", "column", "what_is_wrong", "what_was_read"].into_iter().map(str::to_owned));
    for fault in faults {
        let fields = [fault.line.to_string(), fault.column.clone(), fault.wrong.clone(), fault.read.clone()];
        sheet.row(fields.into_iter());
    }
    sheet.text
}

/// The dog of a row.
struct About<'a> {
    name: &'a str,
    /// What is said of it, in its first row.
    said: Option<&'a DogEntry>,
    weight: Option<Weighing>,
}

/// A text that grows by rows.
struct Sheet {
    text: String,
}

impl Sheet {
    fn headed(names: impl Iterator<Item = String>) -> Self {
        let mut sheet = Self { text: BYTE_ORDER_MARK.to_string() };
        sheet.row(names);
        sheet
    }

    fn row(&mut self, fields: impl Iterator<Item = String>) {
        for (at, field) in fields.enumerate() {
            if at > 0 {
                self.text.push(',');
            }
            let field = guarded(&field);
            if field.contains([',', ';', '"', '\n', '\r', '\t']) {
                self.text.push('"');
                self.text.push_str(&field.replace('"', "\"\""));
                self.text.push('"');
            } else {
                self.text.push_str(&field);
            }
        }
        self.text.push_str("\r\n");
    }
}

fn said<T: ToString>(value: Option<T>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

fn word<W: Word>(value: Option<W>) -> String {
    value.map(Word::stored).unwrap_or_default().to_owned()
}

fn field(
    column: Column,
    household: &str,
    said_of: Option<&HouseholdEntry>,
    about: Option<&About<'_>>,
) -> String {
    let dog = about.and_then(|about| about.said);
    match column {
        Column::Household => household.to_owned(),
        Column::Zone => said(said_of.and_then(|household| household.zone.as_ref())),
        Column::Children => word(said_of.and_then(|household| household.children)),
        Column::HouseholdNote => said(said_of.and_then(|household| household.note.as_ref())),
        Column::Dog => said(about.map(|about| about.name)),
        Column::WeighedOn => said(about.and_then(|about| about.weight).map(|weight| weight.on)),
        Column::Kg => said(about.and_then(|about| about.weight).map(|weight| weight.kg)),
        _ => dog.map(|dog| of_dog(column, dog)).unwrap_or_default(),
    }
}

fn of_dog(column: Column, dog: &DogEntry) -> String {
    match column {
        Column::Breed => said(dog.breed.as_ref()),
        Column::Born => said(dog.born),
        Column::BirthPrecision => word(dog.birth_precision),
        Column::Sex => word(dog.sex),
        Column::Neutered => said(dog.neutered.map(|yes| if yes { "yes" } else { "no" })),
        Column::HomeSince => said(dog.home_since),
        Column::Phase => word(dog.phase),
        Column::ExpectedAdultKg => said(dog.expected_adult_kg),
        Column::MainFood => said(dog.main_food.as_ref()),
        Column::MainFoodKcalPerG => said(dog.main_food_kcal_per_g),
        Column::Allergies => said(dog.allergies.as_ref()),
        Column::Medicines => said(dog.medicines.as_ref()),
        Column::Goal => said(dog.goal.as_ref()),
        _ => String::new(),
    }
}
