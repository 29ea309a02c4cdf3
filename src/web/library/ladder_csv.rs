//! A ladder as a table for spreadsheets: one header, one row a step.
//!
//! A cell that a spreadsheet would take for a formula is written with an apostrophe before it, and read without.

use std::collections::BTreeSet;

use crate::domain::lists::in_a_sentence;
use crate::store::step::Step;
use crate::web::library::step_rows::MOST;

/// The columns, in the order in which they are written.
pub const COLUMNS: [&str; 5] = ["name", "criterion", "distance", "duration", "distraction"];
/// How many of them must be there.
const NEEDED: [&str; 3] = ["name", "criterion", "distraction"];
/// What separates cells: commas, semicolons where commas are decimal, tabs where it was pasted from a sheet.
const SEPARATORS: [u8; 3] = [b',', b';', b'\t'];
/// What makes a spreadsheet read a cell as a formula.
const FORMULA: [char; 6] = ['=', '+', '-', '@', '\t', '\r'];

/// A step as its row says it: the values of [`COLUMNS`].
pub type Row = [String; 5];

/// The table of these steps.
///
/// # Errors
/// None that texts can have; the writer's are handed on.
pub fn write(steps: &[Step]) -> anyhow::Result<String> {
    let mut table = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    table.write_record(COLUMNS)?;
    for step in steps {
        let level = step.distraction.to_string();
        let cells = [&step.name, &step.criterion, &step.distance, &step.duration, &level];
        table.write_record(cells.map(|cell| guarded(cell)))?;
    }
    Ok(String::from_utf8(table.into_inner()?)?)
}

/// The steps of a table, or what is wrong with it: at most one message a row.
pub fn read(text: &str) -> Result<Vec<Row>, Vec<String>> {
    let text = text.trim_start_matches('\u{feff}').trim();
    let first = text.lines().next().unwrap_or_default();
    let count = |separator: u8| first.bytes().filter(|byte| *byte == separator).count();
    let separator = SEPARATORS.into_iter().max_by_key(|s| (count(*s), *s == b',')).unwrap_or(b',');
    let mut table =
        csv::ReaderBuilder::new().delimiter(separator).trim(csv::Trim::All).from_reader(text.as_bytes());
    let header = table.headers().map_err(|_| vec![no_table()])?.clone();
    let header: Vec<String> = header.iter().map(str::to_lowercase).collect();
    wrong_columns(&header).map_or(Ok(()), |message| Err(vec![message]))?;
    let (mut rows, mut wrong) = (Vec::new(), Vec::new());
    for (number, record) in (1..).zip(table.records()) {
        let Ok(record) = record else {
            wrong.push(format!("Row {number}: it has another number of cells than the first line."));
            continue;
        };
        let cell = |column: &str| {
            let at = header.iter().position(|name| name == column);
            at.and_then(|at| record.get(at)).map(unguarded).unwrap_or_default()
        };
        let row: Row = COLUMNS.map(cell);
        match row[4].parse::<i16>() {
            Ok(1..=5) => rows.push(row),
            _ => wrong.push(format!("Row {number}, distraction: enter a whole number from 1 to 5.")),
        }
    }
    if rows.len() > MOST {
        wrong.push(format!("There are {} steps. A ladder has at most {MOST}.", rows.len()));
    }
    if rows.is_empty() && wrong.is_empty() {
        wrong.push("There is no step under the first line.".to_owned());
    }
    if wrong.is_empty() { Ok(rows) } else { Err(wrong) }
}

fn no_table() -> String {
    format!("The first line names the columns: {}.", in_a_sentence(&COLUMNS))
}

fn wrong_columns(header: &[String]) -> Option<String> {
    if let Some(missing) = NEEDED.iter().find(|column| header.iter().all(|name| name != *column)) {
        return Some(format!("The column “{missing}” is missing. {}", no_table()));
    }
    if let Some(unknown) = header.iter().find(|name| !COLUMNS.contains(&name.as_str())) {
        return Some(format!("There is no column “{unknown}” in this table. {}", no_table()));
    }
    let once: BTreeSet<&String> = header.iter().collect();
    (once.len() < header.len()).then(|| format!("A column is there twice. {}", no_table()))
}

fn is_formula(cell: &str) -> bool {
    cell.trim_start_matches('\'').starts_with(FORMULA)
}

fn guarded(cell: &str) -> String {
    if is_formula(cell) { format!("'{cell}") } else { cell.to_owned() }
}

fn unguarded(cell: &str) -> String {
    cell.strip_prefix('\'').filter(|rest| is_formula(rest)).unwrap_or(cell).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::{ExerciseId, StepId};
    use uuid::Uuid;

    fn step(name: &str, distance: &str) -> Step {
        Step {
            id: StepId(Uuid::nil()),
            exercise: ExerciseId(Uuid::nil()),
            position: 1,
            name: name.to_owned(),
            criterion: "Looks back,\nonce".to_owned(),
            distance: distance.to_owned(),
            duration: String::new(),
            distraction: 2,
        }
    }

    #[test]
    fn a_table_is_read_as_it_was_written() {
        for name in ["At home", "=SUM(A1)", "'=x", "''-1", "'quoted", "a \"b\"; c", "+44"] {
            let text = write(&[step(name, "-3 metres")]).expect("a table");
            let row = [name, "Looks back,\nonce", "-3 metres", "", "2"].map(str::to_owned);
            assert_eq!(read(&text), Ok(vec![row]), "{text}");
            let cells = csv::Reader::from_reader(text.as_bytes()).records().flatten().next();
            let cell = cells.and_then(|record| record.get(0).map(str::to_owned)).expect("a cell");
            assert!(!cell.starts_with(['=', '+', '-', '@']), "{cell} is a formula");
        }
    }

    #[test]
    fn what_spreadsheets_make_of_it_is_read() {
        for text in [
            "Name;Criterion;Distraction\nNear;Looks;1",
            "name\tdistraction\tcriterion\nNear\t1\tLooks",
            "\u{feff}name,criterion,distance,duration,distraction\r\nNear,Looks,,,1\r\n",
        ] {
            let rows = read(text).expect(text);
            assert_eq!(rows, [["Near", "Looks", "", "", "1"].map(str::to_owned)], "{text}");
        }
    }

    #[test]
    fn what_is_wrong_is_named_by_its_row() {
        let wrong = |text: &str| read(text).expect_err(text).join(" ");
        assert!(wrong("").contains("first line"), "{}", wrong(""));
        assert!(wrong("name,criterion\na,b").contains("“distraction” is missing"));
        assert!(wrong("name,criterion,distraction,colour\na,b,1,red").contains("“colour”"));
        assert!(wrong("name,criterion,distraction,name\na,b,1,c").contains("twice"));
        assert!(wrong("name,criterion,distraction\na,b,1\na,b,9").contains("Row 2, distraction"));
        assert!(wrong("name,criterion,distraction\na,b").contains("Row 1"));
        let many = format!("name,criterion,distraction\n{}", "a,b,1\n".repeat(13));
        assert!(wrong(&many).contains("at most 12"));
        assert!(wrong("name,criterion,distraction\n").contains("no step"));
    }
}
