//! Everything that happened with a dog, newest first. For trainers: lessons' own notes are in it.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::{Date, OffsetDateTime};

use crate::app::App;
use crate::domain::vocabulary::{Choice, EncounterKind, LifeKind, Severity, TimelineKind, Word};
use crate::domain::welfare;
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::timeline::{self, Happened, Place, Row};
use crate::web::{Answer, At, Page, TrainerOnly, WebError, dog_page, zones};

/// Rows on one page.
const A_PAGE: usize = 50;

/// One row as the page shows it.
struct Entry {
    day: String,
    time: String,
    /// What kind of thing it is.
    kind: &'static str,
    what: String,
    more: String,
    said: String,
    by: String,
    /// Where it can be read; empty where it stands whole in its row.
    href: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "timeline/show.html")]
struct TimelinePage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    about: String,
    entries: Vec<Entry>,
    chosen: Option<TimelineKind>,
    kinds: &'static [TimelineKind],
    /// The query of the older page, where there is one.
    older: Option<String>,
    newest: bool,
}

impl TimelinePage {
    /// Whether the page is narrowed to this.
    fn is_chosen(&self, kind: &TimelineKind) -> bool {
        self.chosen == Some(*kind)
    }
}

/// Where the older page begins: `<microseconds>.<id>.<number>`.
fn place_of(text: &str) -> Option<Place> {
    let mut parts = text.splitn(3, '.');
    let micros: i64 = parts.next()?.parse().ok()?;
    let at = OffsetDateTime::from_unix_timestamp_nanos(i128::from(micros) * 1000).ok()?;
    // the years that the database holds as well as we do
    (1970..=9999).contains(&at.year()).then_some(())?;
    Some(Place { at, id: parts.next()?.parse().ok()?, arm: parts.next()?.parse().ok()? })
}

fn text_of(place: &Place) -> String {
    format!("{}.{}.{}", place.at.unix_timestamp_nanos() / 1000, place.id, place.arm)
}

/// The page; `?kind=` narrows it, `?before=` goes on with what is older.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let chosen = match query.get("kind").filter(|text| !text.is_empty()) {
        Some(text) => Some(TimelineKind::from_stored(text).ok_or(WebError::NotFound)?),
        None => None,
    };
    let before = match query.get("before") {
        Some(text) => Some(place_of(text).ok_or(WebError::NotFound)?),
        None => None,
    };
    let most = i64::try_from(A_PAGE + 1).unwrap_or(i64::MAX);
    let mut rows = timeline::of_dog(&mut who.tx, dog.id, before, chosen, most).await?;
    let more = rows.len() > A_PAGE;
    rows.truncate(A_PAGE);
    let narrowed = chosen.map(|kind| format!("kind={}&", kind.stored())).unwrap_or_default();
    let page = TimelinePage {
        page: Page::of(&who, format!("{}: timeline", dog.name), "caseload"),
        tab: "timeline",
        about: dog_page::about(&dog, today),
        older: rows.last().filter(|_| more).map(|row| format!("{narrowed}before={}", text_of(&row.place))),
        newest: before.is_none(),
        entries: rows.into_iter().map(|row| entry(row, &dog, today)).collect(),
        chosen,
        kinds: TimelineKind::ALL,
        dog,
    };
    Ok(page.into_response())
}

fn label<W: Word>(stored: &str) -> String {
    W::from_stored(stored).map_or_else(|| stored.to_owned(), |word| word.label().to_owned())
}

fn rule(id: &str) -> String {
    welfare::rule(id).map_or_else(|| id.replace('_', " "), |rule| rule.title.to_owned())
}

fn entry(row: Row, dog: &Dog, today: Date) -> Entry {
    let Row { happened, place, on, what, said, more, by } = row;
    let local = zones::local(place.at, &dog.zone);
    // what is known by its day alone has no time of day
    let (day, time) = match (happened, on) {
        (Happened::Weight | Happened::Life, Some(on)) => (on, String::new()),
        _ => (local.date(), format!("{:02}:{:02}", local.hour(), local.minute())),
    };
    let (dog, id) = (dog.id, place.id);
    let none = String::new();
    let (kind, what, more, said, href) = match happened {
        Happened::Sitting => ("Sitting", what, more, said, format!("/dogs/{dog}/log/{id}")),
        Happened::Encounter => {
            let words = label::<EncounterKind>(&what);
            ("Encounter", words, more, said, format!("/dogs/{dog}/encounters/{id}"))
        }
        Happened::Raised => ("Raised", rule(&what), label::<Severity>(&more), said, format!("/flags/{id}")),
        Happened::Answered => ("Answered", rule(&what), none, said, format!("/flags/{id}")),
        Happened::Decided => ("Decision", what, label::<Choice>(&more), said, none),
        Happened::Published => {
            ("Plan", format!("Plan {what} published"), none, said, format!("/dogs/{dog}/plan/versions/{id}"))
        }
        Happened::Lesson => {
            let held = on.filter(|on| *on != day).map(|on| format!(", held {}", zones::day(on, today)));
            let own = if more.is_empty() { none } else { format!("For trainers: {more}") };
            (
                "Lesson",
                format!("Lesson{}", held.unwrap_or_default()),
                own,
                said,
                format!("/dogs/{dog}/lessons"),
            )
        }
        Happened::Message => {
            let wrote = by.as_ref().map_or_else(|| "Message".to_owned(), |by| format!("{by} wrote"));
            ("Message", wrote, none, said, format!("/dogs/{dog}/messages"))
        }
        Happened::Weight => ("Weight", format!("{what} kg"), none, said, format!("/dogs/{dog}/weights")),
        Happened::Life => {
            let until = Date::parse(&more, &time::format_description::well_known::Iso8601::DATE)
                .ok()
                .filter(|to| Some(*to) != on)
                .map(|to| format!("until {}", zones::day(to, today)));
            let words = label::<LifeKind>(&what);
            ("Life", words, until.unwrap_or_default(), said, format!("/dogs/{dog}/life/{id}"))
        }
        Happened::Goal => {
            let sure = if more.is_empty() { none } else { format!("How sure: {more} of 10") };
            ("Goal", format!("How near: {what} of 10"), sure, said, format!("/dogs/{dog}/goal"))
        }
        Happened::Phase => {
            let words = if what.is_empty() { "Another phase".to_owned() } else { what };
            ("Phase", words, none, said, String::new())
        }
    };
    let day = zones::day(day, today);
    let by = by.filter(|_| happened != Happened::Message).unwrap_or_default();
    Entry { day, time, kind, what, more, said, by, href }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_comes_back_out_of_its_text() {
        let place = Place {
            at: OffsetDateTime::UNIX_EPOCH + time::Duration::microseconds(1_773_308_200_000_001),
            id: uuid::Uuid::from_u128(7),
            arm: 4,
        };
        assert_eq!(place_of(&text_of(&place)), Some(place));
        for wrong in ["", "1", "1.2.3", "x.00000000-0000-0000-0000-000000000007.1", "99999999999999999999..1"]
        {
            assert_eq!(place_of(wrong), None, "{wrong}");
        }
    }
}
