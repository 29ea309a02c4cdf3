//! What a household says once its plan is only kept up: whether it still goes well, and that it would like to come back.

use time::Date;

use crate::actions::send_message::{MessageInput, send};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::StillWell;
use crate::ids::{CheckInId, DogId, MessageId};
use crate::store::{Tx, check_in};

/// An answer.
#[derive(Debug, Clone)]
pub struct CheckInInput<'a> {
    /// Its id, made with the page; a message that goes with it has the same.
    pub id: CheckInId,
    /// The dog.
    pub dog: DogId,
    /// What is said.
    pub answer: StillWell,
    /// The day it is where the dog lives.
    pub on: Date,
    /// What it is like, in the owner's words, where it slips; may be empty.
    pub words: &'a str,
}

/// Keeps the answer. Where it slips, that goes to the trainer as a message of the owner's, and waits like any question. Sent again, it
/// changes nothing.
pub async fn check_in(mut tx: Tx, actor: &Actor, input: &CheckInInput<'_>, moment: &Moment) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::CheckIn, input.dog).await?;
    let named = (input.id, dog.id);
    let is_new = check_in::add(&mut tx, named, (input.answer, input.on), actor.membership, moment).await?;
    if !is_new && !check_in::is_same(&mut tx, named, input.answer, actor.membership).await? {
        return Err(Refusal::Clash);
    }
    if input.answer == StillWell::Slipping {
        let body = slipping(&dog.name, input.words);
        let message = MessageInput { id: MessageId(input.id.0), body: &body, seen: None, about: None };
        send(&mut tx, actor, dog.id, message, moment).await?;
    }
    tx.commit().await?;
    Ok(())
}

/// As the trainer reads it.
fn slipping(dog: &str, words: &str) -> String {
    format!("Still going well? It is slipping with {dog}. {words}").trim_end().to_owned()
}

/// Says that the household would like to come back: a message of the owner's. Sent again, it changes nothing.
pub async fn ask_to_come_back(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    message: MessageId,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::CheckIn, dog).await?;
    let body = format!("We would like to come back with {}.", dog.name);
    let input = MessageInput { id: message, body: &body, seen: None, about: None };
    send(&mut tx, actor, dog.id, input, moment).await?;
    tx.commit().await?;
    Ok(())
}
