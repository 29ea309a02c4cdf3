//! Removing a sitting that was logged: its row stays, and everything that rested on it is brought to where it stands
//! without.

use crate::actions::Done;
use crate::actions::edit_practice_log::{CHANGED_MEANWHILE, WHY_TAKEN_BACK, held};
use crate::actions::look_again::{Revised, revised};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::revision::sitting_takes_back;
use crate::domain::vocabulary::LookedAgain;
use crate::ids::{DogId, PracticeLogId};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::flag::Subject;
use crate::store::practice_log;
use crate::store::revision::{Said, told_after_all};

/// Removes the log as it stood at revision `seen`. What is removed already stays so; another revision is refused.
pub async fn remove_practice_log(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (DogId, PracticeLogId),
    seen: i32,
    reason: &str,
    moment: &Moment,
) -> Done<()> {
    let (dog, log) = held(&mut tx, actor, dog, id, moment).await?;
    if log.removed_at.is_some() {
        return Ok(());
    }
    if seen != log.revision {
        return Err(CHANGED_MEANWHILE);
    }
    if reason.is_empty() && sitting_takes_back(&log.sitting, None) {
        return Err(WHY_TAKEN_BACK);
    }
    let at = told_after_all(&mut tx, dog.id, moment.at).await?;
    practice_log::remove(&mut tx, dog.id, id, &Said { by: actor.membership, at, reason }).await?;
    let removal = Revised {
        subject: Subject::PracticeLog(id.0),
        told: log.received_at,
        at: [log.started_at; 2],
        on: [log.sitting.local_date; 2],
        stream: log.step.map(|step| (log.line_id, step)),
    };
    revised(&mut tx, &dog, &removal, LookedAgain::Removed, moment).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_practice_log", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
