//! Taking an owner out of a household: asked on a page of its own.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::{IntoResponse, Redirect};

use crate::actions::remove_owner::remove_owner;
use crate::app::App;
use crate::ids::{HouseholdId, MembershipId};
use crate::store::household::Household;
use crate::store::membership::Membership;
use crate::web::households::owners::owner_of;
use crate::web::{Answer, At, Page, TrainerOnly};

#[derive(Template, WebTemplate)]
#[template(path = "households/remove.html")]
struct RemovePage {
    page: Page,
    household: Household,
    owner: Membership,
}

/// What removing means, and the button that does it.
pub async fn ask(
    At((household, owner)): At<(HouseholdId, MembershipId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (household, owner) = owner_of(&mut who.tx, household, owner).await?;
    let page = Page::of(&who, format!("Remove {}", owner.name), "households");
    Ok(RemovePage { page, household, owner }.into_response())
}

/// Takes the owner out.
pub async fn submit(
    State(app): State<App>,
    At((household, owner)): At<(HouseholdId, MembershipId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (household, owner) = owner_of(&mut who.tx, household, owner).await?;
    remove_owner(who.tx, &who.actor, household.id, owner.id, &app.moment()).await?;
    Ok(Redirect::to(&format!("/households/{}?notice=owner-removed", household.id)).into_response())
}
