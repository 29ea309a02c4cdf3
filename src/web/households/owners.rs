//! The owners of a household, as trainers keep them: added, changed, and given links.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::add_owner::{NewOwner, add_owner};
use crate::actions::edit_owner::{OwnerFacts, edit_owner};
use crate::actions::make_link::make_link;
use crate::app::App;
use crate::ids::{HouseholdId, MembershipId};
use crate::store::household::Household;
use crate::store::membership::{self, Membership};
use crate::store::{Tx, sign_in};
use crate::web::households::known;
use crate::web::made_link::{self, Back};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError};

#[derive(Template, WebTemplate)]
#[template(path = "households/owner.html")]
struct OwnerPage {
    page: Page,
    form: Form,
    household: Household,
    owner: Option<Membership>,
}

#[derive(Template, WebTemplate)]
#[template(path = "households/link.html")]
struct LinkPage {
    page: Page,
    form: Form,
    household: Household,
    owner: Membership,
    phones: i64,
}

/// The household and a standing owner of it, or 404.
pub(super) async fn owner_of(
    tx: &mut Tx,
    household: HouseholdId,
    owner: MembershipId,
) -> Result<(Household, Membership), WebError> {
    let household = known(tx, household).await?;
    let owners = membership::of_household(household.id).read(tx).await?;
    let owner = owners.into_iter().find(|o| o.id == owner).ok_or(WebError::NotFound)?;
    Ok((household, owner))
}

fn back(household: &Household) -> Back {
    Back { to: format!("/households/{}", household.id), words: format!("Back to {}", household.name) }
}

fn again(page: Page, form: Form, household: Household, owner: Option<Membership>) -> Answer {
    let page = OwnerPage { page: page.with_errors(&form), form, household, owner };
    Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response())
}

/// The form of a new owner.
pub async fn new(
    State(app): State<App>,
    At(id): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let household = known(&mut who.tx, id).await?;
    let owner: MembershipId = app.moment().id();
    let form = Form::blank().with("id", owner.to_string());
    Ok(OwnerPage { page: Page::of(&who, "Add an owner", "households"), form, household, owner: None }
        .into_response())
}

/// Adds the owner and shows their link, once.
pub async fn create(
    State(app): State<App>,
    At(id): At<HouseholdId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let household = known(&mut who.tx, id).await?;
    let moment = app.moment();
    let owner = form.id("id").unwrap_or_else(|| moment.id());
    let facts = read(&mut form);
    if !form.is_fine() {
        return again(Page::of(&who, "Add an owner", "households"), form, household, None);
    }
    let page = Page::of(&who, "Owner's link", "households");
    let new = NewOwner { id: owner, name: facts.name, phone: facts.phone, email: facts.email };
    let made = add_owner(who.tx, &who.actor, id, new, &moment).await?;
    Ok(made_link::page(&app, page, &made, &who.practice.zone, moment.at, back(&household)).into_response())
}

/// The form of an owner as they are.
pub async fn edit(
    At((household, owner)): At<(HouseholdId, MembershipId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (household, owner) = owner_of(&mut who.tx, household, owner).await?;
    let form =
        Form::blank().with("name", &owner.name).with("phone", &owner.phone).with("email", &owner.email);
    let page = Page::of(&who, "Change an owner", "households");
    Ok(OwnerPage { page, form, household, owner: Some(owner) }.into_response())
}

/// Changes the owner.
pub async fn update(
    State(app): State<App>,
    At((household, owner)): At<(HouseholdId, MembershipId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (household, owner) = owner_of(&mut who.tx, household, owner).await?;
    let facts = read(&mut form);
    if !form.is_fine() {
        return again(Page::of(&who, "Change an owner", "households"), form, household, Some(owner));
    }
    edit_owner(who.tx, &who.actor, household.id, owner.id, &facts, &app.moment()).await?;
    Ok(Redirect::to(&format!("/households/{}?notice=saved", household.id)).into_response())
}

/// What a new link does, and the button that makes it.
pub async fn link_form(
    State(app): State<App>,
    At((household, owner)): At<(HouseholdId, MembershipId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (household, owner) = owner_of(&mut who.tx, household, owner).await?;
    let phones = sign_in::count(&mut who.tx, owner.id, app.moment().at).await?;
    let page = Page::of(&who, format!("New link for {}", owner.name), "households");
    Ok(LinkPage { page, form: Form::blank(), household, owner, phones }.into_response())
}

/// Makes the link and shows it, once.
pub async fn link(
    State(app): State<App>,
    At((household, owner)): At<(HouseholdId, MembershipId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (household, owner) = owner_of(&mut who.tx, household, owner).await?;
    let lost = form.tick("lost");
    if !form.is_fine() {
        let phones = sign_in::count(&mut who.tx, owner.id, app.moment().at).await?;
        let page = Page::of(&who, format!("New link for {}", owner.name), "households");
        let page = LinkPage { page: page.with_errors(&form), form, household, owner, phones };
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let (moment, page) = (app.moment(), Page::of(&who, "Owner's link", "households"));
    let made = make_link(who.tx, &who.actor, owner.id, lost, &moment).await?;
    Ok(made_link::page(&app, page, &made, &who.practice.zone, moment.at, back(&household)).into_response())
}

fn read(form: &mut Form) -> OwnerFacts {
    let email = if form.value("email").trim().is_empty() { String::new() } else { form.email("email", "") };
    OwnerFacts {
        name: form.required("name", 120, "Enter the owner's name."),
        phone: form.text("phone", 40),
        email,
    }
}
