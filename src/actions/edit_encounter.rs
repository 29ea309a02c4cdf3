//! Changing an encounter: what it said before is kept, and everything that rests on it is brought to what it says now. Who
//! told it and when it was sent stay. "I am not coping" is answered, not changed.

use crate::actions::edit_practice_log::{CHANGED_MEANWHILE, WHY_TAKEN_BACK, looked_at_own};
use crate::actions::look_again::{Revised, revised};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::revision::{encounter_takes_back, may_revise};
use crate::domain::vocabulary::{EncounterKind, LookedAgain};
use crate::ids::{DogId, EncounterId};
use crate::store::audit::{self, AuditEvent};
use crate::store::dog::Dog;
use crate::store::encounter::{self, Encounter, Kept};
use crate::store::flag::Subject;
use crate::store::look::Of;
use crate::store::revision::{Said, told_after_all};
use crate::store::{Tx, dog};

/// An encounter that may be changed or removed by this person, with its dog, which is locked.
pub(super) async fn held(
    tx: &mut Tx,
    actor: &Actor,
    dog: DogId,
    id: EncounterId,
    moment: &Moment,
) -> Done<(Dog, Kept)> {
    let dog = authorised_dog(tx, actor, Action::Revise, dog).await?;
    dog::lock_summary(tx, dog.id).await?;
    let kept = encounter::find(tx, dog.id, id).await?.ok_or(Refusal::NotFound)?;
    let asks_for_help = kept.encounter.facts.kind == EncounterKind::NotCoping;
    match may_revise(actor, kept.by, kept.received_at, moment.at).allowed() && !asks_for_help {
        true => Ok((dog, kept)),
        false => Err(Refusal::Forbidden),
    }
}

/// Changes the encounter with the id of `new` as it stood at revision `seen`. What changes nothing, or was sent before,
/// does nothing; a change of another revision is refused.
pub async fn edit_encounter(
    mut tx: Tx,
    actor: &Actor,
    new: &Encounter,
    seen: i32,
    reason: &str,
    moment: &Moment,
) -> Done<()> {
    let (dog, kept) = held(&mut tx, actor, new.dog, new.id, moment).await?;
    if kept.removed_at.is_some() {
        return Err(Refusal::NotFound);
    }
    let old = kept.encounter;
    if old == *new {
        return Ok(());
    }
    if seen != kept.revision {
        return Err(CHANGED_MEANWHILE);
    }
    if reason.is_empty() && encounter_takes_back(&old.facts, Some(&new.facts)) {
        return Err(WHY_TAKEN_BACK);
    }
    let at = told_after_all(&mut tx, dog.id, moment.at).await?;
    encounter::revise(&mut tx, new, &Said { by: actor.membership, at, reason }).await?;
    looked_at_own(&mut tx, actor, (dog.id, kept.by), (Of::Encounter(new.id), kept.revision), moment).await?;
    let change = Revised {
        subject: Subject::Encounter(new.id.0),
        told: kept.received_at,
        at: [old.happened_at, new.happened_at],
        on: [old.facts.local_date, new.facts.local_date],
        stream: None,
    };
    if old.facts != new.facts || old.happened_at != new.happened_at {
        revised(&mut tx, &dog, &change, LookedAgain::Changed, moment).await?;
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_encounter", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
