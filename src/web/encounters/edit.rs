//! Changing an encounter: the form that it was told with, filled in with what it says.

use axum::extract::State;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::Refusal;
use crate::actions::edit_encounter::edit_encounter;
use crate::app::App;
use crate::domain::revision::may_revise;
use crate::domain::vocabulary::{EncounterKind, Role};
use crate::ids::{DogId, EncounterId};
use crate::store::dog::Dog;
use crate::store::encounter::Kept;
use crate::store::sign_in::SignedIn;
use crate::store::{dog, encounter, trigger};
use crate::web::encounters::fields::{self, filled};
use crate::web::encounters::new::form_page;
use crate::web::encounters::show::told;
use crate::web::revisions::{Changing, Facts, REMOVED_MEANWHILE};
use crate::web::{Answer, AnyMember, At, Form, WebError, zones};

/// An encounter of a dog, where this person may change it.
pub(super) async fn load(
    app: &App,
    who: &mut SignedIn,
    dog: DogId,
    id: EncounterId,
) -> Result<(Dog, Kept), WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let kept = encounter::find(&mut who.tx, dog.id, id).await?.ok_or(WebError::NotFound)?;
    let may = may_revise(&who.actor, kept.by, kept.received_at, app.moment().at).allowed();
    if may && kept.encounter.facts.kind != EncounterKind::NotCoping {
        Ok((dog, kept))
    } else {
        Err(WebError::Forbidden)
    }
}

/// The page of an encounter.
pub(super) fn page_of(kept: &Kept) -> String {
    format!("/dogs/{}/encounters/{}", kept.encounter.dog, kept.encounter.id)
}

/// What it says, as somebody of this role reads it.
pub(super) async fn told_to(
    app: &App,
    who: &mut SignedIn,
    dog: &Dog,
    kept: &Kept,
) -> Result<Facts, WebError> {
    let today = zones::local_date(app.moment().at, &dog.zone);
    let triggers = trigger::of_dog(dog.id).read(&mut who.tx).await?;
    Ok(told(&kept.encounter, &triggers, &dog.zone, today, who.member.role != Role::Owner))
}

async fn page(
    who: &mut SignedIn,
    dog: Dog,
    kept: &Kept,
    meanwhile: Facts,
    form: Form,
) -> Result<Response, WebError> {
    let triggers = trigger::of_dog(dog.id).read(&mut who.tx).await?;
    let changing = Changing {
        action: format!("{}/edit", page_of(kept)),
        back: page_of(kept),
        revision: kept.revision,
        meanwhile,
    };
    form_page(who, kept.encounter.id, dog, &triggers, Some(changing), form).await
}

/// The form, filled in.
pub async fn edit(
    State(app): State<App>,
    At((dog, id)): At<(DogId, EncounterId)>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let (dog, kept) = load(&app, &mut who, dog, id).await?;
    if kept.removed_at.is_some() {
        return Ok(Redirect::to(&page_of(&kept)).into_response());
    }
    let form = filled(&kept.encounter, &dog.zone);
    page(&mut who, dog, &kept, Facts::new(), form).await
}

/// Changes the encounter. Sent again, it leads to the same page. Where somebody else was first, the form comes again with
/// what it says now above what was typed.
pub async fn change(
    State(app): State<App>,
    At((dog, id)): At<(DogId, EncounterId)>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let (dog, kept) = load(&app, &mut who, dog, id).await?;
    let moment = app.moment();
    let triggers = trigger::of_dog(dog.id).read(&mut who.tx).await?;
    let read = fields::read(&mut form, id, &dog, &triggers, moment.at, Some(&kept.encounter));
    let reason = form.text("reason", 500);
    let seen = form.value("revision").parse().unwrap_or(-1);
    if kept.removed_at.is_some() {
        form.refuse("revision", REMOVED_MEANWHILE);
    }
    let Some((new, _)) = read.filter(|_| form.is_fine()) else {
        return page(&mut who, dog, &kept, Facts::new(), form).await;
    };
    match edit_encounter(who.tx, &who.actor, &new, seen, &reason, &moment).await {
        Ok(()) => Ok(Redirect::to(&page_of(&kept)).into_response()),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let (dog, kept) = load(&app, &mut who, dog.id, id).await?;
            let now = match form.error("revision") {
                Some(_) => told_to(&app, &mut who, &dog, &kept).await?,
                None => Facts::new(),
            };
            page(&mut who, dog, &kept, now, form).await
        }
        Err(other) => Err(other.into()),
    }
}
