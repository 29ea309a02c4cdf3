//! Saying where a dog stands in its work: settling in, active, maintaining, graduated, paused.

use crate::actions::{Done, Refusal, note_audit};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::vocabulary::{Phase, Role};
use crate::ids::DogId;
use crate::store::{Tx, dog};

/// Changes the phase.
pub async fn set_phase(mut tx: Tx, actor: &Actor, dog: DogId, phase: Phase, moment: &Moment) -> Done<()> {
    let dog = dog::find(&mut tx, actor, dog).await?.ok_or(Refusal::NotFound)?;
    if actor.role == Role::Owner {
        return Err(Refusal::Forbidden);
    }
    dog::set_phase(&mut tx, dog.id, phase, moment.at).await?;
    note_audit(&mut tx, actor, "set_phase", "dog", dog.id.0, moment).await?;
    tx.commit().await?;
    Ok(())
}
