//! Saying where a dog stands in its work: settling in, active, maintaining, graduated, paused.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Phase;
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog};

/// Changes the phase.
pub async fn set_phase(mut tx: Tx, actor: &Actor, dog: DogId, phase: Phase, moment: &Moment) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    dog::set_phase(&mut tx, dog.id, phase, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "set_phase", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
