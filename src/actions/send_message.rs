//! Writing a message about a dog. Whoever writes has read what stands above.

use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::vocabulary::Role;
use crate::ids::{DogId, MessageId};
use crate::store::{Tx, dog, dog_summary, message};

/// Sends a message; sending the same one again changes nothing.
pub async fn send_message(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    id: MessageId,
    body: &str,
    moment: &Moment,
) -> Done<()> {
    send(&mut tx, actor, dog, id, body, moment).await?;
    tx.commit().await?;
    Ok(())
}

/// The same inside a transaction that goes on.
pub(super) async fn send(
    tx: &mut Tx,
    actor: &Actor,
    dog: DogId,
    id: MessageId,
    body: &str,
    moment: &Moment,
) -> Done<()> {
    let dog = dog::find(tx, actor, dog).await?.ok_or(Refusal::NotFound)?;
    let from_trainer = actor.role != Role::Owner;
    dog::lock_summary(tx, dog.id).await?;
    if message::add(tx, id, dog.id, actor.membership, from_trainer, body, moment.at).await? {
        dog_summary::message_sent(tx, dog.id, from_trainer, body, moment.at).await?;
        message::mark_read(tx, dog.id, actor.membership, moment.at).await?;
    }
    Ok(())
}

/// Notes that everything about a dog has been read. Where a trainer says so, no question waits any more.
pub async fn mark_messages_read(mut tx: Tx, actor: &Actor, dog: DogId, moment: &Moment) -> Done<()> {
    let dog = dog::find(&mut tx, actor, dog).await?.ok_or(Refusal::NotFound)?;
    if actor.role != Role::Owner {
        dog::lock_summary(&mut tx, dog.id).await?;
        dog_summary::message_sent(&mut tx, dog.id, true, "", moment.at).await?;
    }
    message::mark_read(&mut tx, dog.id, actor.membership, moment.at).await?;
    tx.commit().await?;
    Ok(())
}
