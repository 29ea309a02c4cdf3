//! A message that came by another way, pasted: the form of an encounter or of a sitting, with the message as its note.

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::IntoResponse;

use crate::app::App;
use crate::domain::encounter::first_guess;
use crate::domain::vocabulary::Word;
use crate::ids::{DogId, PlanItemId};
use crate::store::{dog, place, trigger};
use crate::web::encounters::new;
use crate::web::practice_logs::ask::Ask;
use crate::web::practice_logs::new::{form_page, practised};
use crate::web::{Answer, At, Form, TrainerOnly, WebError, conversations};

/// The most characters of a note.
const LONGEST: usize = 2000;

/// Opens the form that was asked for. Nothing is kept yet.
pub async fn open(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let note = form.required("pasted", LONGEST, "Paste what they wrote first.");
    let item: Option<PlanItemId> = form.id("practised");
    let what = form.text("as", 20);
    if !["encounter", "log"].contains(&what.as_str()) {
        form.refuse("as", "Say what it tells of: something happened, or they practised.");
    }
    if what == "log" && item.is_none() {
        form.refuse("practised", "Choose what they practised.");
    }
    if !form.is_fine() {
        let page = conversations::page(&app, &mut who, dog.id, form, ("", None)).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let moment = app.moment();
    if what == "encounter" {
        let triggers = trigger::of_dog(dog.id).read(&mut who.tx).await?;
        let kind = first_guess(&note).map_or("", Word::stored);
        let filled = Form::blank().with("kind", kind).with("note", note);
        return new::form_page(&mut who, moment.id(), dog, &triggers, None, filled).await;
    }
    let item = item.ok_or(WebError::NotFound)?;
    let item = practised(&mut who, dog.id, item).await?;
    let places = place::of_dog(dog.id).read(&mut who.tx).await?;
    let id = moment.id::<crate::ids::PracticeLogId>().to_string();
    let filled = Form::blank().with("note", note).with("passed_on", "yes");
    form_page(&mut who, Ask::new(id, dog, item, &places, true), filled).await
}
