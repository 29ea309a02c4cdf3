//! Whether a trainer has looked at what a household told: what both read of it, and the buttons that say so.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use time::{Date, OffsetDateTime};

use crate::actions::look_at::{Looked, look_at, look_at_all};
use crate::app::App;
use crate::ids::{DogId, EncounterId, PracticeLogId};
use crate::store::look::{Look, Of};
use crate::store::sign_in::SignedIn;
use crate::store::{dog, encounter, practice_log};
use crate::web::{Answer, At, Form, TrainerOnly, WebError, zones};

/// How somebody's telling stands with the trainers.
pub struct LookView {
    /// The wording that is shown: how often it was changed.
    pub revision: i32,
    /// Who looked at this wording, and on which day: nobody reads at what hour of the night.
    pub looked: Option<String>,
    /// Whether an earlier wording was looked at, and this one not yet.
    pub is_changed_since: bool,
}

impl LookView {
    /// Of something with so many changes, told by a household.
    pub fn of(look: Option<Look>, revision: i32, zone: &str, today: Date) -> Self {
        let (seen, before): (Option<Look>, Option<Look>) = match look {
            Some(look) if look.revision >= revision => (Some(look), None),
            other => (None, other),
        };
        let words = |look: Look| {
            format!("Looked at by {}, {}", look.by, zones::day(zones::local_date(look.at, zone), today))
        };
        Self { revision, looked: seen.map(words), is_changed_since: before.is_some() }
    }
}

async fn say(mut who: SignedIn, app: &App, dog: DogId, of: Of, mut form: Form, path: &str) -> Answer {
    dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let is_there = match of {
        Of::Log(id) => practice_log::find(&mut who.tx, dog, id).await?.is_some(),
        Of::Encounter(id) => encounter::find(&mut who.tx, dog, id).await?.is_some(),
    };
    if !is_there {
        return Err(WebError::NotFound);
    }
    let said = form.values("looked").join(" ");
    let looked = match (said.as_str(), form.text("revision", 10).parse()) {
        ("not_yet", _) => Looked::NotYet,
        ("yes", Ok(revision)) => Looked::At(revision),
        _ => return Err(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY)),
    };
    let path = if form.value("back") == "review" { "/review" } else { path };
    look_at(who.tx, &who.actor, dog, of, looked, &app.moment()).await?;
    let notice = if looked == Looked::NotYet { "not-looked" } else { "looked" };
    Ok(Redirect::to(&format!("{path}?notice={notice}")).into_response())
}

/// Looked at a sitting, or not yet.
pub async fn log(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    TrainerOnly(who): TrainerOnly,
    form: Form,
) -> Answer {
    say(who, &app, dog, Of::Log(log), form, &format!("/dogs/{dog}/log/{log}")).await
}

/// Looked at an encounter, or not yet.
pub async fn encounter(
    State(app): State<App>,
    At((dog, encounter)): At<(DogId, EncounterId)>,
    TrainerOnly(who): TrainerOnly,
    form: Form,
) -> Answer {
    say(who, &app, dog, Of::Encounter(encounter), form, &format!("/dogs/{dog}/encounters/{encounter}")).await
}

/// When a page was made, for its form: in microseconds.
pub fn made_at(now: OffsetDateTime) -> String {
    (now.unix_timestamp_nanos() / 1000).to_string()
}

/// When the page of a form was made, where it says so: no page is older than a year.
pub fn until(form: &Form, now: OffsetDateTime) -> Option<OffsetDateTime> {
    let micros = form.value("until").parse::<i64>().ok()?;
    let at = OffsetDateTime::from_unix_timestamp_nanos(i128::from(micros) * 1000).ok()?;
    (at <= now && now - at < time::Duration::days(366)).then_some(at)
}

/// Looked at everything that was told until the page was made.
pub async fn all(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    form: Form,
) -> Answer {
    dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let until = until(&form, app.moment().at).ok_or(WebError::Status(StatusCode::BAD_REQUEST))?;
    look_at_all(who.tx, &who.actor, dog, until, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/log?notice=looked")).into_response())
}
