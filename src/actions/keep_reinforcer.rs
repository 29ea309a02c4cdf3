//! Adds or changes what a dog works for.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::reinforcer::{self, Reinforcer};

/// Adds the reinforcer, or changes the one with its id.
pub async fn keep_reinforcer(mut tx: Tx, actor: &Actor, kept: &Reinforcer, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, kept.dog).await?;
    reinforcer::keep(&mut tx, kept).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_reinforcer", "dog", kept.dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
