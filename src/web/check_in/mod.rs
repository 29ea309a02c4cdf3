//! "Still going well?", asked on Today once a fortnight while a plan is only kept up; and asking to come back.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::check_in::{CheckInInput, ask_to_come_back, check_in};
use crate::app::App;
use crate::domain::vocabulary::StillWell;
use crate::ids::{CheckInId, DogId, MessageId};
use crate::store::dog::{self, Dog};
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, OwnerOnly, Page, WebError, own_dog, zones};

/// The most characters of what is said with it: a message holds more.
const LONGEST: usize = 2000;

#[derive(Template, WebTemplate)]
#[template(path = "check_in/show.html")]
struct SlippingPage {
    page: Page,
    form: Form,
    dog: Dog,
    id: String,
    replies: String,
}
form_pages!(SlippingPage);

async fn page(who: &mut SignedIn, dog: Dog, id: CheckInId, form: Form) -> Result<SlippingPage, WebError> {
    Ok(SlippingPage {
        page: own_dog::page(who, "Slipping a little?", "today").await?.with_errors(&form),
        form,
        id: id.to_string(),
        replies: who.practice.replies.clone(),
        dog,
    })
}

/// The page for whoever says that it slips.
pub async fn show(State(app): State<App>, At(dog): At<DogId>, OwnerOnly(mut who): OwnerOnly) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    Ok(page(&mut who, dog, app.moment().id(), Form::blank()).await?.into_response())
}

/// Keeps the answer.
pub async fn say(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let id: CheckInId = form.id("id").ok_or(WebError::Status(StatusCode::BAD_REQUEST))?;
    // a button or the page itself says it, so that there is no field to say it at
    let answer: Option<StillWell> = form.word("answer");
    let answer =
        answer.filter(|_| form.is_fine()).ok_or(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY))?;
    let words = form.text("words", LONGEST);
    if !form.is_fine() {
        return Ok(page(&mut who, dog, id, form).await?.again());
    }
    let moment = app.moment();
    let on = zones::local_date(moment.at, &dog.zone);
    let input = CheckInInput { id, dog: dog.id, answer, on, words: &words };
    check_in(who.tx, &who.actor, &input, &moment).await?;
    let to = match answer {
        StillWell::StillGood => format!("/today?dog={}&notice=still-good", dog.id),
        StillWell::Slipping => format!("/messages?dog={}&notice=slipping-said", dog.id),
    };
    Ok(Redirect::to(&to).into_response())
}

/// Asks to come back.
pub async fn come_back(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?.id;
    let message: MessageId = form.id("message").ok_or(WebError::Status(StatusCode::BAD_REQUEST))?;
    ask_to_come_back(who.tx, &who.actor, dog, message, &app.moment()).await?;
    Ok(Redirect::to(&format!("/messages?dog={dog}&notice=come-back-asked")).into_response())
}
