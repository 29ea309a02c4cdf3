//! Saying where a dog stands in its work: settling in, active, maintaining, graduated, paused.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::{Phase, Word};
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::dog::Dog;
use crate::store::{Tx, dog};

/// Changes the phase.
pub async fn set_phase(mut tx: Tx, actor: &Actor, dog: DogId, phase: Phase, moment: &Moment) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    put_in(&mut tx, actor, &dog, phase, moment).await?;
    tx.commit().await?;
    Ok(())
}

/// The same inside a transaction that goes on. What is so already stays, and nothing is noted.
pub(super) async fn put_in(tx: &mut Tx, actor: &Actor, dog: &Dog, phase: Phase, moment: &Moment) -> Done<()> {
    if dog.phase == phase {
        return Ok(());
    }
    dog::set_phase(tx, dog.id, phase, moment.at).await?;
    let event =
        AuditEvent { detail: phase.label(), ..AuditEvent::by(actor, "set_phase", "dog", dog.id.0, moment) };
    audit::note(tx, &event).await?;
    Ok(())
}
