//! Adds or changes what sets a dog off.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::trigger::{self, Trigger};

/// Adds the trigger, or changes the one with its id.
pub async fn keep_trigger(mut tx: Tx, actor: &Actor, kept: &Trigger, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, kept.dog).await?;
    trigger::keep(&mut tx, kept).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_trigger", "dog", kept.dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
