//! Removing an encounter: its row stays, and everything that rested on it is brought to where it stands without.

use crate::actions::Done;
use crate::actions::edit_encounter::held;
use crate::actions::edit_practice_log::{CHANGED_MEANWHILE, WHY_TAKEN_BACK};
use crate::actions::look_again::{Revised, revised};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::revision::encounter_takes_back;
use crate::domain::vocabulary::LookedAgain;
use crate::ids::{DogId, EncounterId};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::encounter;
use crate::store::flag::Subject;
use crate::store::revision::{Said, told_after_all};

/// Removes the encounter as it stood at revision `seen`. What is removed already stays so; another revision is refused.
pub async fn remove_encounter(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (DogId, EncounterId),
    seen: i32,
    reason: &str,
    moment: &Moment,
) -> Done<()> {
    let (dog, kept) = held(&mut tx, actor, dog, id, moment).await?;
    if kept.removed_at.is_some() {
        return Ok(());
    }
    if seen != kept.revision {
        return Err(CHANGED_MEANWHILE);
    }
    let old = kept.encounter;
    if reason.is_empty() && encounter_takes_back(&old.facts, None) {
        return Err(WHY_TAKEN_BACK);
    }
    let at = told_after_all(&mut tx, dog.id, moment.at).await?;
    encounter::remove(&mut tx, dog.id, id, &Said { by: actor.membership, at, reason }).await?;
    let removal = Revised {
        subject: Subject::Encounter(id.0),
        told: kept.received_at,
        at: [old.happened_at; 2],
        on: [old.facts.local_date; 2],
        stream: None,
    };
    revised(&mut tx, &dog, &removal, LookedAgain::Removed, moment).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_encounter", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
