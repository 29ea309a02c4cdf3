//! Removes a weighing that was entered by mistake.

use time::Date;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog_weight};

/// Removes the weighing of this day.
pub async fn remove_weight(mut tx: Tx, actor: &Actor, dog: DogId, on: Date, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    if !dog_weight::remove(&mut tx, dog, on).await? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_weight", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
