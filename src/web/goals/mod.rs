//! How near a household feels to what it hopes for, and how sure of itself: asked on the first page once a month, told at any time, and
//! written down by a trainer who was told in a lesson.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use time::Date;

use crate::actions::tell_goal::tell_goal;
use crate::app::App;
use crate::domain::goal::{is_due, moved};
use crate::domain::vocabulary::Role;
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::goal_reading::{self, GoalReading, Told};
use crate::store::reading::Reading;
use crate::store::sign_in::SignedIn;
use crate::web::choices::Choices;
use crate::web::{Answer, AnyMember, At, Form, Page, WebError, own_dog, zones};

/// How many readings are read: two years of them.
const MOST: i64 = 24;

/// The marks to choose from.
pub fn marks() -> Choices {
    (0..=10).map(|mark| (mark.to_string(), mark.to_string())).collect()
}

/// One reading in words.
pub struct Past {
    /// The day.
    pub day: String,
    /// The marks.
    pub marks: String,
    /// The note.
    pub note: String,
    /// Who told it.
    pub by: String,
}

/// Where the goal stands.
pub struct GoalView {
    /// How near it feels, with how that moved.
    pub nearness: Option<String>,
    /// The same of how sure they feel.
    pub confidence: Option<String>,
    /// Who told the last reading.
    pub by: String,
    /// Whether to ask.
    pub is_due: bool,
    /// Whether it was said today already.
    pub is_said: bool,
    /// The readings, the newest first.
    pub past: Vec<Past>,
    last: Option<GoalReading>,
}

impl GoalView {
    /// Of a dog on a day.
    pub fn of(dog: DogId, today: Date) -> Reading<Self> {
        goal_reading::of_dog(dog, MOST).then(move |readings| Ok(Self::told(readings, today)))
    }

    fn told(readings: Vec<GoalReading>, today: Date) -> Self {
        let near: Vec<(Date, i16)> = readings.iter().map(|r| (r.on, r.nearness)).collect();
        let sure: Vec<(Date, i16)> =
            readings.iter().filter_map(|r| r.confidence.map(|confidence| (r.on, confidence))).collect();
        Self {
            nearness: moved(&near, today),
            confidence: moved(&sure, today),
            by: readings.first().map(told_by).unwrap_or_default(),
            is_due: is_due(readings.first().map(|last| last.on), today),
            is_said: readings.first().is_some_and(|last| last.on == today),
            past: readings.iter().map(|reading| Past::of(reading, today)).collect(),
            last: readings.into_iter().next(),
        }
    }

    /// The form: filled with what was said today.
    fn form(&self) -> Form {
        match self.last.as_ref().filter(|_| self.is_said) {
            Some(last) => Form::blank()
                .with("nearness", last.nearness.to_string())
                .with("confidence", last.confidence.map(|mark| mark.to_string()).unwrap_or_default())
                .with("note", &last.note),
            None => Form::blank(),
        }
    }
}

fn told_by(reading: &GoalReading) -> String {
    if reading.told_to_trainer {
        format!("told to their trainer, {}", reading.by)
    } else {
        reading.by.clone()
    }
}

impl Past {
    fn of(reading: &GoalReading, today: Date) -> Self {
        let sure = reading.confidence.map_or(String::new(), |mark| format!(", how sure: {mark} of 10"));
        Self {
            day: zones::day(reading.on, today),
            marks: format!("How near: {} of 10{sure}", reading.nearness),
            note: reading.note.clone(),
            by: told_by(reading),
        }
    }
}

#[derive(Template, WebTemplate)]
#[template(path = "goals/owner.html")]
struct OwnerPage {
    page: Page,
    form: Form,
    dog: Dog,
    view: GoalView,
    marks: Choices,
}

#[derive(Template, WebTemplate)]
#[template(path = "goals/trainer.html")]
struct TrainerPage {
    page: Page,
    form: Form,
    dog: Dog,
    view: GoalView,
    marks: Choices,
}

async fn page(
    who: &mut SignedIn,
    dog: Dog,
    form: Option<Form>,
    today: Date,
) -> std::result::Result<Response, WebError> {
    let view = GoalView::of(dog.id, today).read(&mut who.tx).await?;
    let form = form.unwrap_or_else(|| view.form());
    let status = form.status();
    let title = format!("{}: how near", dog.name);
    let marks = marks();
    if who.member.role == Role::Owner {
        let page = own_dog::page(who, title, "progress").await?.with_errors(&form);
        return Ok((status, OwnerPage { page, form, dog, view, marks }).into_response());
    }
    let page = Page::of(who, title, "caseload").with_errors(&form);
    Ok((status, TrainerPage { page, form, dog, view, marks }).into_response())
}

/// The form, with what was said before.
pub async fn show(State(app): State<App>, At(dog): At<DogId>, AnyMember(mut who): AnyMember) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    page(&mut who, dog, None, today).await
}

/// Tells it.
pub async fn tell(
    State(app): State<App>,
    At(dog): At<DogId>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let nearness = form.whole("nearness", "How near", 0, 10);
    if nearness.is_none() {
        form.refuse("nearness", "Choose a number from 0 to 10 for how near it feels.");
    }
    let confidence = form.whole("confidence", "How sure", 0, 10);
    if confidence.is_none() {
        form.refuse("confidence", "Choose a number from 0 to 10 for how sure of it you feel.");
    }
    let note = form.text("note", 300);
    let (Some(nearness), Some(confidence), true) = (nearness, confidence, form.is_fine()) else {
        return page(&mut who, dog, Some(form), today).await;
    };
    let told = Told { on: today, nearness, confidence, note };
    let is_owner = who.member.role == Role::Owner;
    tell_goal(who.tx, &who.actor, dog.id, &told, &moment).await?;
    let to = match is_owner {
        true => format!("/progress?dog={}&notice=goal-told", dog.id),
        false => format!("/dogs/{}?notice=goal-kept", dog.id),
    };
    Ok((StatusCode::SEE_OTHER, Redirect::to(&to)).into_response())
}
