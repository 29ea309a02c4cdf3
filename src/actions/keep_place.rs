//! Adds or changes where a dog practises.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::place::{self, Place};

/// Adds the place, or changes the one with its id.
pub async fn keep_place(mut tx: Tx, actor: &Actor, kept: &Place, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, kept.dog).await?;
    place::keep(&mut tx, kept).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_place", "dog", kept.dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
