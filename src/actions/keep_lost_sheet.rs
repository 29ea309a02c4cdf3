//! Keeps what others need to know when a dog is gone: its household or a trainer writes it.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::lost_sheet::{self, LostSheet};
use crate::store::{Tx, dog};

/// Keeps it. `saw` is the [`LostSheet::stamp`] of what stood there when it was written: what somebody else wrote since is not
/// overwritten.
pub async fn keep_lost_sheet(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    sheet: &LostSheet,
    saw: &str,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    let now = lost_sheet::find(dog).read(&mut tx).await?;
    let same = LostSheet { kept_at: now.kept_at, ..sheet.clone() } == now;
    if !same && now.stamp() != saw {
        return Err(Refusal::Field {
            field: "chip",
            message: "Somebody else wrote here after you opened this page. Open it again and look at what it says now.",
        });
    }
    lost_sheet::put(&mut tx, dog, sheet, actor.membership, moment).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_lost_sheet", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
