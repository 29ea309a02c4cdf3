//! Puts an entry of the library away for everybody, or offers it again: the lead trainer's. Plans that hold it are not
//! touched.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::ExerciseId;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, exercise};

/// Puts the entry away.
pub async fn archive_exercise(tx: Tx, actor: &Actor, id: ExerciseId, moment: &Moment) -> Done<()> {
    set_archived(tx, actor, id, true, moment).await
}

/// Offers the entry again.
pub async fn restore_exercise(tx: Tx, actor: &Actor, id: ExerciseId, moment: &Moment) -> Done<()> {
    set_archived(tx, actor, id, false, moment).await
}

async fn set_archived(mut tx: Tx, actor: &Actor, id: ExerciseId, away: bool, moment: &Moment) -> Done<()> {
    exercise::find(&mut tx, id).await?.ok_or(Refusal::NotFound)?;
    authorise(actor, Action::ArchiveExercise, None)?;
    exercise::set_archived(&mut tx, id, away.then_some(moment.at)).await?;
    let verb = if away { "archive_exercise" } else { "restore_exercise" };
    audit::note(&mut tx, &AuditEvent::by(actor, verb, "exercise", id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
