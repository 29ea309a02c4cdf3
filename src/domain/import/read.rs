//! From a text to households: every row is judged, and every mistake is found at once.

use std::collections::HashSet;

use time::Date;

use super::column::Column;
use super::gather::{Gathered, Row};
use super::{Fault, HouseholdEntry, MOST_ROWS, cell, separator};

/// What is read beside the file.
#[derive(Clone, Copy)]
pub struct Setting {
    /// The latest day that it is anywhere.
    pub today: Date,
    /// Whether a time zone of this name is known.
    pub knows_zone: fn(&str) -> bool,
}

/// How much of a field a fault shows, in characters.
const SHOWN: usize = 60;

/// The households of a file, or everything that is wrong in it, by line.
pub fn read(text: &str, setting: Setting) -> Result<Vec<HouseholdEntry>, Vec<Fault>> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text).replace("\r\n", "\n").replace('\r', "\n");
    let separator = separator::of(&text);
    if let Some(line) = separator::left_open(&text, separator) {
        let wrong = "A quotation mark opens a field in this row and never closes. Close it, or take it out.";
        return Err(vec![fault(line, "", wrong, "")]);
    }
    let mut rows = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator)
        .from_reader(text.as_bytes());
    let mut records = rows
        .records()
        .map_while(Result::ok)
        .filter(|record| record.iter().any(|field| !field.trim().is_empty()));
    let Some(first) = records.next() else {
        return Err(vec![fault(1, "", "There is nothing here yet. The first row names the columns.", "")]);
    };
    let first_line = line_of(&text, &first);
    let (columns, mut faults) = headings(&first, first_line);
    if !columns.contains(&Some(Column::Household)) {
        let wrong = "The first row names no column “household”. Every row needs one.";
        return Err(vec![fault(
            first_line,
            Column::Household.name(),
            wrong,
            &first.iter().collect::<Vec<_>>().join(" "),
        )]);
    }
    let mut gathered = Gathered::default();
    for (number, record) in records.enumerate() {
        let line = line_of(&text, &record);
        if number == MOST_ROWS {
            let wrong = format!(
                "From here on the file has more than {MOST_ROWS} rows. Split it, and import the parts one after the other."
            );
            faults.push(fault(line, "", &wrong, ""));
            break;
        }
        if let Some(extra) = record.iter().skip(columns.len()).find(|field| !field.trim().is_empty()) {
            let wrong = format!(
                "This row has {} fields, and the first row names {} columns. Put a text that holds the separator in quotation marks.",
                record.len(),
                columns.len()
            );
            faults.push(fault(line, "", &wrong, extra));
            continue;
        }
        let cells: Vec<(Column, String)> = columns
            .iter()
            .zip(record.iter())
            .filter_map(|(column, field)| Some(((*column)?, cell::meant(field))))
            .collect();
        gathered.take(Row::new(line, cells), setting, &mut faults);
    }
    if faults.is_empty() && gathered.is_empty() {
        faults.push(fault(first_line, "", "There is no row below the names of the columns.", ""));
    }
    if faults.is_empty() { Ok(gathered.households()) } else { Err(faults) }
}

/// A fault, with what was read shortened to what fits on a line.
pub(super) fn fault(line: u64, column: &str, wrong: &str, read: &str) -> Fault {
    let mut shown: String = read.chars().take(SHOWN).collect();
    if read.chars().nth(SHOWN).is_some() {
        shown.push('…');
    }
    Fault { line, column: column.to_owned(), wrong: wrong.to_owned(), read: shown }
}

/// The line on which a record's text begins; the reader counts empty lines before it as its own.
fn line_of(text: &str, record: &csv::StringRecord) -> u64 {
    let Some(position) = record.position() else { return 1 };
    let from = usize::try_from(position.byte()).unwrap_or(usize::MAX);
    let empty =
        text.as_bytes().get(from..).unwrap_or_default().iter().take_while(|byte| **byte == b'\n').count();
    position.line() + u64::try_from(empty).unwrap_or_default()
}

/// What the first row names, column by column, and what is wrong with it.
fn headings(first: &csv::StringRecord, line: u64) -> (Vec<Option<Column>>, Vec<Fault>) {
    let (mut named, mut faults) = (HashSet::new(), Vec::new());
    let columns = first.iter().map(|heading| {
        let heading = heading.trim();
        let column = Column::called(heading);
        match column {
            Some(column) if !named.insert(column) => {
                faults.push(fault(line, column.name(), "The first row names this column twice.", heading));
            }
            None if !heading.is_empty() => {
                let wrong =
                    "There is no column of this name. Take it out, or give it one of the names below.";
                faults.push(fault(line, heading, wrong, heading));
            }
            _ => {}
        }
        column
    });
    let mut columns: Vec<Option<Column>> = columns.collect();
    // columns that a spreadsheet adds behind the last one have no names
    let named = (0..first.len()).rfind(|at| !first[*at].trim().is_empty()).map_or(0, |last| last + 1);
    columns.truncate(named);
    (columns, faults)
}
