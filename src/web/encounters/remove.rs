//! Removing an encounter: asked once, on a page of its own.

use axum::extract::State;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::Refusal;
use crate::actions::remove_encounter::remove_encounter;
use crate::app::App;
use crate::domain::revision::encounter_takes_back;
use crate::domain::vocabulary::Role;
use crate::ids::{DogId, EncounterId};
use crate::store::dog::Dog;
use crate::store::encounter::Kept;
use crate::store::sign_in::SignedIn;
use crate::web::encounters::edit::{load, page_of, told_to};
use crate::web::encounters::kind_words;
use crate::web::revisions::{Removal, removal_page};
use crate::web::{Answer, AnyMember, At, Form, WebError};

async fn page(
    app: &App,
    who: &mut SignedIn,
    (dog, kept): (Dog, Kept),
    form: Form,
) -> Result<Response, WebError> {
    let kind = kind_words(kept.encounter.facts.kind, who.member.role != Role::Owner);
    let removal = Removal {
        heading: "Remove this?",
        about: format!("{}: {kind}", dog.name),
        action: format!("{}/remove", page_of(&kept)),
        back: page_of(&kept),
        revision: kept.revision,
        facts: told_to(app, who, &dog, &kept).await?,
        is_asked_why: encounter_takes_back(&kept.encounter.facts, None),
        dog,
    };
    removal_page(who, removal, form).await
}

/// Asks.
pub async fn ask(
    State(app): State<App>,
    At((dog, id)): At<(DogId, EncounterId)>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let loaded = load(&app, &mut who, dog, id).await?;
    if loaded.1.removed_at.is_some() {
        return Ok(Redirect::to(&page_of(&loaded.1)).into_response());
    }
    page(&app, &mut who, loaded, Form::blank()).await
}

/// Removes it. Sent again, it leads to the same page.
pub async fn remove(
    State(app): State<App>,
    At((dog, id)): At<(DogId, EncounterId)>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let loaded = load(&app, &mut who, dog, id).await?;
    let (dog, back) = (loaded.0.id, page_of(&loaded.1));
    let reason = form.text("reason", 500);
    let seen = form.value("revision").parse().unwrap_or(-1);
    if !form.is_fine() {
        return page(&app, &mut who, loaded, form).await;
    }
    match remove_encounter(who.tx, &who.actor, (dog, id), seen, &reason, &app.moment()).await {
        Ok(()) => Ok(Redirect::to(&back).into_response()),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let loaded = load(&app, &mut who, dog, id).await?;
            page(&app, &mut who, loaded, form).await
        }
        Err(other) => Err(other.into()),
    }
}
