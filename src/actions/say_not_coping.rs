//! "I am not coping": to the trainer the same day, with a note where there is one, in one transaction.

use crate::actions::record_encounter::record;
use crate::actions::send_message::{MessageInput, send};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::sync::Lived;
use crate::domain::vocabulary::EncounterKind;
use crate::ids::MessageId;
use crate::store::Tx;
use crate::store::encounter::{self, Encounter};

/// Says it; gives whether it is new. `lived` is when a phone kept it that sent it later. The note goes out as a message as well, so that it can be answered where the household reads. Sending the
/// same again changes nothing.
pub async fn say_not_coping(
    mut tx: Tx,
    actor: &Actor,
    said: &Encounter,
    message: MessageId,
    lived: Option<&Lived>,
    moment: &Moment,
) -> Done<bool> {
    authorised_dog(&mut tx, actor, Action::SayNotCoping, said.dog).await?;
    if said.facts.kind != EncounterKind::NotCoping {
        return Err(Refusal::Forbidden);
    }
    let is_new = record(&mut tx, actor, said, None, moment).await?;
    if let Some(lived) = lived.filter(|_| is_new) {
        encounter::note_phone(&mut tx, said.id, lived).await?;
    }
    if !said.note.is_empty() {
        let input = MessageInput { id: message, body: &said.note, seen: None, about: None };
        send(&mut tx, actor, said.dog, input, moment).await?;
    }
    tx.commit().await?;
    Ok(is_new)
}
