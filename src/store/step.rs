//! The rungs of an exercise. Their ids stay the same when they are edited, because logs and readiness refer to them.

use std::collections::HashMap;

use serde::Deserialize;

use crate::ids::{ExerciseId, StepId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// One rung of an exercise.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
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

/// Steps; `$tail` says which.
macro_rules! steps {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Step,
            "select id, exercise_id as exercise, position, name, criterion, distance, duration, distraction
             from step where practice_id = $1 "
                + $tail
            $(, $bind)*
        )
    };
}

/// The steps of an exercise, easiest first.
pub fn of_exercise(exercise: ExerciseId) -> Reading<Vec<Step>> {
    steps!("and exercise_id = $2 order by position", exercise.0)
}

/// Every step of the library, by exercise, easiest first: for editors that offer any of them.
pub fn all() -> Reading<Vec<Step>> {
    steps!("order by exercise_id, position")
}

/// One step.
pub fn find(id: StepId) -> Reading<Option<Step>> {
    steps!("and id = $2", id.0).first()
}

/// The step of the same exercise that is next below one.
pub fn below(id: StepId) -> Reading<Option<Step>> {
    steps!(
        "and (exercise_id, position) in (select s.exercise_id, s.position - 1 from step s where s.practice_id = $1 and s.id = $2)",
        id.0
    )
    .first()
}

/// Adds a step, or changes the one with this id. Positions are checked when the transaction ends, so that rungs can
/// change places.
pub async fn keep(tx: &mut Tx, step: &Step) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into step (practice_id, id, exercise_id, position, name, criterion, distance, duration, distraction)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9)
         on conflict (practice_id, id) do update
         set position = excluded.position, name = excluded.name, criterion = excluded.criterion,
             distance = excluded.distance, duration = excluded.duration, distraction = excluded.distraction
         where step.exercise_id = excluded.exercise_id",
        practice.0,
        step.id.0,
        step.exercise.0,
        step.position,
        step.name,
        step.criterion,
        step.distance,
        step.duration,
        step.distraction
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Removes a step of an exercise; refused by the database while a plan, a log or a decision names it.
pub async fn remove(tx: &mut Tx, exercise: ExerciseId, id: StepId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from step where practice_id = $1 and exercise_id = $2 and id = $3",
        practice.0,
        exercise.0,
        id.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Adds steps, all at once.
pub async fn add_all(tx: &mut Tx, steps: &[Step]) -> Result<()> {
    let practice = tx.practice();
    let text = |of: fn(&Step) -> &str| steps.iter().map(|step| of(step).to_owned()).collect::<Vec<_>>();
    let ids: Vec<uuid::Uuid> = steps.iter().map(|step| step.id.0).collect();
    let exercises: Vec<uuid::Uuid> = steps.iter().map(|step| step.exercise.0).collect();
    let positions: Vec<i16> = steps.iter().map(|step| step.position).collect();
    let distractions: Vec<i16> = steps.iter().map(|step| step.distraction).collect();
    sqlx::query!(
        "insert into step (practice_id, id, exercise_id, position, name, criterion, distance, duration, distraction)
         select $1, * from unnest($2::uuid[], $3::uuid[], $4::smallint[], $5::text[], $6::text[], $7::text[],
                                  $8::text[], $9::smallint[])",
        practice.0,
        &ids,
        &exercises,
        &positions,
        &text(|step| &step.name),
        &text(|step| &step.criterion),
        &text(|step| &step.distance),
        &text(|step| &step.duration),
        &distractions
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// How many steps each entry of the library has.
pub async fn counts(tx: &mut Tx) -> Result<HashMap<ExerciseId, i64>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select exercise_id, count(*) as "count!" from step where practice_id = $1 group by exercise_id"#,
        practice.0
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(rows.into_iter().map(|row| (row.exercise_id.into(), row.count)).collect())
}
