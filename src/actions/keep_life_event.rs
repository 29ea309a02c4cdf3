//! Tells, or puts right, what goes on in a dog's life: a trainer or somebody of its household.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, LifeEventId};
use crate::store::audit::{self, AuditEvent};
use crate::store::life_event::{self, Told};
use crate::store::{Tx, dog};

/// Tells it. Sent again, it changes nothing; the same id with other content is refused.
pub async fn add_life_event(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (id, told): (LifeEventId, &Told),
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::TellLife, dog).await?.id;
    if !life_event::add(&mut tx, dog, id, told, actor.membership, moment).await? {
        let first = life_event::find(dog, id).read(&mut tx).await?;
        return if first.is_some_and(|first| first.told == *told) { Ok(()) } else { Err(Refusal::Clash) };
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_life_event", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

/// Said where it was put right by somebody else since the page was opened.
const CHANGED_MEANWHILE: Refusal = Refusal::Field {
    field: "kind",
    message: "Somebody changed this since you opened it. Your words are still here: look at theirs, then save again.",
};

/// Puts it right, as it stood at the stamp `seen`; what says the same already, or was sent before, changes nothing.
pub async fn edit_life_event(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (id, told, seen): (LifeEventId, &Told, &str),
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::TellLife, dog).await?.id;
    // one at a time: of two who put it right at once, the second sees the first
    dog::lock_summary(&mut tx, dog).await?;
    let now = life_event::find(dog, id).read(&mut tx).await?.ok_or(Refusal::NotFound)?.told;
    if now == *told {
        return Ok(());
    }
    if now.stamp() != seen {
        return Err(CHANGED_MEANWHILE);
    }
    if !life_event::edit(&mut tx, dog, id, told).await? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "keep_life_event", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
