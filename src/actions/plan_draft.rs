//! What every change of a draft begins and ends with.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::dog::Dog;
use crate::store::plan_draft_item::{Belongs, LineSettings};
use crate::store::{Tx, plan, plan_draft, plan_draft_item};

/// The dog, for somebody who may write its plan.
pub(super) async fn authorised(tx: &mut Tx, actor: &Actor, dog: DogId) -> Done<Dog> {
    authorised_dog(tx, actor, Action::KeepPlan, dog).await
}

/// Holds the dog's draft for a change by somebody who may. A dog without a draft gets one: its published plan, or
/// an empty one.
pub(super) async fn opened(tx: &mut Tx, actor: &Actor, dog: DogId, moment: &Moment) -> Done<Dog> {
    let dog = authorised(tx, actor, dog).await?;
    let is_new = plan_draft::hold(tx, dog.id, actor.membership, moment.at).await?;
    if is_new && let Some(version) = plan::current(dog.id).read(tx).await? {
        plan_draft::restart_from(tx, dog.id, version.id).await?;
    }
    Ok(dog)
}

/// Refuses a line that names what is another dog's or another exercise's.
///
/// Only reads, so that a form can ask before it hands its transaction over.
pub async fn checked(tx: &mut Tx, dog: DogId, chosen: &LineSettings) -> Done<()> {
    let Belongs { exercise, step, place, reinforcer } = plan_draft_item::belongs(tx, dog, chosen).await?;
    let wrong = [
        (exercise, "exercise", "Choose something from your library."),
        (step, "step", "Choose one of this exercise's steps."),
        (place, "place", "Choose one of this dog's places."),
        (reinforcer, "reinforcer", "Choose one of this dog's reinforcers."),
    ];
    match wrong.into_iter().find(|(fine, ..)| !fine) {
        Some((_, field, message)) => Err(Refusal::Field { field, message }),
        None => Ok(()),
    }
}

/// Notes what was done to a dog's plan, and makes it stand.
pub(super) async fn finished(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    action: &'static str,
    detail: &str,
    moment: &Moment,
) -> Done<()> {
    let event = AuditEvent { detail, ..AuditEvent::by(actor, action, "dog", dog.0, moment) };
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(())
}
