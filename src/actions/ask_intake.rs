//! A trainer asks a household about a dog before the first lesson.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, intake};

/// Asks. One that was asked for already stays as it is.
pub async fn ask_intake(mut tx: Tx, actor: &Actor, dog: DogId, moment: &Moment) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepIntake, dog).await?.id;
    intake::ask(&mut tx, dog, actor.membership, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "ask_intake", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
