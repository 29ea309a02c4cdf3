//! The rungs of an exercise. Their ids stay the same when they are edited, because logs and readiness refer to them.

use crate::ids::{ExerciseId, StepId};
use crate::store::{Result, Tx};

/// One rung of an exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Its id.
    pub id: StepId,
    /// Its exercise.
    pub exercise: ExerciseId,
    /// Which rung, from 1, easiest first.
    pub position: i16,
    /// What it is called.
    pub name: String,
    /// What earns the marker on it.
    pub criterion: String,
    /// How far, in words; empty where distance is no part of it.
    pub distance: String,
    /// How long, in words; empty where duration is no part of it.
    pub duration: String,
    /// How distracting the place is, 1–5.
    pub distraction: i16,
}

/// The steps of an exercise, easiest first.
pub async fn of_exercise(tx: &mut Tx, exercise: ExerciseId) -> Result<Vec<Step>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Step,
        "select id, exercise_id as exercise, position, name, criterion, distance, duration, distraction
         from step where practice_id = $1 and exercise_id = $2 order by position",
        practice.0,
        exercise.0
    )
    .fetch_all(tx.conn())
    .await
}

/// Every step of the library, by exercise, easiest first: for editors that offer any of them.
pub async fn all(tx: &mut Tx) -> Result<Vec<Step>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Step,
        "select id, exercise_id as exercise, position, name, criterion, distance, duration, distraction
         from step where practice_id = $1 order by exercise_id, position",
        practice.0
    )
    .fetch_all(tx.conn())
    .await
}

/// One step.
pub async fn find(tx: &mut Tx, id: StepId) -> Result<Option<Step>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Step,
        "select id, exercise_id as exercise, position, name, criterion, distance, duration, distraction
         from step where practice_id = $1 and id = $2",
        practice.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await
}
