//! Adds or changes what sets a dog off.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::audit::{self, AuditEvent};
use crate::store::trigger::{self, Trigger};
use crate::store::{Tx, dog};

/// Adds the trigger. Sent again, it changes nothing; the same id with other content is refused.
pub async fn add_trigger(mut tx: Tx, actor: &Actor, new: &Trigger, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, new.dog).await?;
    dog::lock_summary(&mut tx, new.dog).await?;
    match trigger::find(new.dog, new.id).read(&mut tx).await? {
        Some(first) if first == *new => Ok(()),
        Some(_) => Err(Refusal::Clash),
        None => keep_trigger(tx, actor, new, moment).await,
    }
}

/// Adds the trigger, or changes the one with its id.
pub async fn keep_trigger(mut tx: Tx, actor: &Actor, kept: &Trigger, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, kept.dog).await?;
    if !trigger::keep(&mut tx, kept).await? {
        return Err(Refusal::Clash);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_trigger", "dog", kept.dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
