//! Takes out what was told of a dog's life. The row stays, with who took it out.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, LifeEventId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, life_event};

/// Takes it out.
pub async fn remove_life_event(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: LifeEventId,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::TellLife, dog).await?.id;
    if !life_event::remove(&mut tx, dog, id, actor.membership, moment).await? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_life_event", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
