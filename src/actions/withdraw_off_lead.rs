//! Takes the permission to be off the lead in one place back.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, PlaceId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog, off_lead_permission};

/// Lets the permission lapse, with the reason that the trainer gave.
pub async fn withdraw_off_lead(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    place: PlaceId,
    because: &str,
    moment: &Moment,
) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    dog::lock_summary(&mut tx, dog).await?;
    if !off_lead_permission::lapse(&mut tx, dog, place, because, moment.at).await? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "withdraw_off_lead", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
