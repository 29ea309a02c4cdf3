//! "I am not coping": a few kind words, room for a note, and whom to ring when it cannot wait.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::say_not_coping::say_not_coping as act;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::encounter::EncounterFacts;
use crate::domain::vocabulary::EncounterKind;
use crate::ids::{DogId, EncounterId, MessageId};
use crate::store::dog::Dog;
use crate::store::encounter::Encounter;
use crate::store::sign_in::SignedIn;
use crate::store::{dog, membership};
use crate::web::encounters::LONGEST_CALL;
use crate::web::{Answer, At, Form, OwnerOnly, Page, WebError, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "encounters/not_coping.html")]
struct NotCopingPage {
    page: Page,
    form: Form,
    dog: Dog,
    id: String,
    message: String,
    phone: String,
    replies: String,
}

async fn form_page(
    who: &mut SignedIn,
    dog: Dog,
    (id, message): (EncounterId, MessageId),
    form: Form,
) -> Result<Response, WebError> {
    let status = if form.is_fine() { StatusCode::OK } else { StatusCode::UNPROCESSABLE_ENTITY };
    let trainer = membership::find(dog.trainer).read(&mut who.tx).await?;
    let page = NotCopingPage {
        page: own_dog::page(who, "I am not coping", "today").await?.with_errors(&form),
        form,
        dog,
        id: id.to_string(),
        message: message.to_string(),
        phone: trainer.map(|trainer| trainer.phone).unwrap_or_default(),
        replies: who.practice.replies.clone(),
    };
    Ok((status, page).into_response())
}

/// The page.
pub async fn not_coping(State(app): State<App>, At(dog): At<DogId>, OwnerOnly(mut who): OwnerOnly) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment: Moment = app.moment();
    form_page(&mut who, dog, (moment.id(), moment.id()), Form::blank()).await
}

/// Says it to the trainer.
pub async fn say_not_coping(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let (id, message): (Option<EncounterId>, Option<MessageId>) = (form.id("id"), form.id("message"));
    let (Some(id), Some(message)) = (id, message) else {
        return Err(WebError::Status(StatusCode::BAD_REQUEST));
    };
    let note = form.text("note", LONGEST_CALL);
    if !form.is_fine() {
        return form_page(&mut who, dog, (id, message), form).await;
    }
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let said = Encounter {
        id,
        dog: dog.id,
        trigger: None,
        what: String::new(),
        playful: None,
        froze: None,
        place_name: String::new(),
        note,
        happened_at: moment.at,
        facts: EncounterFacts::on(today, EncounterKind::NotCoping),
    };
    act(who.tx, &who.actor, &said, message, None, &moment).await?;
    Ok(Redirect::to(&format!("/dogs/{}/encounters/{id}", dog.id)).into_response())
}
