//! Removes what a dog works for, as long as no record names it.

use crate::actions::{Done, Refusal, authorised_dog, in_use};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, ReinforcerId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, reinforcer};

/// Why one that something names cannot go.
const NAMED: &str = "A plan names this reinforcer, so it stays on record. You can rename it.";

/// Removes the reinforcer; refused on the field `remove` while a record names it.
pub async fn remove_reinforcer(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: ReinforcerId,
    moment: &Moment,
) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    if !reinforcer::remove(&mut tx, dog, id).await.map_err(in_use(NAMED))? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_reinforcer", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
