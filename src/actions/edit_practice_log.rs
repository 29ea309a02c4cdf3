//! Changing a sitting that was logged: what it said before is kept, and everything that rests on it is brought to what it
//! says now. What was practised, who logged it and when it was sent stay.

use crate::actions::look_again::{Revised, revised};
use crate::actions::submit_practice_log::{LogInput, complete, off_lead_allowed};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::revision::{may_revise, sitting_takes_back};
use crate::domain::vocabulary::{LookedAgain, Role};
use crate::ids::{DogId, MembershipId, PracticeLogId};
use crate::store::audit::{self, AuditEvent};
use crate::store::dog::Dog;
use crate::store::flag::Subject;
use crate::store::look::Of;
use crate::store::practice_log::{self, NewPracticeLog, PracticeLog};
use crate::store::revision::{Said, told_after_all};
use crate::store::{Tx, dog, look, plan};

/// What to say where teeth or running off are taken back without a word.
pub(super) const WHY_TAKEN_BACK: Refusal = Refusal::Field {
    field: "reason",
    message: "Say why. Teeth, running off or a sign for the vet were written down here, and that is not taken back without a word.",
};

/// What to say where somebody else was first.
pub(super) const CHANGED_MEANWHILE: Refusal = Refusal::Field {
    field: "revision",
    message: "This was changed after you opened the page, and nothing of yours was kept yet. What it says now stands above the form; what you wrote is still in it. Send it again if it should stand.",
};

/// A log that may be changed or removed by this person, whatever they do with it, with its dog, which is locked.
pub(super) async fn held(
    tx: &mut Tx,
    actor: &Actor,
    dog: DogId,
    id: PracticeLogId,
    moment: &Moment,
) -> Done<(Dog, PracticeLog)> {
    let dog = authorised_dog(tx, actor, Action::Revise, dog).await?;
    dog::lock_summary(tx, dog.id).await?;
    let log = practice_log::find(tx, dog.id, id).await?.ok_or(Refusal::NotFound)?;
    match may_revise(actor, log.by_member, log.received_at, moment.at).allowed() {
        true => Ok((dog, log)),
        false => Err(Refusal::Forbidden),
    }
}

/// Changes the log with `input.id` as it stood at revision `seen`. What changes nothing, or was sent before, does nothing;
/// a change of another revision is refused. `input.started` is when it began, changed or not.
pub async fn edit_practice_log(
    mut tx: Tx,
    actor: &Actor,
    input: LogInput,
    seen: i32,
    reason: &str,
    moment: &Moment,
) -> Done<()> {
    let (dog, log) = held(&mut tx, actor, input.dog, input.id, moment).await?;
    let item = plan::item(dog.id, log.item).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    if log.removed_at.is_some() || item.id != input.item {
        return Err(Refusal::NotFound);
    }
    let is_elsewhere = input.elsewhere.is_some();
    let mut new = complete(input, &dog, &item, actor, [0; 32], log.sitting.local_date, moment);
    new.sitting.trainer_seen = log.sitting.trainer_seen;
    new.sitting.place.off_lead_allowed = off_lead_allowed(&mut tx, &item, &new, is_elsewhere).await?;
    if is_said_by(&log, &new) {
        return Ok(());
    }
    if seen != log.revision {
        return Err(CHANGED_MEANWHILE);
    }
    if reason.is_empty() && sitting_takes_back(&log.sitting, Some(&new.sitting)) {
        return Err(WHY_TAKEN_BACK);
    }
    let at = told_after_all(&mut tx, dog.id, moment.at).await?;
    practice_log::revise(&mut tx, &new, &Said { by: actor.membership, at, reason }).await?;
    looked_at_own(&mut tx, actor, (dog.id, log.by_member), (Of::Log(log.id), log.revision), moment).await?;
    let has_other_facts = log.sitting != new.sitting
        || log.started_at != new.started_at
        || log.outcome_value != new.outcome_value;
    let change = Revised {
        subject: Subject::PracticeLog(log.id.0),
        told: log.received_at,
        at: [log.started_at, new.started_at],
        on: [log.sitting.local_date, new.sitting.local_date],
        stream: log.step.map(|step| (log.line_id, step)),
    };
    if has_other_facts {
        revised(&mut tx, &dog, &change, LookedAgain::Changed, moment).await?;
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_practice_log", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

/// Where a trainer changes what a household told, they have looked at what it says now.
pub(super) async fn looked_at_own(
    tx: &mut Tx,
    actor: &Actor,
    (dog, told_by): (DogId, MembershipId),
    (of, before): (Of, i32),
    moment: &Moment,
) -> Done<()> {
    if actor.role != Role::Owner && told_by != actor.membership {
        look::add(tx, dog, of, before + 1, actor.membership, moment.at).await?;
    }
    Ok(())
}

/// Whether the log says all this already.
fn is_said_by(log: &PracticeLog, new: &NewPracticeLog) -> bool {
    log.sitting == new.sitting
        && log.started_at == new.started_at
        && log.handler == new.handler
        && log.place_name == new.place_name
        && log.outcome_value == new.outcome_value
        && log.note == new.note
}
