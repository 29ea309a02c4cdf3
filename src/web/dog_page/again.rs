//! Working again with a dog whose work had ended: what opens again is said before it happens, and nothing is published by itself.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};
use time::Date;

use crate::actions::Refusal;
use crate::actions::work_again::{Reopening, mark, reopening, work_again};
use crate::app::App;
use crate::domain::readiness::reopen::Why;
use crate::ids::DogId;
use crate::store::dog::{self, Dog};
use crate::store::sign_in::SignedIn;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

#[derive(Template, WebTemplate)]
#[template(path = "dog_page/again.html")]
struct AgainPage {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    lines: Vec<Reopening>,
    saw: String,
}

async fn page(who: &mut SignedIn, dog: Dog, form: Form, today: Date) -> Result<AgainPage, WebError> {
    let zone = dog.zone.clone();
    let lines = reopening(&mut who.tx, dog.id, |at| zones::local_date(at, &zone), today).await?;
    Ok(AgainPage {
        page: Page::of(who, format!("{}: work again", dog.name), "caseload").with_errors(&form),
        tab: "overview",
        about: super::about(&dog, today),
        saw: mark(&lines),
        lines,
        form,
        dog,
    })
}

/// What would open again, and why.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let mut page = page(&mut who, dog, Form::blank(), today).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Does it, and leads to the draft.
pub async fn submit(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let today = zones::local_date(moment.at, &dog.zone);
    let saw = form.value("saw").trim().to_owned();
    let zone = dog.zone.clone();
    let day = |at| zones::local_date(at, &zone);
    match work_again(who.tx, &who.actor, dog.id, (&saw, today), day, &moment).await {
        Ok(opened) => {
            let notice = if opened == 0 { "works-again-as-is" } else { "works-again" };
            Ok(Redirect::to(&format!("/dogs/{}/plan/edit?notice={notice}", dog.id)).into_response())
        }
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let again: Response = page(&mut who, dog, form, today).await?.into_response();
            Ok((StatusCode::UNPROCESSABLE_ENTITY, again).into_response())
        }
        Err(other) => Err(other.into()),
    }
}
