//! My lessons: those to come day by day, one's own or everybody's, and those that wait for their note.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::{Date, OffsetDateTime};

use crate::actions::authorise;
use crate::app::App;
use crate::domain::access::Action;
use crate::ids::AppointmentId;
use crate::store::appointment::{self, Appointment};
use crate::web::lessons::booking::hours;
use crate::web::{Answer, AnyMember, Page, WebError, zones};

/// Lessons on one page.
const A_PAGE: usize = 30;
/// Lessons without a note that are shown.
const UNNOTED: i64 = 20;

/// One lesson of a list.
struct Line {
    lesson: Appointment,
    day: Date,
    /// From when to when, on the practice's clocks.
    hours: String,
    /// The same on the household's, where they differ.
    there: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "lessons/coming.html")]
struct ComingPage {
    page: Page,
    everyone: bool,
    /// Day by day.
    days: Vec<(String, Vec<Line>)>,
    unnoted: Vec<(String, Line)>,
    /// The query of the next page; empty on the last.
    later: String,
    /// Whether this is a later page of the list.
    is_later: bool,
}

/// The list.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    authorise(&who.actor, Action::SeeCaseload, None)?;
    let after = query.get("after").map(|text| place_of(text).ok_or(WebError::NotFound)).transpose()?;
    let everyone = query.get("show").is_some_and(|show| show == "everyone");
    let trainer = (!everyone).then_some(who.member.id);
    let now = app.moment().at;
    let zone = who.practice.zone.clone();
    let today = zones::local_date(now, &zone);
    let most = i64::try_from(A_PAGE + 1).unwrap_or(i64::MAX);
    let mut coming = appointment::coming(trainer, now, after, most).read(&mut who.tx).await?;
    let is_cut = coming.len() > A_PAGE;
    coming.truncate(A_PAGE);
    let later = coming.last().filter(|_| is_cut).map(|last| name_of(last, everyone)).unwrap_or_default();
    let unnoted = match after {
        Some(_) => Vec::new(),
        None => appointment::unnoted(trainer, now, UNNOTED).read(&mut who.tx).await?,
    };
    let mut days: Vec<(String, Vec<Line>)> = Vec::new();
    for line in coming.into_iter().map(|lesson| Line::of(lesson, &zone)) {
        match days.last_mut().filter(|(_, lines)| lines[0].day == line.day) {
            Some((_, lines)) => lines.push(line),
            None => days.push((day_words(line.day, today), vec![line])),
        }
    }
    let unnoted = unnoted.into_iter().map(|lesson| Line::of(lesson, &zone));
    let page = ComingPage {
        page: Page::of(&who, "Lessons", "lessons"),
        everyone,
        days,
        unnoted: unnoted.map(|line| (zones::day(line.day, today), line)).collect(),
        later,
        is_later: after.is_some(),
    };
    Ok(page.into_response())
}

impl Line {
    fn of(lesson: Appointment, zone: &str) -> Self {
        let hours_here = hours(&lesson.booking, zone);
        let there = hours(&lesson.booking, &lesson.booking.zone);
        Self {
            day: zones::local_date(lesson.booking.starts_at, zone),
            there: if there == hours_here { String::new() } else { there },
            hours: hours_here,
            lesson,
        }
    }
}

/// "Today, Thursday 12 March".
fn day_words(day: Date, today: Date) -> String {
    let words = zones::long_day(day);
    match (day - today).whole_days() {
        0 => format!("Today, {words}"),
        1 => format!("Tomorrow, {words}"),
        _ if day.year() != today.year() => format!("{words} {}", day.year()),
        _ => words,
    }
}

/// The query of the page that goes on after a lesson.
fn name_of(last: &Appointment, everyone: bool) -> String {
    let micros = last.booking.starts_at.unix_timestamp_nanos() / 1_000;
    format!("after={micros}_{}{}", last.id, if everyone { "&show=everyone" } else { "" })
}

/// The lesson after which a page goes on; `None` where the text names none.
fn place_of(text: &str) -> Option<(OffsetDateTime, AppointmentId)> {
    let (micros, id) = text.split_once('_')?;
    let micros: i64 = micros.parse().ok()?;
    let at = OffsetDateTime::from_unix_timestamp_nanos(i128::from(micros) * 1_000).ok()?;
    // the years that the database holds as well as we do
    (1970..=9999).contains(&at.year()).then_some((at, id.parse().ok()?))
}
