//! Adds or changes where a dog practises.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::audit::{self, AuditEvent};
use crate::store::place::{self, Place};
use crate::store::{Tx, dog};

/// Adds the place. Sent again, it changes nothing; the same id with other content is refused.
pub async fn add_place(mut tx: Tx, actor: &Actor, new: &Place, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, new.dog).await?;
    dog::lock_summary(&mut tx, new.dog).await?;
    match place::find(new.dog, new.id).read(&mut tx).await? {
        Some(first) if first == *new => Ok(()),
        Some(_) => Err(Refusal::Clash),
        None => keep_place(tx, actor, new, moment).await,
    }
}

/// Adds the place, or changes the one with its id.
pub async fn keep_place(mut tx: Tx, actor: &Actor, kept: &Place, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, kept.dog).await?;
    dog::lock_summary(&mut tx, kept.dog).await?;
    if place::is_name_taken(&mut tx, kept).await? {
        return Err(Refusal::Field {
            field: "name",
            message: "There is a place of this name already. Choose another name.",
        });
    }
    if !place::keep(&mut tx, kept).await? {
        return Err(Refusal::Clash);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_place", "dog", kept.dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
