//! One field of a row: read as what its column takes, or refused with what to do.
//!
//! A field that a spreadsheet would run as a formula is written with an apostrophe before it, and read without.

use time::{Date, Duration};

use crate::domain::vocabulary::Word;

/// The oldest day that a file may name, before today.
const OLDEST: Duration = Duration::days(30 * 366);

/// What a field beginning with one of these might be run as.
const FORMULAS: [char; 10] = ['=', '+', '-', '@', '＝', '＋', '－', '＠', '\t', '\''];

/// A field as it is written: nothing that a spreadsheet would run.
pub fn guarded(text: &str) -> String {
    if text.starts_with(FORMULAS) { format!("'{text}") } else { text.to_owned() }
}

/// A field as it was meant: without the apostrophe that [`guarded`] put before it, and with plain line ends.
pub fn meant(field: &str) -> String {
    let field = field.trim();
    let field = field.strip_prefix('\'').filter(|rest| rest.starts_with(FORMULAS)).unwrap_or(field);
    field.chars().filter(|c| matches!(c, '\n' | '\t') || !c.is_control()).collect()
}

/// A text of at most `most` characters; `None` where the field is empty.
pub fn text(field: &str, most: usize) -> Result<Option<String>, String> {
    let length = field.chars().count();
    if length > most {
        return Err(format!("This has {length} characters. Use at most {most}."));
    }
    Ok((!field.is_empty()).then(|| field.to_owned()))
}

/// A day up to `today` and not longer ago than a dog lives; `None` where the field is empty.
pub fn day(field: &str, today: Date) -> Result<Option<Date>, String> {
    if field.is_empty() {
        return Ok(None);
    }
    let format = time::macros::format_description!("[year]-[month]-[day]");
    let Ok(day) = Date::parse(field, format) else {
        return Err("Write the day as year-month-day, such as 2026-03-14.".to_owned());
    };
    if day > today {
        return Err("This day is still to come. Write a day up to today.".to_owned());
    }
    if today - day > OLDEST {
        return Err("This is more than 30 years ago. Check the year.".to_owned());
    }
    Ok(Some(day))
}

/// A number within `low..=high`, with a point or a comma; `None` where the field is empty.
pub fn number(field: &str, low: f64, high: f64) -> Result<Option<f64>, String> {
    if field.is_empty() {
        return Ok(None);
    }
    match field.replace(',', ".").parse::<f64>() {
        Ok(number) if number.is_finite() && (low..=high).contains(&number) => Ok(Some(number)),
        _ => Err(format!("Write a number from {low} to {high}, without its unit.")),
    }
}

/// A word of a closed set, in any case; `None` where the field is empty.
pub fn word<W: Word>(field: &str) -> Result<Option<W>, String> {
    if field.is_empty() {
        return Ok(None);
    }
    let wanted = field.to_lowercase().replace(' ', "_");
    W::from_stored(&wanted).map(Some).ok_or_else(|| {
        let words: Vec<&str> = W::ALL.iter().map(|word| word.stored()).collect();
        format!("Write one of: {}. Or leave it empty.", words.join(", "))
    })
}

/// Yes or no, in any case; `None` where the field is empty.
pub fn yes_no(field: &str) -> Result<Option<bool>, String> {
    match field.to_lowercase().as_str() {
        "" => Ok(None),
        "yes" => Ok(Some(true)),
        "no" => Ok(Some(false)),
        _ => Err("Write yes or no, or leave it empty.".to_owned()),
    }
}
