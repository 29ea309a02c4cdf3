//! Adds the exercises of a file to the library, all of them or none.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::library_file::{Entry, Rung};
use crate::ids::ExerciseId;
use crate::store::audit::{self, AuditEvent};
use crate::store::exercise::{self, Exercise};
use crate::store::step::{self, Step};
use crate::store::{self, Tx};

/// Adds each entry with its ladder under its name.
pub async fn import_exercises(mut tx: Tx, actor: &Actor, entries: Vec<Entry>, moment: &Moment) -> Done<()> {
    authorise(actor, Action::KeepLibrary, None)?;
    let mut steps = Vec::new();
    for mut entry in entries {
        let id: ExerciseId = moment.id();
        let rungs = std::mem::take(&mut entry.steps);
        exercise::add(&mut tx, &exercise_of(id, entry)).await.map_err(name_taken)?;
        steps.extend((1..).zip(rungs).map(|(position, rung)| step_of(id, position, rung, moment)));
        audit::note(&mut tx, &AuditEvent::by(actor, "import_exercises", "exercise", id.0, moment)).await?;
    }
    step::add_all(&mut tx, &steps).await?;
    tx.commit().await?;
    Ok(())
}

fn exercise_of(id: ExerciseId, entry: Entry) -> Exercise {
    Exercise {
        id,
        kind: entry.kind,
        name: entry.name,
        purpose: entry.purpose,
        owner_why: entry.owner_why,
        criterion: entry.criterion,
        set_up: entry.set_up,
        delivery: entry.delivery,
        equipment_note: entry.equipment_note,
        line: entry.line,
        clip: entry.clip,
        energy: entry.energy,
        impact: entry.impact,
        class: entry.class,
        outcome: entry.outcome,
        cool_down_minutes: entry.cool_down_minutes,
        cool_down_way: entry.cool_down_way,
        usual_attempts: entry.usual_attempts,
        usual_times_a_week: entry.usual_times_a_week,
        caution: entry.caution,
        source: entry.source,
        archived_at: None,
    }
}

fn step_of(exercise: ExerciseId, position: i16, rung: Rung, moment: &Moment) -> Step {
    Step {
        id: moment.id(),
        exercise,
        position,
        name: rung.name,
        criterion: rung.criterion,
        distance: rung.distance,
        duration: rung.duration,
        distraction: rung.distraction,
    }
}

/// A name that somebody gave another entry while this was read.
fn name_taken(error: store::Error) -> Refusal {
    match store::refused_by(&error) {
        Some("exercise_name_once") => Refusal::Field {
            field: "text",
            message: "The library changed while you looked at this, and a name is taken by now. Nothing was added: check the file again.",
        },
        _ => error.into(),
    }
}
