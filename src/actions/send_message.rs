//! Writing a message about a dog. Whoever writes has read what stood above: up to the last message that they were shown,
//! and no further.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Role;
use crate::ids::{DogId, MessageId};
use crate::store::message::{About, NewMessage};
use crate::store::{Tx, dog, dog_summary, message};

/// A message to be sent.
#[derive(Debug, Clone, Copy)]
pub struct MessageInput<'a> {
    /// Its id, made where it was typed.
    pub id: MessageId,
    /// What it says.
    pub body: &'a str,
    /// The last message that stood above it.
    pub seen: Option<MessageId>,
    /// What it is about, where that is one thing of this dog.
    pub about: Option<About>,
}

/// Sends a message. Sending it again changes nothing; the same id with other content is refused.
pub async fn send_message(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    input: MessageInput<'_>,
    moment: &Moment,
) -> Done<()> {
    send(&mut tx, actor, dog, input, moment).await?;
    tx.commit().await?;
    Ok(())
}

/// The same inside a transaction that goes on.
pub(super) async fn send(
    tx: &mut Tx,
    actor: &Actor,
    dog: DogId,
    input: MessageInput<'_>,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(tx, actor, Action::Message, dog).await?.id;
    let MessageInput { id, body, seen, about } = input;
    if let Some(about) = about {
        message::subject(tx, dog, about).await?.ok_or(Refusal::NotFound)?;
    }
    let from_trainer = actor.role != Role::Owner;
    dog::lock_summary(tx, dog).await?;
    let said = NewMessage { id, dog, by: actor.membership, from_trainer, body, about };
    let sent = message::add(tx, &said, moment.at).await?;
    let Some(sent_at) = sent else {
        let same = message::is_same(tx, &said).await?;
        return if same { Ok(()) } else { Err(Refusal::Clash) };
    };
    if !from_trainer {
        dog_summary::owner_wrote(tx, dog, body, sent_at).await?;
    }
    match seen {
        Some(seen) => read(tx, actor, dog, seen).await,
        None => Ok(()),
    }
}

/// Notes that the messages about a dog have been read up to the last one that was shown. Where a trainer says so, no
/// question up to there waits any more.
pub async fn mark_messages_read(mut tx: Tx, actor: &Actor, dog: DogId, seen: Option<MessageId>) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::Message, dog).await?.id;
    let seen = seen.ok_or(Refusal::NotFound)?;
    dog::lock_summary(&mut tx, dog).await?;
    read(&mut tx, actor, dog, seen).await?;
    tx.commit().await?;
    Ok(())
}

async fn read(tx: &mut Tx, actor: &Actor, dog: DogId, seen: MessageId) -> Done<()> {
    let to = message::sent_at(tx, dog, seen).await?.ok_or(Refusal::NotFound)?;
    if actor.role != Role::Owner {
        dog_summary::answered_to(tx, dog, to).await?;
    }
    message::mark_read(tx, dog, actor.membership, to).await?;
    Ok(())
}
