//! Reviewing what a household told: looked at, with a word to the household where there is one, in one go.

use crate::actions::look_at::look;
use crate::actions::send_message::{MessageInput, send};
use crate::actions::{Done, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, PhraseId};
use crate::store::look::Of;
use crate::store::{Tx, phrase};

use super::Refusal;

/// Notes that this wording was looked at, and sends the message.
pub async fn review(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (of, revision): (Of, i32),
    message: Option<MessageInput<'_>>,
    moment: &Moment,
) -> Done<()> {
    look(&mut tx, actor, dog, of, revision, moment).await?;
    if let Some(message) = message {
        send(&mut tx, actor, dog, message, moment).await?;
    }
    tx.commit().await?;
    Ok(())
}

/// Keeps a phrase for answers.
pub async fn keep_phrase(mut tx: Tx, actor: &Actor, body: &str, moment: &Moment) -> Done<()> {
    authorise(actor, Action::SeeCaseload, None)?;
    if !phrase::add(&mut tx, moment.id(), actor.membership, body, moment.at).await? {
        return Err(Refusal::Field {
            field: "body",
            message: "You have as many phrases as can be kept. Take one away first.",
        });
    }
    tx.commit().await?;
    Ok(())
}

/// Takes a phrase away.
pub async fn remove_phrase(mut tx: Tx, actor: &Actor, id: PhraseId) -> Done<()> {
    authorise(actor, Action::SeeCaseload, None)?;
    if !phrase::remove(&mut tx, id, actor.membership).await? {
        return Err(Refusal::NotFound);
    }
    tx.commit().await?;
    Ok(())
}
