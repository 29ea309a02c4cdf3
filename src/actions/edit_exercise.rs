//! Changes an entry of the library and its ladder. Published plans keep the wording they were published with.

use crate::actions::add_exercise::name_taken;
use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::audit::{self, AuditEvent};
use crate::store::exercise::{self, Exercise};
use crate::store::step::{self, Step};
use crate::store::{self, Tx};

/// Makes the entry and its ladder read as given: steps keep their ids, and those that are left out are removed
/// unless a plan, a log or a decision names them.
pub async fn edit_exercise(
    mut tx: Tx,
    actor: &Actor,
    entry: &Exercise,
    steps: &[Step],
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::KeepLibrary, None)?;
    exercise::find(&mut tx, entry.id).await?.ok_or(Refusal::NotFound)?;
    exercise::edit(&mut tx, entry).await.map_err(name_taken)?;
    for kept in step::of_exercise(&mut tx, entry.id).await? {
        if !steps.iter().any(|step| step.id == kept.id) {
            step::remove(&mut tx, entry.id, kept.id).await.map_err(in_use)?;
        }
    }
    for step in steps {
        step::keep(&mut tx, step).await?;
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_exercise", "exercise", entry.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

fn in_use(error: store::Error) -> Refusal {
    if !store::is_in_use(&error) {
        return error.into();
    }
    Refusal::Field {
        field: "steps",
        message: "A plan or a log names a step that you ticked to remove, so it stays on record. You can rename it.",
    }
}
