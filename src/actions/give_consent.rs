//! An owner agrees to what lessons need, and to whatever else they tick.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::consent::{self, ToSign};

/// Keeps what was signed. Sending the same again changes nothing.
pub async fn give_consent(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    signed: &ToSign<'_>,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::TellIntake, dog).await?.id;
    if !consent::add(&mut tx, dog, signed, actor.membership, moment.at).await? {
        return if consent::is_same(&mut tx, dog, signed).await? { Ok(()) } else { Err(Refusal::Clash) };
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "give_consent", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
