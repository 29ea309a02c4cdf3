//! Adds an entry with its ladder to the library.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::audit::{self, AuditEvent};
use crate::store::exercise::{self, Exercise};
use crate::store::step::{self, Step};
use crate::store::{self, Tx};

/// Adds the entry and its steps.
pub async fn add_exercise(
    mut tx: Tx,
    actor: &Actor,
    entry: &Exercise,
    steps: &[Step],
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::KeepLibrary, None)?;
    exercise::add(&mut tx, entry).await.map_err(name_taken)?;
    step::add_all(&mut tx, steps).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "add_exercise", "exercise", entry.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

/// A name that another entry of the library has.
pub(in crate::actions) fn name_taken(error: store::Error) -> Refusal {
    match store::refused_by(&error) {
        Some("exercise_name_once") => Refusal::Field {
            field: "name",
            message: "Another entry has this name, perhaps among the archived ones. Choose another name.",
        },
        _ => error.into(),
    }
}
