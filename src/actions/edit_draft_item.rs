//! Changing how a line of the draft is practised.

use crate::actions::plan_draft::{checked, finished, opened};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::{DogId, LineId};
use crate::store::Tx;
use crate::store::plan_draft_item::{self, LineSettings};

/// Changes a line; its exercise stays what it was.
pub async fn edit_draft_item(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    line: LineId,
    chosen: &LineSettings,
    moment: &Moment,
) -> Done<()> {
    opened(&mut tx, actor, dog, moment).await?;
    let kept = plan_draft_item::find(&mut tx, dog, line).await?.ok_or(Refusal::NotFound)?;
    let chosen = LineSettings { exercise: kept.exercise, ..chosen.clone() };
    checked(&mut tx, dog, &chosen).await?;
    plan_draft_item::edit(&mut tx, dog, line, &chosen).await?;
    finished(tx, actor, dog, "edit_draft_item", "", moment).await
}
