//! What the practice holds about a dog's health, for its household. Trainers' notes and history are not here.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::actions::record_weight::record_weight;
use crate::app::App;
use crate::domain::dog::Weighing;
use crate::ids::DogId;
use crate::store::dog::Dog;
use crate::store::reading::Together;
use crate::store::sign_in::SignedIn;
use crate::store::{dog_profile, dog_weight};
use crate::web::dogs::food::FoodView;
use crate::web::dogs::{facts, load, weights};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, OwnerOnly, Page, WebError, notice, own_dog, zones};

#[derive(Template, WebTemplate)]
#[template(path = "dogs/health.html")]
struct HealthPage {
    page: Page,
    form: Form,
    dog: Dog,
    medicines: Option<String>,
    allergies: Option<String>,
    vet: String,
    weights: Vec<Weighing>,
    food: FoodView,
    today: Date,
}
form_pages!(HealthPage);

async fn page(who: &mut SignedIn, dog: Dog, form: Form, today: Date) -> Result<HealthPage, WebError> {
    let profile = dog_profile::find(&mut who.tx, dog.id).await?.ok_or(WebError::NotFound)?;
    let (weights, food) = (dog_weight::of_dog(dog.id, weights::SHOWN), FoodView::of(dog.id, today))
        .together()
        .read(&mut who.tx)
        .await?;
    Ok(HealthPage {
        page: own_dog::page(who, format!("{}'s health", dog.name), "today").await?,
        form,
        dog,
        medicines: facts::text(&profile.health.medicines),
        allergies: facts::text(&profile.health.allergies),
        vet: facts::vet(&profile.vet, today),
        weights,
        food,
        today,
    })
}

/// What the practice holds.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    OwnerOnly(mut who): OwnerOnly,
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
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let (id, moment) = (dog.id, app.moment());
    let today = zones::local_date(moment.at, &dog.zone);
    let weight = weights::read(&mut form, today);
    let page = page(&mut who, dog, form, today).await?;
    let Some(weight) = weight else { return Ok(page.again()) };
    let done = record_weight(who.tx, &who.actor, id, weight, &moment).await;
    page.settle(done, &format!("/dogs/{id}/health?notice=weight-saved"))
}
