//! What a form may be sent: a valid answer for every field, and everything that is none.

use std::fmt;

use super::every_form::{Field, Found, Kind};
use super::people::PASSWORD;

/// Names and values, as they are sent. Raw values are percent-encoded already.
pub type Sent = Vec<(String, String)>;

/// Longer than any field takes, and short enough for a form.
pub const LONG: usize = 10_000;

/// Texts that somebody else's program might act on.
pub const HOSTILE: [&str; 9] = [
    "<script>alert(1)</script>",
    "\"><img src=x onerror=alert(1)>",
    "{{7*7}}${7*7}<%= 7*7 %>",
    "'; drop table dog; --",
    "before\0after",
    "\u{202e}txt.exe\u{2066}",
    "\u{1f415}\u{200d}\u{1f9ba}",
    "one\r\nSet-Cookie: two=three\r\n\r\nfour",
    "\u{feff}\u{85}\u{2028}",
];

/// Escapes that no text has: a lone surrogate, and bytes that are no UTF-8.
const BROKEN: [&str; 4] = ["%ED%A0%80", "%ff%fe%c3%28", "%zz%", "%00%C0%80"];

/// One thing wrong with one field.
#[derive(Debug, Clone)]
pub struct Bad {
    /// The field.
    pub field: String,
    /// What is sent in its place.
    pub with: With,
    /// Whether nothing but a refusal will do.
    pub never: bool,
}

/// What is sent in the place of a field.
#[derive(Debug, Clone)]
pub enum With {
    /// Nothing, not even its name.
    Nothing,
    /// Another value.
    Value(String),
    /// A value that is not encoded again.
    Raw(&'static str),
    /// The valid value and another one.
    Twice(String),
}

impl fmt::Display for Bad {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (with, short) = (format!("{:?}", self.with), 60);
        write!(f, "{}={}", self.field, with.chars().take(short).collect::<String>())
    }
}

impl Bad {
    /// The body of a form with this in it.
    pub fn body(&self, valid: &Sent) -> String {
        let mut body = form_urlencoded::Serializer::new(String::new());
        body.extend_pairs(valid.iter().filter(|(name, _)| *name != self.field));
        let valid =
            valid.iter().find(|(name, _)| *name == self.field).map_or("", |(_, value)| value.as_str());
        match &self.with {
            With::Nothing => {}
            With::Value(value) => drop(body.append_pair(&self.field, value)),
            With::Twice(other) => drop(body.append_pair(&self.field, valid).append_pair(&self.field, other)),
            With::Raw(raw) => {
                let body = body.finish();
                let name = form_urlencoded::byte_serialize(self.field.as_bytes()).collect::<String>();
                return format!("{body}&{name}={raw}");
            }
        }
        body.finish()
    }
}

/// A library's file of one exercise.
pub const LIBRARY_FILE: &str = r#"{"format":"exercise-library","version":1,
    "exercises":[{"kind":"exercise","name":"Read from a file","criterion":"Looks"}]}"#;

/// A form as somebody who knows what they want would send it.
pub fn valid(form: &Found) -> Sent {
    let mut sent = Sent::new();
    let mut pressed = false;
    for field in &form.fields {
        if let Kind::Button(values) = &field.kind {
            // one button is pressed, and none that only asks for another page or for the Enter key
            let value = values.iter().find(|value| *value != "unsaid");
            if let Some(value) = value.filter(|_| !pressed && field.name != "do") {
                pressed = true;
                sent.retain(|(name, _)| *name != field.name);
                sent.push((field.name.clone(), value.clone()));
            }
            continue;
        }
        sent.extend(answers(form, field).into_iter().map(|value| (field.name.clone(), value)));
    }
    sent
}

fn answers(form: &Found, field: &Field) -> Vec<String> {
    if let Kind::Ticks(values) = &field.kind
        && ["dogs", "records", "no_vet", "cautions"].contains(&field.name.as_str())
    {
        return values.iter().take(1).cloned().collect();
    }
    let said = field.filled.iter().any(|value| !value.is_empty());
    if said || matches!(field.kind, Kind::Hidden | Kind::Ticks(_)) {
        return field.filled.clone();
    }
    // a number of the rules has bounds of its own
    if let Some(number) = settlebrook::domain::welfare::parameter(&field.name) {
        return vec![number.value.to_string()];
    }
    let text = match (&field.kind, field.name.as_str()) {
        (Kind::Password, _) => PASSWORD,
        // a library's file with nothing in it that a form of words could say; a table is read by a button of its own
        (_, "text") if form.route == "/library/import" => LIBRARY_FILE,
        (_, "met") if form.route.ends_with("/lessons") => "3",
        (_, "csv" | "next_1" | "next_2" | "next_3" | "met") => "",
        (_, "rewarded" | "search") => "",
        (Kind::Email, _) if form.route == "/sign-in" => "tamsin.rook@example.org",
        (Kind::Email, _) => "somebody.new@example.org",
        (Kind::Number, "attempts") => "8",
        (Kind::Number, "kg") => "12.5",
        (Kind::Number, _) => "3",
        (Kind::Date, "born") => "2023-05-01",
        (Kind::Date, _) => "2026-03-11",
        (Kind::Time, _) => "08:15",
        // what a bite asks is asked of nothing else
        (Kind::Choice(_), "skin_broken") if is_no_bite(form) => "no",
        (Kind::Choice(values), "kind") if values.iter().any(|v| v == "bite") => "bite",
        (Kind::Choice(values), _) => values.iter().find(|v| !v.is_empty()).map_or("", String::as_str),
        (_, "phone") => "01632 960123",
        (_, "name") => "Bramble",
        (_, "rows") => "household,dog\nFenn,Bramble",
        (_, "source") => "common practice",
        _ => "In so many words.",
    };
    vec![text.to_owned()]
}

/// Whether a form is filled in with something that happened and is no bite.
fn is_no_bite(form: &Found) -> bool {
    form.field("kind").is_some_and(|kind| kind.filled.iter().any(|said| !said.is_empty() && said != "bite"))
}

/// Everything that is tried with one field.
pub fn bad(field: &Field, other_id: &str) -> Vec<Bad> {
    let mut tried = Vec::new();
    let mut add = |with: With, never: bool| tried.push(Bad { field: field.name.clone(), with, never });
    let value = |text: &str| With::Value(text.to_owned());
    add(With::Nothing, false);
    add(value(""), false);
    // a password may be anything, and may be long; whatever is not to be done is saving
    let free = field.kind == Kind::Password || field.kind == Kind::Hidden || field.name == "do";
    add(value(&"a".repeat(LONG)), !free);
    add(With::Twice("another".to_owned()), field.kind != Kind::Hidden && field.name != "do");
    let wrong: &[&str] = match &field.kind {
        Kind::Number => &["seven", "-1", "1e308", "NaN", "99999999999999999999", "0x10", "inf"],
        Kind::Date => &["2026-02-30", "0000-00-00", "yesterday", "99999-01-01", "-0001-01-01"],
        Kind::Time => &["25:00", "noon", "-1:00"],
        Kind::Email => &["somebody", "a@b", "@example.org"],
        Kind::Choice(_) | Kind::Ticks(_) | Kind::Button(_) => &["nonsense", "-1", "1e308", "NaN", other_id],
        Kind::Hidden | Kind::Text | Kind::Password => &[],
    };
    // the air may be below zero
    let fine = |text: &str| field.name == "air_c" && text == "-1";
    wrong.iter().for_each(|text| add(value(text), field.name != "do" && !fine(text)));
    if field.kind == Kind::Hidden {
        let is_id = field.filled.iter().any(|value| value.parse::<uuid::Uuid>().is_ok());
        // an id that the form brings for what it makes may be any
        let names = is_id
            && !matches!(
                field.name.as_str(),
                "id" | "message" | "after" | "saw" | "seen" | "incident" | "log"
            );
        add(value("not-an-id"), is_id);
        add(value(other_id), names);
        ["-1", "1e308", "99999999999999999999"].iter().for_each(|text| add(value(text), is_id));
    }
    HOSTILE.iter().for_each(|text| add(value(text), false));
    add(value(&format!("e{}", "\u{301}".repeat(1_000))), false);
    BROKEN.iter().for_each(|raw| add(With::Raw(raw), false));
    if let Kind::Button(values) | Kind::Choice(values) = &field.kind {
        values.iter().for_each(|chosen| add(value(chosen), false));
    }
    tried
}

/// A few of everything, other ones for other fields: what a short run tries.
pub fn few(field: &Field, other_id: &str) -> Vec<Bad> {
    let turn: usize = field.name.bytes().map(usize::from).sum();
    let (never, perhaps): (Vec<Bad>, Vec<Bad>) = bad(field, other_id).into_iter().partition(|bad| bad.never);
    let some = |all: Vec<Bad>| {
        let at = turn.checked_rem(all.len()).unwrap_or_default();
        all.into_iter().nth(at)
    };
    let first = never.iter().find(|bad| matches!(bad.with, With::Value(_))).cloned();
    let other = if turn.is_multiple_of(2) { some(never) } else { some(perhaps) };
    first.into_iter().chain(other).collect()
}
