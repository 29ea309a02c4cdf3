//! Changes an entry of the library and its ladder. Published plans keep the wording they were published with.

use sha2::{Digest, Sha256};

use crate::actions::add_exercise::name_taken;
use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::StepId;
use crate::store::audit::{self, AuditEvent};
use crate::store::exercise::{self, Exercise};
use crate::store::step::{self, Step};
use crate::store::{self, Tx};

/// The ladder as whoever edits it saw it, and what they made of it.
#[derive(Debug)]
pub struct Ladder {
    /// The [`mark`] of the steps that they saw.
    pub seen: String,
    /// The steps as they shall read.
    pub steps: Vec<Step>,
    /// The steps that they took out.
    pub removed: Vec<StepId>,
}

/// A short mark of a ladder: another one as soon as a step is added, removed, moved or worded otherwise.
pub fn mark(steps: &[Step]) -> String {
    let hash = Sha256::digest(format!("ladder 1|{steps:?}").as_bytes());
    hash.iter().take(12).map(|byte| format!("{byte:02x}")).collect()
}

/// Makes the entry and its ladder read as given: steps keep their ids, and those that were taken out are removed unless
/// a plan, a log or a decision names them. A ladder that somebody else changed meanwhile is left as it is.
pub async fn edit_exercise(
    mut tx: Tx,
    actor: &Actor,
    entry: &Exercise,
    ladder: &Ladder,
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::KeepLibrary, None)?;
    exercise::find(&mut tx, entry.id).await?.ok_or(Refusal::NotFound)?;
    exercise::edit(&mut tx, entry).await.map_err(name_taken)?;
    // the entry's row is locked by now: nobody else is changing its steps
    let kept = step::of_exercise(entry.id).read(&mut tx).await?;
    let named = |id| ladder.removed.contains(&id) || ladder.steps.iter().any(|step| step.id == id);
    if mark(&kept) != ladder.seen || !kept.iter().all(|step| named(step.id)) {
        return Err(CHANGED_MEANWHILE);
    }
    for id in &ladder.removed {
        step::remove(&mut tx, entry.id, *id).await.map_err(in_use)?;
    }
    for step in &ladder.steps {
        step::keep(&mut tx, step).await?;
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_exercise", "exercise", entry.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

const CHANGED_MEANWHILE: Refusal = Refusal::Field {
    field: "steps",
    message: "Somebody changed these steps after you opened this page. Nothing was saved: open the entry again and make your change there.",
};

fn in_use(error: store::Error) -> Refusal {
    if !store::is_in_use(&error) {
        return error.into();
    }
    Refusal::Field {
        field: "steps",
        message: "A plan or a log names a step that you ticked to remove, so it stays on record. You can rename it.",
    }
}
