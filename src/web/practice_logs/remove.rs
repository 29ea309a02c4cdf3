//! Removing a sitting: asked once, on a page of its own.

use axum::extract::State;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::Refusal;
use crate::actions::remove_practice_log::remove_practice_log;
use crate::app::App;
use crate::domain::revision::sitting_takes_back;
use crate::domain::vocabulary::Role;
use crate::ids::{DogId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::store::sign_in::SignedIn;
use crate::web::practice_logs::edit::{load, page_of};
use crate::web::practice_logs::show::told;
use crate::web::revisions::{Removal, removal_page};
use crate::web::{Answer, AnyMember, At, Form, WebError, zones};

async fn page(
    app: &App,
    who: &mut SignedIn,
    (dog, item, log): (Dog, PlanItem, PracticeLog),
    form: Form,
) -> Result<Response, WebError> {
    let today = zones::local_date(app.moment().at, &dog.zone);
    let removal = Removal {
        heading: "Remove this sitting?",
        about: format!("{}: {}", dog.name, item.name),
        action: format!("{}/remove", page_of(&log)),
        back: page_of(&log),
        revision: log.revision,
        facts: told(&log, &dog.zone, today, who.member.role != Role::Owner),
        is_asked_why: sitting_takes_back(&log.sitting, None),
        dog,
    };
    removal_page(who, removal, form).await
}

/// Asks.
pub async fn ask(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let loaded = load(&app, &mut who, dog, log).await?;
    if loaded.2.removed_at.is_some() {
        return Ok(Redirect::to(&page_of(&loaded.2)).into_response());
    }
    page(&app, &mut who, loaded, Form::blank()).await
}

/// Removes it. Sent again, it leads to the same page.
pub async fn remove(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let loaded = load(&app, &mut who, dog, log).await?;
    let (dog, log, back) = (loaded.0.id, loaded.2.id, page_of(&loaded.2));
    let reason = form.text("reason", 500);
    let seen = form.value("revision").parse().unwrap_or(-1);
    if !form.is_fine() {
        return page(&app, &mut who, loaded, form).await;
    }
    match remove_practice_log(who.tx, &who.actor, (dog, log), seen, &reason, &app.moment()).await {
        Ok(()) => Ok(Redirect::to(&back).into_response()),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let loaded = load(&app, &mut who, dog, log).await?;
            page(&app, &mut who, loaded, form).await
        }
        Err(other) => Err(other.into()),
    }
}
