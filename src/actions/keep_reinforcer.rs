//! Adds or changes what a dog works for.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::audit::{self, AuditEvent};
use crate::store::reinforcer::{self, Reinforcer};
use crate::store::{Tx, dog};

/// Adds the reinforcer. Sent again, it changes nothing; the same id with other content is refused.
pub async fn add_reinforcer(mut tx: Tx, actor: &Actor, new: &Reinforcer, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, new.dog).await?;
    dog::lock_summary(&mut tx, new.dog).await?;
    match reinforcer::find(new.dog, new.id).read(&mut tx).await? {
        Some(first) if first == *new => Ok(()),
        Some(_) => Err(Refusal::Clash),
        None => keep_reinforcer(tx, actor, new, moment).await,
    }
}

/// Adds the reinforcer, or changes the one with its id.
pub async fn keep_reinforcer(mut tx: Tx, actor: &Actor, kept: &Reinforcer, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, kept.dog).await?;
    if !reinforcer::keep(&mut tx, kept).await? {
        return Err(Refusal::Clash);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_reinforcer", "dog", kept.dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
