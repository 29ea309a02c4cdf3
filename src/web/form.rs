//! A form as it was sent: what was typed, and what is wrong with it. Everything typed is kept for the page that
//! shows the errors, except passwords.

use std::str::FromStr;

use axum::body::Bytes;
use axum::extract::{FromRequest, Request};
use axum::http::{StatusCode, header};
use time::Date;
use time::macros::format_description;

use crate::domain::vocabulary::Word;
use crate::web::WebError;
use crate::web::field_words::{self, called};

/// What was typed, and the messages about it in the order in which they were found.
#[derive(Debug, Clone, Default)]
pub struct Form {
    pairs: Vec<(String, String)>,
    errors: Vec<(String, String)>,
}

impl Form {
    /// An empty form, as a page first shows it.
    pub fn blank() -> Self {
        Self::default()
    }

    /// The same form with a value filled in.
    #[must_use]
    pub fn with(mut self, name: &str, value: impl Into<String>) -> Self {
        self.pairs.push((name.to_owned(), value.into()));
        self
    }

    /// What was typed in a field, or an empty text.
    pub fn value(&self, name: &str) -> &str {
        self.pairs.iter().find(|(n, _)| n == name).map_or("", |(_, v)| v.as_str())
    }

    /// Every value sent under a name: for ticks.
    pub fn values(&self, name: &str) -> Vec<&str> {
        self.pairs.iter().filter(|(n, _)| n == name).map(|(_, v)| v.as_str()).collect()
    }

    /// Whether a choice is ticked or selected.
    pub fn is(&self, name: &str, value: &str) -> bool {
        self.pairs.iter().any(|(n, v)| n == name && v == value)
    }

    /// The message about a field.
    pub fn error(&self, name: &str) -> Option<&str> {
        self.errors.iter().find(|(n, _)| n == name).map(|(_, m)| m.as_str())
    }

    /// All messages, with the fields they are about.
    pub fn errors(&self) -> &[(String, String)] {
        &self.errors
    }

    /// Whether nothing is wrong.
    pub fn is_fine(&self) -> bool {
        self.errors.is_empty()
    }

    /// How the page answers that shows the form.
    pub fn status(&self) -> StatusCode {
        if self.is_fine() { StatusCode::OK } else { StatusCode::UNPROCESSABLE_ENTITY }
    }

    /// Says what is wrong with a field; only the first message about a field is kept.
    pub fn refuse(&mut self, name: &str, message: impl Into<String>) {
        if self.error(name).is_none() {
            self.errors.push((name.to_owned(), message.into()));
        }
    }

    /// Forgets what was typed in a field: passwords are never sent back.
    pub fn forget(&mut self, name: &str) {
        self.pairs.retain(|(n, _)| n != name);
    }

    /// Whether nobody sees a field: a page sends it by itself.
    pub fn is_unseen(&self, name: &str) -> bool {
        field_words::is_unseen(name)
    }

    /// Refuses a field with a message that names it.
    pub fn refuse_by_name(&mut self, name: &str, message: &str) {
        let message = if self.is_unseen(name) {
            "Part of this page did not come back as we made it. Open the page again and send it once more."
                .to_owned()
        } else {
            format!("{}: {message}", called(name))
        };
        self.refuse(name, message);
    }

    fn refuse_twice(&mut self, name: &str) {
        if self.values(name).len() > 1 {
            self.refuse_by_name(name, "this was sent more than once. Enter it once.");
        }
    }

    /// The one value of a field, trimmed. A field that was sent twice is refused.
    fn single(&mut self, name: &str) -> String {
        self.refuse_twice(name);
        self.value(name).trim().to_owned()
    }

    /// A text of at most `most` characters, which may be empty. Line ends become `\n`; other control characters go.
    pub fn text(&mut self, name: &str, most: usize) -> String {
        let text: String = self
            .single(name)
            .replace("\r\n", "\n")
            .chars()
            .filter(|c| *c == '\n' || *c == '\t' || !c.is_control())
            .collect();
        let length = text.chars().count();
        if length > most {
            self.refuse_by_name(name, &format!("this has {length} characters. Use at most {most}."));
        }
        text
    }

    /// A text that must not be empty; `missing` says what to enter.
    pub fn required(&mut self, name: &str, most: usize, missing: &str) -> String {
        let text = self.text(name, most);
        if text.is_empty() {
            self.refuse(name, missing);
        }
        text
    }

    /// A long text exactly as it was sent, since its lines are counted. Refused where it was sent twice.
    pub fn verbatim(&mut self, name: &str) -> String {
        self.refuse_twice(name);
        self.value(name).to_owned()
    }

    /// A password exactly as typed: never trimmed, never cleaned.
    pub fn password(&mut self, name: &str) -> String {
        self.refuse_twice(name);
        self.value(name).to_owned()
    }

    /// A whole number within `low..=high`, or nothing. `label` is the field's on the page: the message begins with it, so
    /// that it can be understood in the summary as well.
    pub fn whole(&mut self, name: &str, label: &str, low: i16, high: i16) -> Option<i16> {
        let text = self.single(name).replace(' ', "");
        if text.is_empty() {
            return None;
        }
        match text.parse::<i16>() {
            Ok(n) if (low..=high).contains(&n) => Some(n),
            _ => {
                self.refuse(name, format!("{}: enter a whole number from {low} to {high}.", named(label)));
                None
            }
        }
    }

    /// A number within `low..=high`, with a point or a comma, or nothing. `label` as for [`Self::whole`].
    pub fn decimal(&mut self, name: &str, label: &str, low: f64, high: f64) -> Option<f64> {
        let text = self.single(name).replace(' ', "").replace(',', ".").replace('−', "-");
        if text.is_empty() {
            return None;
        }
        match text.parse::<f64>() {
            Ok(n) if n.is_finite() && (low..=high).contains(&n) => Some(n),
            _ => {
                self.refuse(name, format!("{}: enter a number from {low} to {high}.", named(label)));
                None
            }
        }
    }

    /// A word of a closed set, or nothing.
    pub fn word<W: Word>(&mut self, name: &str) -> Option<W> {
        let text = self.single(name);
        if text.is_empty() {
            return None;
        }
        let word = W::from_stored(&text);
        if word.is_none() {
            self.refuse_by_name(name, "choose one of the answers.");
        }
        word
    }

    /// Ticked words of a closed set.
    pub fn ticked<W: Word>(&mut self, name: &str) -> Vec<W> {
        let texts: Vec<String> = self.values(name).into_iter().map(str::to_owned).collect();
        let words: Vec<W> = texts.iter().filter_map(|t| W::from_stored(t)).collect();
        if words.len() < texts.iter().filter(|t| !t.is_empty()).count() {
            self.refuse_by_name(name, "choose from the answers shown.");
        }
        words
    }

    /// Yes, no or not stated.
    pub fn yes_no(&mut self, name: &str) -> Option<bool> {
        match self.single(name).as_str() {
            "yes" => Some(true),
            "no" => Some(false),
            "" => None,
            _ => {
                self.refuse_by_name(name, "choose yes or no, or leave it open.");
                None
            }
        }
    }

    /// Whether a single tick is set.
    pub fn tick(&mut self, name: &str) -> bool {
        let text = self.single(name);
        let is_set = matches!(text.as_str(), "yes" | "on" | "true");
        if !is_set && !text.is_empty() {
            self.refuse_by_name(name, "tick this, or leave it.");
        }
        is_set
    }

    /// An id, or nothing.
    pub fn id<T: FromStr>(&mut self, name: &str) -> Option<T> {
        let text = self.single(name);
        if text.is_empty() {
            return None;
        }
        let id = text.parse().ok();
        if id.is_none() {
            self.refuse_by_name(name, "choose one of the answers.");
        }
        id
    }

    /// Every id sent under a name.
    pub fn ids<T: FromStr>(&mut self, name: &str) -> Vec<T> {
        let read: Vec<Option<T>> =
            self.values(name).into_iter().map(|text| text.trim().parse().ok()).collect();
        if read.iter().any(Option::is_none) {
            self.refuse_by_name(name, "choose from the answers shown.");
        }
        read.into_iter().flatten().collect()
    }

    /// A date as browsers send it (2026-03-14), or nothing.
    pub fn date(&mut self, name: &str) -> Option<Date> {
        let text = self.single(name);
        if text.is_empty() {
            return None;
        }
        let date = Date::parse(&text, format_description!("[year]-[month]-[day]")).ok();
        if date.is_none() {
            self.refuse_by_name(name, "enter a date as year-month-day, such as 2026-03-14.");
        }
        date
    }

    /// An e-mail address in lower case. Only its shape is checked; whether it exists only a message can tell.
    pub fn email(&mut self, name: &str, missing: &str) -> String {
        let email = self.required(name, 254, missing).to_lowercase();
        let shaped = email.split_once('@').is_some_and(|(user, host)| {
            !user.is_empty() && host.contains('.') && !host.starts_with('.') && !host.ends_with('.')
        });
        if !email.is_empty() && (!shaped || email.contains(char::is_whitespace)) {
            self.refuse(name, "Enter an e-mail address such as name@example.org.");
        }
        email
    }

    /// Reads an urlencoded body. A NUL goes, since a page cannot give it back.
    pub fn parse(body: &[u8]) -> Self {
        let pairs =
            form_urlencoded::parse(body).map(|(n, v)| (n.into_owned(), v.replace('\0', ""))).collect();
        Self { pairs, errors: Vec::new() }
    }
}

/// A label as a message begins with it.
pub fn named(label: &str) -> &str {
    label.trim_end_matches('?')
}

impl<S: Send + Sync> FromRequest<S> for Form {
    type Rejection = WebError;

    async fn from_request(request: Request, state: &S) -> Result<Self, WebError> {
        let kind =
            request.headers().get(header::CONTENT_TYPE).and_then(|v| v.to_str().ok()).unwrap_or_default();
        if kind.split(';').next().map(str::trim) != Some("application/x-www-form-urlencoded") {
            return Err(WebError::Status(StatusCode::UNSUPPORTED_MEDIA_TYPE));
        }
        let body = Bytes::from_request(request, state).await.map_err(|e| WebError::Status(e.status()))?;
        Ok(Self::parse(&body))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::vocabulary::Clip;

    #[test]
    fn what_was_typed_is_kept_and_every_field_is_judged() {
        let mut form = Form::parse(b"name=+Ada+&kg=12%2C5&age=x&clip=collar");
        assert_eq!(form.required("name", 10, "Enter a name."), "Ada");
        assert_eq!(form.decimal("kg", "Weight", 0.1, 100.0), Some(12.5));
        assert_eq!(form.whole("age", "Age", 0, 20), None);
        assert_eq!(form.word::<Clip>("clip"), Some(Clip::Collar));
        assert_eq!(form.errors(), [("age".to_owned(), "Age: enter a whole number from 0 to 20.".to_owned())]);
        assert_eq!(form.value("age"), "x");
    }

    #[test]
    fn a_field_sent_twice_is_refused() {
        let mut form = Form::parse(b"dog=1&dog=2");
        form.text("dog", 10);
        assert!(form.error("dog").is_some());
    }

    #[test]
    fn hostile_text_stays_text_and_control_characters_go() {
        let mut form = Form::parse(b"note=%00%3Cb%3E%0D%0Ax");
        assert_eq!(form.text("note", 100), "<b>\nx");
    }

    #[test]
    fn an_address_needs_the_shape_of_one() {
        for (text, good) in
            [("a@b.org", true), ("A@B.org", true), ("a@b", false), ("a b@c.org", false), ("@b.org", false)]
        {
            let mut form = Form::blank().with("email", text);
            form.email("email", "Enter an address.");
            assert_eq!(form.is_fine(), good, "{text}");
        }
    }
}
