//! Keeps what others need to know when a dog is gone: its household or a trainer writes it.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::lost_sheet::{self, LostSheet};

/// Keeps it.
pub async fn keep_lost_sheet(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    sheet: &LostSheet,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?.id;
    lost_sheet::put(&mut tx, dog, sheet, actor.membership, moment).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_lost_sheet", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
