//! The form of a household: a new one, or one that is changed.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::add_household::add_household;
use crate::actions::edit_household::edit_household;
use crate::app::App;
use crate::domain::vocabulary::{Children, Word};
use crate::ids::HouseholdId;
use crate::store::household::Household;
use crate::web::choices::{self, Choices};
use crate::web::households::known;
use crate::web::zones::{self, Zones};
use crate::web::{Answer, At, Form, Page, TrainerOnly};

#[derive(Template, WebTemplate)]
#[template(path = "households/form.html")]
struct FormPage {
    page: Page,
    form: Form,
    zones: Zones,
    children: Choices,
    /// The household that is changed.
    household: Option<Household>,
}

fn page(page: Page, form: Form, household: Option<Household>) -> FormPage {
    FormPage {
        page: page.with_errors(&form),
        zones: zones::choices(form.value("zone")),
        children: choices::words::<Children>(),
        form,
        household,
    }
}

/// The form of a new household.
pub async fn new(State(app): State<App>, TrainerOnly(who): TrainerOnly) -> Answer {
    let id: HouseholdId = app.moment().id();
    let form = Form::blank().with("id", id.to_string()).with("zone", &who.practice.zone);
    Ok(page(Page::of(&who, "New household", "households"), form, None).into_response())
}

/// Adds the household.
pub async fn create(State(app): State<App>, TrainerOnly(who): TrainerOnly, mut form: Form) -> Answer {
    let moment = app.moment();
    let id = form.id("id").unwrap_or_else(|| moment.id());
    let household = read(&mut form, id);
    if !form.is_fine() {
        let page = page(Page::of(&who, "New household", "households"), form, None);
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    add_household(who.tx, &who.actor, &household, &moment).await?;
    Ok(Redirect::to(&format!("/households/{id}?notice=household-added")).into_response())
}

/// The form of a household as it is.
pub async fn edit(At(id): At<HouseholdId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let household = known(&mut who.tx, id).await?;
    let form = Form::blank()
        .with("name", &household.name)
        .with("zone", &household.zone)
        .with("note", &household.note)
        .with("children", household.children.map_or("", Word::stored));
    Ok(page(Page::of(&who, "Change household", "households"), form, Some(household)).into_response())
}

/// Changes the household.
pub async fn update(
    State(app): State<App>,
    At(id): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let household = known(&mut who.tx, id).await?;
    let wanted = read(&mut form, id);
    if !form.is_fine() {
        let page = page(Page::of(&who, "Change household", "households"), form, Some(household));
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    edit_household(who.tx, &who.actor, &wanted, &app.moment()).await?;
    Ok(Redirect::to(&format!("/households/{id}?notice=saved")).into_response())
}

fn read(form: &mut Form, id: HouseholdId) -> Household {
    Household {
        id,
        name: form.required("name", 120, "Enter a name, such as the family's."),
        zone: zones::read(form, "zone"),
        note: form.text("note", 4000),
        children: form.word("children"),
    }
}
