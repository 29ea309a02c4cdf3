//! What a dog weighed, as its trainer keeps it.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::actions::record_weight::record_weight;
use crate::actions::remove_weight::remove_weight;
use crate::app::App;
use crate::domain::dog::Weighing;
use crate::ids::DogId;
use crate::store::dog::Dog;
use crate::store::dog_weight;
use crate::store::sign_in::SignedIn;
use crate::web::dogs::section_form::HEAVIEST;
use crate::web::dogs::{load, past_day};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

/// How many weighings a page shows.
pub(super) const SHOWN: i64 = 100;

#[derive(Template, WebTemplate)]
#[template(path = "dogs/weights.html")]
struct WeightsPage {
    page: Page,
    form: Form,
    dog: Dog,
    weights: Vec<Weighing>,
    today: Date,
}
form_pages!(WeightsPage);

async fn page(who: &mut SignedIn, dog: Dog, form: Form, today: Date) -> Result<WeightsPage, WebError> {
    let weights = dog_weight::of_dog(dog.id, SHOWN).read(&mut who.tx).await?;
    Ok(WeightsPage {
        page: Page::of(who, format!("{}: weight", dog.name), "caseload"),
        form,
        dog,
        weights,
        today,
    })
}

/// The weighing in a form; what is wrong with it is in the form.
pub(super) fn read(form: &mut Form, today: Date) -> Option<Weighing> {
    let on = past_day(form, "on", today);
    let kg = form.decimal("kg", "Weight", 0.1, HEAVIEST);
    if on.is_none() {
        form.refuse("on", "Enter the day of the weighing.");
    }
    if kg.is_none() {
        form.refuse("kg", "Weight: enter the kilograms, such as 12.5.");
    }
    Some(Weighing { on: on?, kg: kg? }).filter(|_| form.is_fine())
}

/// The weighings, and a form for one more.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let mut page = page(&mut who, dog, Form::blank().with("on", today.to_string()), today).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Records a weighing.
pub async fn record(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let (id, moment) = (dog.id, app.moment());
    let today = zones::local_date(moment.at, &dog.zone);
    let weight = read(&mut form, today);
    let page = page(&mut who, dog, form, today).await?;
    let Some(weight) = weight else { return Ok(page.again()) };
    let done = record_weight(who.tx, &who.actor, id, weight, &moment).await;
    page.settle(done, &format!("/dogs/{id}/weights?notice=saved"))
}

/// Removes the weighing of a day.
pub async fn remove(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let on = form.date("on").ok_or(WebError::NotFound)?;
    remove_weight(who.tx, &who.actor, dog.id, on, &app.moment()).await?;
    Ok(axum::response::Redirect::to(&format!("/dogs/{}/weights?notice=removed", dog.id)).into_response())
}
