//! Answering a flag with what was done. A flag is never deleted.

use time::OffsetDateTime;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, FlagId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog, dog_summary, flag, look};

/// Answers an open flag, and with it those that the answerer saw beside it, `until` when they saw them: open flags of the same rule of this dog. One
/// raised since stays open, and each keeps its own answer. The same answer by the same person again changes nothing;
/// any other is refused, and the first stays. `keeps_resting`: the exercises that rest go on resting until the next plan is published.
pub async fn answer_flag(
    mut tx: Tx,
    actor: &Actor,
    id: FlagId,
    (saw, until): (&[FlagId], OffsetDateTime),
    (what, keeps_resting): (&str, bool),
    moment: &Moment,
) -> Done<DogId> {
    let dog = flag::dog_of(&mut tx, id).await?.ok_or(Refusal::NotFound)?;
    let dog = authorised_dog(&mut tx, actor, Action::AnswerFlag, dog).await?;
    dog::lock_summary(&mut tx, dog.id).await?;
    let answered = flag::answer(&mut tx, id, saw, (actor.membership, what, keeps_resting), moment.at).await?;
    if answered.is_empty() {
        return match flag::is_answered_by(&mut tx, id, actor.membership, (what, keeps_resting)).await? {
            true => Ok(dog.id),
            false => Err(Refusal::Field {
                field: "answer",
                message: "This was settled before you answered, and that stands. What you wrote was not kept: it is still below.",
            }),
        };
    }
    look::add_of_flags(&mut tx, &answered, until.min(moment.at), actor.membership, moment.at).await?;
    dog_summary::flags_changed(&mut tx, dog.id).await?;
    for id in answered {
        audit::note(&mut tx, &AuditEvent::by(actor, "answer_flag", "welfare_flag", id.0, moment)).await?;
    }
    tx.commit().await?;
    Ok(dog.id)
}
