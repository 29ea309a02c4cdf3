//! Households, for trainers: who has the dogs.

pub mod edit;
pub mod existing;
pub mod owners;
pub mod removal;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::app::App;
use crate::ids::HouseholdId;
use crate::store::dog::Dog;
use crate::store::household::{self, Household, HouseholdRow};
use crate::store::{Tx, dog, membership};
use crate::web::people::{self, Person};
use crate::web::{Answer, At, Page, TrainerOnly, WebError, notice, search};

/// The most that the list shows; a search narrows it.
const MOST: usize = 500;

#[derive(Template, WebTemplate)]
#[template(path = "households/list.html")]
struct ListPage {
    page: Page,
    search: String,
    households: Vec<HouseholdRow>,
    is_cut: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "households/show.html")]
struct HouseholdPage {
    page: Page,
    household: Household,
    owners: Vec<Person>,
    dogs: Vec<Dog>,
}

/// All households, or those that a search finds.
pub async fn list(TrainerOnly(mut who): TrainerOnly, Query(query): Query<HashMap<String, String>>) -> Answer {
    let search = search::text(&query);
    let households = household::list(&mut who.tx, &search).await?;
    let page = Page::of(&who, "Households", "households").with_notice(notice::of(&query));
    Ok(ListPage { page, search, is_cut: households.len() >= MOST, households }.into_response())
}

/// One household.
pub async fn show(
    State(app): State<App>,
    At(id): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let household = known(&mut who.tx, id).await?;
    let owners = membership::of_household(id).read(&mut who.tx).await?;
    let owners = people::load(&mut who.tx, owners, who.member.id, app.moment().at).await?;
    let dogs = dog::of_household(id).read(&mut who.tx).await?;
    let page = Page::of(&who, &household.name, "households").with_notice(notice::of(&query));
    Ok(HouseholdPage { page, household, owners, dogs }.into_response())
}

/// The household, or 404.
async fn known(tx: &mut Tx, id: HouseholdId) -> Result<Household, WebError> {
    household::find(tx, id).await?.ok_or(WebError::NotFound)
}
