//! Changing something that a phone sent before: read as the form that it was, on the wording that it was made on.

use axum::http::StatusCode;
use time::OffsetDateTime;
use uuid::Uuid;

use super::take::No;
use crate::actions::Refusal;
use crate::actions::edit_encounter::edit_encounter;
use crate::actions::edit_practice_log::edit_practice_log;
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::{EncounterId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::{Tx, encounter, place, plan, practice_log, trigger};
use crate::web::practice_logs::fields::{self, About};
use crate::web::revisions::REMOVED_MEANWHILE;
use crate::web::{Form, encounters};

/// What the form says besides: the wording that it was made on, and why.
fn seen_and_why(form: &mut Form) -> (i32, String) {
    (form.value("revision").parse().unwrap_or(-1), form.text("reason", 500))
}

/// What a phone is told where the wording is no more: it may have changed it itself, and somebody else after it.
fn stale(refusal: Refusal) -> No {
    match refusal {
        Refusal::Field { field: "revision", .. } => No::because(
            StatusCode::CONFLICT,
            "It was changed again after this was kept here. Look at what it says now; change it by the form only if that is not right.",
        ),
        other => other.into(),
    }
}

/// Changes a sitting. Sent again it changes nothing.
pub(super) async fn log(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (&Dog, Uuid),
    mut form: Form,
    now: OffsetDateTime,
    moment: &Moment,
) -> Result<bool, No> {
    let log = practice_log::find(&mut tx, dog.id, PracticeLogId(id)).await?.ok_or_else(No::found)?;
    let item = plan::item(dog.id, log.item).read(&mut tx).await?.ok_or_else(No::found)?;
    let places = place::of_dog(dog.id).read(&mut tx).await?;
    let about =
        About { id: log.id, dog, item: &item, places: &places, by: actor.role, now, logged: Some(&log) };
    let input = fields::whole(&mut form, &about);
    let (seen, why) = seen_and_why(&mut form);
    if log.removed_at.is_some() {
        return Err(No::because(StatusCode::GONE, REMOVED_MEANWHILE));
    }
    if !form.is_fine() {
        return Err(No::form(&form));
    }
    edit_practice_log(tx, actor, input, seen, &why, moment).await.map_err(stale)?;
    Ok(true)
}

/// Changes an encounter. Sent again it changes nothing.
pub(super) async fn encounter(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (&Dog, Uuid),
    mut form: Form,
    now: OffsetDateTime,
    moment: &Moment,
) -> Result<bool, No> {
    let id = EncounterId(id);
    let kept = encounter::find(&mut tx, dog.id, id).await?.ok_or_else(No::found)?;
    let triggers = trigger::of_dog(dog.id).read(&mut tx).await?;
    let read = encounters::fields::read(&mut form, id, dog, &triggers, now, Some(&kept.encounter));
    let (seen, why) = seen_and_why(&mut form);
    if kept.removed_at.is_some() {
        return Err(No::because(StatusCode::GONE, REMOVED_MEANWHILE));
    }
    let Some((new, _)) = read.filter(|_| form.is_fine()) else { return Err(No::form(&form)) };
    edit_encounter(tx, actor, &new, seen, &why, moment).await.map_err(stale)?;
    Ok(true)
}
