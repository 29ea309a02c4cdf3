//! Lets a dog off the lead in one place: a trainer's decision, place by place.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, PlaceId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog, off_lead_permission, place};

/// What lapses a permission that a new one takes the place of.
const RENEWED: &str = "Granted again";

/// Grants the permission; an earlier one that still holds gives way to it.
pub async fn grant_off_lead(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    place: PlaceId,
    moment: &Moment,
) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    dog::lock_summary(&mut tx, dog).await?;
    place::find(dog, place).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    off_lead_permission::lapse(&mut tx, dog, place, RENEWED, moment.at).await?;
    off_lead_permission::grant(&mut tx, moment.id(), dog, place, actor.membership, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "grant_off_lead", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
