//! A new dog: one short page; the rest of the profile comes later.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::{IntoResponse, Redirect};

use crate::actions::Refusal;
use crate::actions::add_dog::{NewDog, add_dog};
use crate::app::App;
use crate::domain::dog::Weighing;
use crate::domain::vocabulary::{BirthPrecision, Phase, Sex, Word};
use crate::ids::{DogId, HouseholdId};
use crate::store::dog_profile::Care;
use crate::store::household::{self, Household};
use crate::store::sign_in::SignedIn;
use crate::web::choices::{self, Choices, YES_NO};
use crate::web::dogs::section_form::{HEAVIEST, identity, trainer};
use crate::web::dogs::trainers;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, zones};

#[derive(Template, WebTemplate)]
#[template(path = "dogs/new.html")]
struct NewPage {
    page: Page,
    form: Form,
    household: Household,
    precisions: Choices,
    sexes: Choices,
    yes_no: [(&'static str, &'static str); 2],
    trainers: Choices,
}
form_pages!(NewPage);

async fn page(who: &mut SignedIn, household: HouseholdId, form: Form) -> Result<NewPage, WebError> {
    let household = household::find(&mut who.tx, household).await?.ok_or(WebError::NotFound)?;
    Ok(NewPage {
        page: Page::of(who, "Add a dog", "households"),
        form,
        household,
        precisions: choices::words::<BirthPrecision>(),
        sexes: choices::words::<Sex>(),
        yes_no: YES_NO,
        trainers: trainers(&mut who.tx).await?,
    })
}

/// The page, with oneself as the trainer.
pub async fn show(
    State(app): State<App>,
    At(household): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let id: DogId = app.moment().id();
    let form = Form::blank()
        .with("id", id.to_string())
        .with("trainer", who.actor.membership.to_string())
        .with("birth_precision", BirthPrecision::Exact.stored());
    Ok(page(&mut who, household, form).await?.into_response())
}

/// Adds the dog.
pub async fn submit(
    State(app): State<App>,
    At(household): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
    form: Form,
) -> Answer {
    let mut page = page(&mut who, household, form).await?;
    let moment = app.moment();
    let id = page.form.id("id").unwrap_or_else(|| moment.id());
    let new = read(&mut page.form, id, zones::local_date(moment.at, &page.household.zone));
    let Some(new) = new.filter(|_| page.form.is_fine()) else { return Ok(page.again()) };
    match add_dog(who.tx, &who.actor, household, &new, &moment).await {
        Ok(dog) => Ok(Redirect::to(&format!("/dogs/{dog}/profile?notice=dog-added")).into_response()),
        Err(Refusal::Field { field, message }) => {
            page.form.refuse(field, message);
            Ok(page.again())
        }
        Err(other) => Err(other.into()),
    }
}

fn read(form: &mut Form, id: DogId, today: time::Date) -> Option<NewDog> {
    let identity = identity(form, today);
    let weight = form.decimal("kg", "Weight today", 0.1, HEAVIEST).map(|kg| Weighing { on: today, kg });
    let trainer = trainer(form)?;
    Some(NewDog { id, identity, care: Care { phase: Phase::SettlingIn, trainer }, weight })
}
