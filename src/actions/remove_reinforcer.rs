//! Removes what a dog works for, as long as no record names it.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, ReinforcerId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{self, Tx, reinforcer};

/// Removes the reinforcer; refused on the field `remove` while a record names it.
pub async fn remove_reinforcer(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: ReinforcerId,
    moment: &Moment,
) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    if !reinforcer::remove(&mut tx, dog, id).await.map_err(in_use)? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_reinforcer", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

fn in_use(error: store::Error) -> Refusal {
    if !store::is_in_use(&error) {
        return error.into();
    }
    Refusal::Field {
        field: "remove",
        message: "A plan names this reinforcer, so it stays on record. You can rename it.",
    }
}
