//! Changing a sitting: the form that it was logged with, filled in with what it says.

use axum::extract::State;
use axum::response::{IntoResponse, Redirect};

use crate::actions::Refusal;
use crate::actions::edit_practice_log::edit_practice_log;
use crate::app::App;
use crate::domain::revision::may_revise;
use crate::domain::vocabulary::Role;
use crate::ids::{DogId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::place::Place;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::store::sign_in::SignedIn;
use crate::store::{dog, place, plan, practice_log};
use crate::web::practice_logs::ask::Ask;
use crate::web::practice_logs::fields::{self, About};
use crate::web::practice_logs::filled::filled;
use crate::web::practice_logs::new::form_page;
use crate::web::practice_logs::show::told;
use crate::web::revisions::{Changing, Facts, REMOVED_MEANWHILE};
use crate::web::{Answer, AnyMember, At, Form, WebError, zones};

/// A log of a dog with what it is a log of, where this person may change it.
pub(super) async fn load(
    app: &App,
    who: &mut SignedIn,
    dog: DogId,
    log: PracticeLogId,
) -> Result<(Dog, PlanItem, PracticeLog), WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let log = practice_log::find(&mut who.tx, dog.id, log).await?.ok_or(WebError::NotFound)?;
    let item = plan::item(dog.id, log.item).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    if may_revise(&who.actor, log.by_member, log.received_at, app.moment().at).allowed() {
        Ok((dog, item, log))
    } else {
        Err(WebError::Forbidden)
    }
}

/// The page of a log.
pub(super) fn page_of(log: &PracticeLog) -> String {
    format!("/dogs/{}/log/{}", log.dog, log.id)
}

fn ask(
    who: &SignedIn,
    (dog, item, log): (Dog, PlanItem, &PracticeLog),
    places: &[Place],
    meanwhile: Facts,
) -> Ask {
    let changing = Changing {
        action: format!("{}/edit", page_of(log)),
        back: page_of(log),
        revision: log.revision,
        meanwhile,
    };
    Ask::new(log.id.to_string(), dog, item, places, who.member.role != Role::Owner).changing(log, changing)
}

/// The form, filled in.
pub async fn edit(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let (dog, item, log) = load(&app, &mut who, dog, log).await?;
    if log.removed_at.is_some() {
        return Ok(Redirect::to(&page_of(&log)).into_response());
    }
    let places = place::of_dog(dog.id).read(&mut who.tx).await?;
    let form = filled(&log, &item, &dog.zone);
    let ask = ask(&who, (dog, item, &log), &places, Facts::new());
    form_page(&mut who, ask, form).await
}

/// Changes the sitting. Sent again, it leads to the same page. Where somebody else was first, the form comes again with
/// what it says now above what was typed.
pub async fn change(
    State(app): State<App>,
    At((dog, log)): At<(DogId, PracticeLogId)>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let (dog, item, log) = load(&app, &mut who, dog, log).await?;
    let moment = app.moment();
    let places = place::of_dog(dog.id).read(&mut who.tx).await?;
    let about = About {
        id: log.id,
        dog: &dog,
        item: &item,
        places: &places,
        by: who.member.role,
        now: moment.at,
        logged: Some(&log),
    };
    let input = fields::whole(&mut form, &about);
    let reason = form.text("reason", 500);
    let seen = form.value("revision").parse().unwrap_or(-1);
    if log.removed_at.is_some() {
        form.refuse("revision", REMOVED_MEANWHILE);
    }
    if !form.is_fine() {
        let ask = ask(&who, (dog, item, &log), &places, Facts::new());
        return form_page(&mut who, ask, form).await;
    }
    match edit_practice_log(who.tx, &who.actor, input, seen, &reason, &moment).await {
        Ok(()) => Ok(Redirect::to(&page_of(&log)).into_response()),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            let (dog, item, log) = load(&app, &mut who, dog.id, log.id).await?;
            let is_stale = form.error("revision").is_some();
            let today = zones::local_date(moment.at, &dog.zone);
            let trainer = who.member.role != Role::Owner;
            let now = if is_stale { told(&log, &dog.zone, today, trainer) } else { Facts::new() };
            let ask = ask(&who, (dog, item, &log), &places, now);
            form_page(&mut who, ask, form).await
        }
        Err(other) => Err(other.into()),
    }
}
