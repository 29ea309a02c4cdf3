//! The owner's side: about eight short pages that are kept as they go, on whichever phone of the household.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use uuid::Uuid;

use crate::actions::save_intake::{save_intake, take_incident_out};
use crate::actions::send_intake::send_intake;
use crate::app::App;
use crate::domain::intake::IntakePage;
use crate::domain::intake::answers::{Answers, Incident};
use crate::domain::vocabulary::{Children, DayOfWeek, Word};
use crate::ids::{DogId, MessageId};
use crate::store::dog::{self, Dog};
use crate::store::intake::{self, Intake};
use crate::store::sign_in::SignedIn;
use crate::web::choices::{self, Choices, YES_NO};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::intake::{PageView, fields, pages};
use crate::web::{Answer, At, Form, OwnerOnly, Page, WebError, notice, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "intake/tell.html")]
struct TellPage {
    page: Page,
    dog: Dog,
    pages: Vec<PageView>,
    done: usize,
    /// Whether the trainer has it as it is now.
    is_sent: bool,
    signed: bool,
    id: MessageId,
}

#[derive(Template, WebTemplate)]
#[template(path = "intake/page.html")]
struct OnePage {
    page: Page,
    form: Form,
    dog: Dog,
    which: IntakePage,
    number: usize,
    all: usize,
    /// The incidents that were told.
    incidents: Vec<Incident>,
    children: Choices,
    days: Choices,
    yes_no: [(&'static str, &'static str); 2],
    keeper: String,
}
form_pages!(OnePage);

/// The dog, and the intake that was asked for it.
async fn asked(who: &mut SignedIn, dog: DogId) -> Result<(Dog, Intake), WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let intake = intake::find(&mut who.tx, dog.id).await?.ok_or(WebError::NotFound)?;
    Ok((dog, intake))
}

fn named(text: &str) -> Result<IntakePage, WebError> {
    IntakePage::from_stored(text).ok_or(WebError::NotFound)
}

/// All pages, to look over before they are sent.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let (dog, intake) = asked(&mut who, dog).await?;
    let title = format!("About {}", dog.name);
    let page = own_dog::page(&mut who, title, "today").await?.with_notice(notice::of(&query));
    let pages = pages(&intake.answers);
    let signed = crate::store::consent::latest(&mut who.tx, dog.id).await?.is_some();
    Ok(TellPage {
        page,
        done: pages.iter().filter(|page| page.saved).count(),
        pages,
        is_sent: intake.sent_at.is_some_and(|sent| intake.saved_at.is_none_or(|saved| saved <= sent)),
        signed,
        id: app.moment().id(),
        dog,
    }
    .into_response())
}

/// Sends it to the trainer.
pub async fn send(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let moment = app.moment();
    let dog = asked(&mut who, dog).await?.0.id;
    let message = form.id("id").ok_or(WebError::Status(StatusCode::BAD_REQUEST))?;
    send_intake(who.tx, &who.actor, dog, message, &moment).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/tell?notice=intake-sent")).into_response())
}

async fn one(
    who: &mut SignedIn,
    (dog, answers): (Dog, &Answers),
    which: IntakePage,
    form: Form,
) -> Result<OnePage, WebError> {
    Ok(OnePage {
        page: own_dog::page(who, which.label(), "today").await?.with_errors(&form),
        form,
        which,
        number: 1 + IntakePage::ALL.iter().take_while(|page| **page != which).count(),
        all: IntakePage::ALL.len(),
        incidents: answers.teeth().incidents,
        children: choices::words::<Children>(),
        days: choices::words::<DayOfWeek>(),
        yes_no: YES_NO,
        keeper: who.actor.membership.to_string(),
        dog,
    })
}

/// One page.
pub async fn page(
    State(app): State<App>,
    At((dog, which)): At<(DogId, String)>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let (dog, intake) = asked(&mut who, dog).await?;
    let which = named(&which)?;
    let form = fields::filled(intake.answers.of(which))
        .with("incident", Uuid::to_string(&app.moment().id::<crate::ids::EncounterId>().0));
    let mut page = one(&mut who, (dog, &intake.answers), which, form).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Keeps a page and goes on to the next; to the same one where more is to be told there.
pub async fn keep(
    State(app): State<App>,
    At((dog, which)): At<(DogId, String)>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let (dog, intake) = asked(&mut who, dog).await?;
    let which = named(&which)?;
    let (moment, id) = (app.moment(), dog.id);
    if let Some(incident) = form.id::<Uuid>("take_out") {
        take_incident_out(who.tx, &who.actor, id, incident, &moment).await?;
        return Ok(Redirect::to(&format!("/dogs/{id}/tell/teeth")).into_response());
    }
    let said = fields::read(which, &mut form, zones::local_date(moment.at, &dog.zone));
    let again = form.tick("again");
    let page = one(&mut who, (dog, &intake.answers), which, form).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = save_intake(who.tx, &who.actor, id, said, &moment).await;
    let to = match which.next() {
        _ if again => format!("/dogs/{id}/tell/{}?notice=told", which.stored()),
        Some(next) => format!("/dogs/{id}/tell/{}", next.stored()),
        None => format!("/dogs/{id}/tell"),
    };
    page.settle(done, &to)
}
