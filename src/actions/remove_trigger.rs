//! Removes what sets a dog off, as long as no record names it.

use crate::actions::{Done, Refusal, authorised_dog, in_use};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, TriggerId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, trigger};

/// Why one that something names cannot go.
const NAMED: &str = "Something that happened names this trigger, so it stays on record. You can rename it.";

/// Removes the trigger; refused on the field `remove` while a record names it.
pub async fn remove_trigger(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: TriggerId,
    moment: &Moment,
) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    if !trigger::remove(&mut tx, dog, id).await.map_err(in_use(NAMED))? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_trigger", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
