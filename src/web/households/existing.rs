//! Somebody who is an owner here already, added to one more household.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::add_existing_owner::add_existing_owner;
use crate::app::App;
use crate::ids::{HouseholdId, MembershipId};
use crate::store::household::Household;
use crate::store::membership::{self, OtherOwner};
use crate::web::households::known;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, search};

/// The most that the list shows; a search narrows it.
const MOST: usize = 100;

#[derive(Template, WebTemplate)]
#[template(path = "households/existing.html")]
struct ExistingPage {
    page: Page,
    household: Household,
    search: String,
    owners: Vec<OtherOwner>,
    is_cut: bool,
}

/// The owners of other households, to choose from.
pub async fn show(
    At(id): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let household = known(&mut who.tx, id).await?;
    let search = search::text(&query);
    let mut owners = membership::owners_elsewhere(&mut who.tx, id, &search).await?;
    let is_cut = owners.len() > MOST;
    owners.truncate(MOST);
    let page = Page::of(&who, "Already an owner here", "households");
    Ok(ExistingPage { page, household, search, owners, is_cut }.into_response())
}

/// Adds the one that was chosen.
pub async fn submit(
    State(app): State<App>,
    At(id): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let household = known(&mut who.tx, id).await?;
    let Some(owner) = form.id::<MembershipId>("owner") else {
        return Err(WebError::Status(StatusCode::UNPROCESSABLE_ENTITY));
    };
    add_existing_owner(who.tx, &who.actor, household.id, owner, &app.moment()).await?;
    Ok(Redirect::to(&format!("/households/{}?notice=owner-added", household.id)).into_response())
}
