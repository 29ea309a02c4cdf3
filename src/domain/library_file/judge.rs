//! Judging the values of one exercise or step: each problem is named with its exercise, step and field.

use std::fmt;

use serde_json::Value;

use super::{Field, Takes};
use crate::domain::vocabulary::Word;

/// Something in a file that is not right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Where: `“Moving search”, step 2`; empty for the file as a whole.
    pub place: String,
    /// The field; empty where it is about more than one.
    pub field: String,
    /// What to do about it.
    pub message: String,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts = [self.place.as_str(), self.field.as_str()];
        let where_it_is: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        if !where_it_is.is_empty() {
            write!(f, "{}: ", where_it_is.join(", "))?;
        }
        f.write_str(&self.message)
    }
}

/// The judge of one exercise or step.
pub(super) struct Judge<'a> {
    /// What it is about, as problems name it.
    pub place: String,
    /// What its fields take.
    pub fields: &'a [Field],
    /// What was found.
    pub problems: &'a mut Vec<Problem>,
}

impl Judge<'_> {
    /// Says what is wrong.
    pub fn refuse(&mut self, field: &str, message: impl Into<String>) {
        self.problems.push(Problem {
            place: self.place.clone(),
            field: field.to_owned(),
            message: message.into(),
        });
    }

    fn of(&self, name: &str) -> Option<&Field> {
        self.fields.iter().find(|field| field.name == name)
    }

    /// Says that a field is missing, where it must be there.
    fn is_left_out(&mut self, name: &str) {
        if self.of(name).is_some_and(|field| field.otherwise.is_none()) {
            self.refuse(name, "this is missing.");
        }
    }

    /// A text: trimmed, its line ends `\n`, other control characters gone, as a form would keep it.
    pub fn text(&mut self, name: &str, value: Option<Value>) -> String {
        let (most, otherwise) = match self.of(name) {
            Some(Field { takes: Takes::Text(most), otherwise, .. }) => (*most, otherwise.unwrap_or_default()),
            _ => (usize::MAX, ""),
        };
        let said = match value {
            None => {
                self.is_left_out(name);
                return otherwise.to_owned();
            }
            Some(Value::String(text)) => clean(&text),
            Some(_) => {
                self.refuse(name, "enter a text in quotes.");
                return String::new();
            }
        };
        let length = said.chars().count();
        if length > most {
            self.refuse(name, format!("this has {length} characters. Use at most {most}."));
        }
        if said.is_empty() {
            match otherwise {
                "" => self.is_left_out(name),
                usual => return usual.to_owned(),
            }
        }
        said
    }

    /// A whole number within the field's bounds; `usual` where it is left out.
    pub fn whole(&mut self, name: &str, value: Option<Value>, usual: i16) -> i16 {
        let (low, high) = match self.of(name) {
            Some(Field { takes: Takes::Whole(low, high), .. }) => (*low, *high),
            _ => (i16::MIN, i16::MAX),
        };
        let Some(value) = value else {
            self.is_left_out(name);
            return usual;
        };
        match value.as_i64().and_then(|n| i16::try_from(n).ok()).filter(|n| (low..=high).contains(n)) {
            Some(number) => number,
            None => {
                self.refuse(name, format!("enter a whole number from {low} to {high}."));
                usual
            }
        }
    }

    /// True or false; false where it is left out.
    pub fn yes_no(&mut self, name: &str, value: Option<Value>) -> bool {
        match value {
            None => false,
            Some(Value::Bool(said)) => said,
            Some(_) => {
                self.refuse(name, "enter true or false, without quotes.");
                false
            }
        }
    }

    /// A word of a closed set, or nothing.
    pub fn word<W: Word>(&mut self, name: &str, value: Option<Value>) -> Option<W> {
        let Some(value) = value else {
            self.is_left_out(name);
            return None;
        };
        let word = value.as_str().and_then(W::from_stored);
        if word.is_none() {
            let words: Vec<&str> = W::ALL.iter().map(|word| word.stored()).collect();
            self.refuse(name, format!("use one of these words: {}.", words.join(", ")));
        }
        word
    }
}

/// A text as forms keep it.
pub(super) fn clean(text: &str) -> String {
    let text = text.replace("\r\n", "\n");
    let text: String = text.trim().chars().filter(|c| *c == '\n' || *c == '\t' || !c.is_control()).collect();
    text.trim().to_owned()
}
