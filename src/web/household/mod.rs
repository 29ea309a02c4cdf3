//! An owner's own household: who is in it, and a link for one more.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::IntoResponse;

use crate::actions::add_owner::{NewOwner, add_owner};
use crate::actions::make_link::make_link;
use crate::app::App;
use crate::ids::{HouseholdId, MembershipId};
use crate::store::dog::Dog;
use crate::store::household::{self, Household};
use crate::store::sign_in::SignedIn;
use crate::store::{dog, membership};
use crate::web::made_link::{self, Back};
use crate::web::people::{self, Person};
use crate::web::{Answer, At, Form, OwnerOnly, Page, WebError, notice, own_dog};

#[derive(Template, WebTemplate)]
#[template(path = "household/show.html")]
struct HouseholdPage {
    page: Page,
    homes: Vec<Home>,
}

/// One household with everybody in it.
struct Home {
    household: Household,
    people: Vec<Person>,
    dogs: Vec<Dog>,
}

#[derive(Template, WebTemplate)]
#[template(path = "household/invite.html")]
struct InvitePage {
    page: Page,
    form: Form,
    household: Household,
}

fn back() -> Back {
    Back { to: "/household".to_owned(), words: "Back to your household".to_owned() }
}

/// Who is in the household: people and dogs.
pub async fn show(
    State(app): State<App>,
    OwnerOnly(mut who): OwnerOnly,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let (now, mut homes) = (app.moment().at, Vec::new());
    for id in who.actor.households.clone() {
        let household = known(&mut who, id).await?;
        let people = membership::of_household(id).read(&mut who.tx).await?;
        let people = people::load(&mut who.tx, people, who.member.id, now).await?;
        let dogs = dog::of_household(id).read(&mut who.tx).await?;
        homes.push(Home { household, people, dogs });
    }
    let page = own_dog::page(&mut who, "Your household", "account").await?.with_notice(notice::of(&query));
    Ok(HouseholdPage { page, homes }.into_response())
}

/// The form that adds one more person.
pub async fn invite_form(
    State(app): State<App>,
    At(id): At<HouseholdId>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let household = known(&mut who, id).await?;
    let person: MembershipId = app.moment().id();
    let form = Form::blank().with("id", person.to_string());
    let page = own_dog::page(&mut who, "Add somebody", "account").await?;
    Ok(InvitePage { page, form, household }.into_response())
}

/// Adds the person and shows their link, once.
pub async fn invite(
    State(app): State<App>,
    At(id): At<HouseholdId>,
    OwnerOnly(mut who): OwnerOnly,
    mut form: Form,
) -> Answer {
    let household = known(&mut who, id).await?;
    let moment = app.moment();
    let person = form.id("id").unwrap_or_else(|| moment.id());
    let name = form.required("name", 120, "Enter their name.");
    if !form.is_fine() {
        let page = own_dog::page(&mut who, "Add somebody", "account").await?.with_errors(&form);
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, InvitePage { page, form, household }).into_response());
    }
    let page = own_dog::page(&mut who, "Their link", "account").await?;
    let new = NewOwner { id: person, name, phone: String::new(), email: String::new() };
    let made = add_owner(who.tx, &who.actor, id, new, &moment).await?;
    Ok(made_link::page(&app, page, &made, &household.zone, moment.at, back()).into_response())
}

/// Makes a new link for somebody who has not come yet, and shows it, once.
pub async fn link(
    State(app): State<App>,
    At(person): At<MembershipId>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let (moment, page) = (app.moment(), own_dog::page(&mut who, "Their link", "account").await?);
    let made = make_link(who.tx, &who.actor, person, false, &moment).await?;
    Ok(made_link::page(&app, page, &made, &who.practice.zone, moment.at, back()).into_response())
}

/// A household of this owner, or 404.
async fn known(who: &mut SignedIn, id: HouseholdId) -> Result<Household, WebError> {
    if !who.actor.households.contains(&id) {
        return Err(WebError::NotFound);
    }
    household::find(&mut who.tx, id).await?.ok_or(WebError::NotFound)
}
