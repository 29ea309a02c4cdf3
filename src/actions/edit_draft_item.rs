//! Changing how a line of the draft is practised.

use sha2::{Digest, Sha256};

use crate::actions::plan_draft::{checked, finished, opened};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::{DogId, LineId};
use crate::store::Tx;
use crate::store::plan_draft_item::{self, LineSettings};

/// What to say where somebody else was first.
const CHANGED_MEANWHILE: Refusal = Refusal::Field {
    field: "seen",
    message: "Somebody changed this item after you opened the page, and nothing of yours was kept yet. What it says now stands above the form; what you typed is still in it. Save it again if it should stand.",
};

/// A mark of how a line stands, for a form to carry: a form that was made on another one would undo somebody's work.
pub fn stamp(chosen: &LineSettings) -> String {
    let hash = Sha256::digest(format!("draft item 1|{chosen:?}").as_bytes());
    hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
}

/// Changes a line as it stood at the stamp `seen`; its exercise stays what it was. What changes nothing, or was sent before,
/// does nothing; a change of another state is refused on the field `seen`.
pub async fn edit_draft_item(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    line: LineId,
    chosen: &LineSettings,
    seen: &str,
    moment: &Moment,
) -> Done<()> {
    opened(&mut tx, actor, dog, moment).await?;
    let kept = plan_draft_item::find(&mut tx, dog, line).await?.ok_or(Refusal::NotFound)?;
    let chosen = LineSettings { exercise: kept.exercise, ..chosen.clone() };
    if chosen == kept {
        return Ok(());
    }
    if seen != stamp(&kept) {
        return Err(CHANGED_MEANWHILE);
    }
    checked(&mut tx, dog, &chosen).await?;
    plan_draft_item::edit(&mut tx, dog, line, &chosen).await?;
    finished(tx, actor, dog, "edit_draft_item", "", moment).await
}
