//! Keeping the note to the owner for the day the plan is published.

use crate::actions::Done;
use crate::actions::plan_draft::{finished, opened};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::DogId;
use crate::store::{Tx, plan_draft};

/// Keeps the note with the draft.
pub async fn note_on_draft(mut tx: Tx, actor: &Actor, dog: DogId, note: &str, moment: &Moment) -> Done<()> {
    opened(&mut tx, actor, dog, moment).await?;
    plan_draft::set_note(&mut tx, dog, note).await?;
    finished(tx, actor, dog, "note_on_draft", "", moment).await
}
