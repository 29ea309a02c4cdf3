//! The library and a ladder as files to take away.

use std::collections::HashMap;

use axum::http::header;
use axum::response::IntoResponse;

use crate::domain::library_file::{self, Entry, Rung};
use crate::ids::ExerciseId;
use crate::store::exercise::{self, Exercise};
use crate::store::step::{self, Step};
use crate::web::library::ladder_csv;
use crate::web::{Answer, At, TrainerOnly, WebError};

/// Every entry that is offered for plans, as one JSON document.
pub async fn export(TrainerOnly(mut who): TrainerOnly) -> Answer {
    let mut ladders: HashMap<ExerciseId, Vec<Rung>> = HashMap::new();
    for step in step::all().read(&mut who.tx).await? {
        ladders.entry(step.exercise).or_default().push(rung_of(step));
    }
    let offered = exercise::offered(&mut who.tx).await?;
    let entries: Vec<Entry> = offered
        .into_iter()
        .map(|exercise| {
            let steps = ladders.remove(&exercise.id).unwrap_or_default();
            entry_of(exercise, steps)
        })
        .collect();
    let text = library_file::write(&entries).map_err(|error| WebError::Inside(error.into()))?;
    Ok(file("application/json; charset=utf-8", "library.json", text))
}

/// The ladder of one entry as a table.
pub async fn steps(At(id): At<ExerciseId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    exercise::find(&mut who.tx, id).await?.ok_or(WebError::NotFound)?;
    let steps = step::of_exercise(id).read(&mut who.tx).await?;
    let text = ladder_csv::write(&steps).map_err(WebError::Inside)?;
    Ok(file("text/csv; charset=utf-8", "steps.csv", text))
}

/// A file that browsers keep rather than show.
fn file(kind: &'static str, name: &str, text: String) -> axum::response::Response {
    let disposition = format!("attachment; filename=\"{name}\"");
    ([(header::CONTENT_TYPE, kind.to_owned()), (header::CONTENT_DISPOSITION, disposition)], text)
        .into_response()
}

fn entry_of(exercise: Exercise, steps: Vec<Rung>) -> Entry {
    Entry {
        kind: exercise.kind,
        name: exercise.name,
        purpose: exercise.purpose,
        owner_why: exercise.owner_why,
        criterion: exercise.criterion,
        set_up: exercise.set_up,
        delivery: exercise.delivery,
        equipment_note: exercise.equipment_note,
        line: exercise.line,
        clip: exercise.clip,
        energy: exercise.energy,
        impact: exercise.impact,
        class: exercise.class,
        outcome: exercise.outcome,
        cool_down_minutes: exercise.cool_down_minutes,
        cool_down_way: exercise.cool_down_way,
        usual_attempts: exercise.usual_attempts,
        usual_times_a_week: exercise.usual_times_a_week,
        caution: exercise.caution,
        source: exercise.source,
        steps,
    }
}

fn rung_of(step: Step) -> Rung {
    Rung {
        name: step.name,
        criterion: step.criterion,
        distance: step.distance,
        duration: step.duration,
        distraction: step.distraction,
    }
}
