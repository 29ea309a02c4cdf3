//! A dog's profile: everything stated about it, and the short page of each section.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::actions::edit_dog::edit_dog;
use crate::app::App;
use crate::domain::dog::Weighing;
use crate::domain::vocabulary::{Activity, BirthPrecision, Coat, DayOfWeek, Phase, Sex, VetStatus};
use crate::ids::DogId;
use crate::store::dog::Dog;
use crate::store::reading::Together;
use crate::store::reinforcer::{self, Reinforcer};
use crate::store::trigger::{self, Trigger};
use crate::store::{dog_profile, dog_weight, life_event, off_lead_permission, place};
use crate::web::choices::{self, Choices, YES_NO};
use crate::web::dogs::facts::{self, Facts};
use crate::web::dogs::food::FoodView;
use crate::web::dogs::places::PlaceRow;
use crate::web::dogs::section::Section;
use crate::web::dogs::{load, section_form, trainers};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::life::LifeView;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

/// How much of its life the profile shows.
const LATEST_LIFE: usize = 5;
/// How many weighings the profile shows.
const LATEST_WEIGHTS: i64 = 5;

#[derive(Template, WebTemplate)]
#[template(path = "dogs/profile.html")]
struct ProfilePage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    age: Option<String>,
    sections: Vec<Facts>,
    weights: Vec<Weighing>,
    triggers: Vec<Trigger>,
    reinforcers: Vec<Reinforcer>,
    places: Vec<PlaceRow>,
    life: Vec<LifeView>,
    food: FoodView,
    today: time::Date,
}

/// Everything stated about a dog.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let tx = &mut who.tx;
    let profile = dog_profile::find(tx, dog.id).await?.ok_or(WebError::NotFound)?;
    let ((weights, triggers, reinforcers), (places, permissions), (life, food)) = (
        (dog_weight::of_dog(dog.id, LATEST_WEIGHTS), trigger::of_dog(dog.id), reinforcer::of_dog(dog.id))
            .together(),
        (place::of_dog(dog.id), off_lead_permission::of_dog(dog.id)).together(),
        (life_event::of_dog(dog.id, None), FoodView::of(dog.id, today)).together(),
    )
        .together()
        .read(tx)
        .await?;
    Ok(ProfilePage {
        page: Page::of(&who, format!("{}: profile", dog.name), "caseload").with_notice(notice::of(&query)),
        tab: "profile",
        age: facts::age(&profile.identity, today),
        sections: facts::of(&profile, &dog.trainer_name, today),
        weights,
        triggers,
        reinforcers,
        life: life.into_iter().take(LATEST_LIFE).map(|event| LifeView::of(event, true, today)).collect(),
        places: PlaceRow::all(places, &permissions, &dog.zone, today),
        food,
        today,
        dog,
    }
    .into_response())
}

#[derive(Template, WebTemplate)]
#[template(path = "dogs/edit.html")]
struct EditPage {
    page: Page,
    form: Form,
    dog: Dog,
    section: Section,
    precisions: Choices,
    sexes: Choices,
    activities: Choices,
    coats: Choices,
    vet: Choices,
    phases: Choices,
    days: Choices,
    yes_no: [(&'static str, &'static str); 2],
    trainers: Choices,
}
form_pages!(EditPage);

impl EditPage {
    fn of(page: Page, form: Form, dog: Dog, section: Section, trainers: Choices) -> Self {
        Self {
            page,
            form,
            dog,
            section,
            precisions: choices::words::<BirthPrecision>(),
            sexes: choices::words::<Sex>(),
            activities: choices::words::<Activity>(),
            coats: choices::words::<Coat>(),
            vet: choices::words::<VetStatus>(),
            phases: choices::words::<Phase>(),
            days: choices::words::<DayOfWeek>(),
            yes_no: YES_NO,
            trainers,
        }
    }
}

/// The short page of a section.
pub async fn edit(At((dog, section)): At<(DogId, String)>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = load(&mut who, dog).await?;
    let section = Section::named(&section).ok_or(WebError::NotFound)?;
    let profile = dog_profile::find(&mut who.tx, dog.id).await?.ok_or(WebError::NotFound)?;
    let trainers = trainers(&mut who.tx).await?;
    let page = Page::of(&who, format!("{}: {}", dog.name, section.title().to_lowercase()), "caseload");
    Ok(EditPage::of(page, section_form::filled(section, &profile), dog, section, trainers).into_response())
}

/// Changes a section.
pub async fn submit(
    State(app): State<App>,
    At((dog, section)): At<(DogId, String)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let section = Section::named(&section).ok_or(WebError::NotFound)?;
    let moment = app.moment();
    let said = section_form::read(section, &mut form, zones::local_date(moment.at, &dog.zone));
    let trainers = trainers(&mut who.tx).await?;
    let page = Page::of(&who, format!("{}: {}", dog.name, section.title().to_lowercase()), "caseload");
    let (id, page) = (dog.id, EditPage::of(page, form, dog, section, trainers));
    let Some(said) = said.filter(|_| page.form.is_fine()) else { return Ok(page.again()) };
    let done = edit_dog(who.tx, &who.actor, id, &said, &moment).await;
    page.settle(done, &format!("/dogs/{id}/profile?notice=saved"))
}
