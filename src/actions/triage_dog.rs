//! A trainer says what they make of an intake. A dog that was referred is released by a lead, and by nobody else.

use time::Duration;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::intake::triage::{Triage, may_follow};
use crate::domain::vocabulary::{Role, Word};
use crate::ids::{DogId, TriageId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog, intake, triage};

/// Keeps the answer to what was read: `seen` is [`Intake::stamp`](crate::store::intake::Intake::stamp) of then, and an intake that was
/// changed or sent since is read again first. Sending the same again changes nothing.
pub async fn triage_dog(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (id, seen): (TriageId, &str),
    (answer, reason): (Triage, &str),
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepIntake, dog).await?.id;
    // publishing asks under the same lock
    dog::lock_summary(&mut tx, dog).await?;
    intake::hold(&mut tx, dog).await?.ok_or(Refusal::NotFound)?;
    let told = intake::find(&mut tx, dog).await?.ok_or(Refusal::NotFound)?;
    let latest = triage::of_dog(&mut tx, dog).await?;
    // after what it answers and after the answer before it, whatever the clock did meanwhile
    let after = latest.first().map(|latest| latest.at + Duration::MICROSECOND);
    let at = moment.at.max(told.sent_at.unwrap_or(moment.at)).max(after.unwrap_or(moment.at));
    if !triage::add(&mut tx, dog, id, (answer, reason), actor.membership, at).await? {
        let same = triage::is_same(&mut tx, dog, id, (answer, reason)).await?;
        return if same { Ok(()) } else { Err(Refusal::Clash) };
    }
    if told.stamp() != seen {
        return Err(Refusal::Field {
            field: "answer",
            message: "The household changed these pages after you opened this one. Read them again, then answer.",
        });
    }
    if !may_follow(latest.first().map(|latest| latest.answer), answer, actor.role == Role::Lead) {
        return Err(Refusal::Field {
            field: "answer",
            message: "This dog was referred. A lead trainer releases it first.",
        });
    }
    let event = AuditEvent::by(actor, "triage_dog", "dog", dog.0, moment);
    audit::note(&mut tx, &AuditEvent { detail: answer.label(), ..event }).await?;
    tx.commit().await?;
    Ok(())
}
