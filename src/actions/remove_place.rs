//! Removes where a dog practises, as long as no record names it.

use crate::actions::{Done, Refusal, authorised_dog, in_use};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, PlaceId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, place};

/// Why one that something names cannot go.
const NAMED: &str =
    "A plan or an off-lead permission names this place, so it stays on record. You can rename it.";

/// Removes the place; refused on the field `remove` while a record names it.
pub async fn remove_place(mut tx: Tx, actor: &Actor, dog: DogId, id: PlaceId, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    if !place::remove(&mut tx, dog, id).await.map_err(in_use(NAMED))? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_place", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
