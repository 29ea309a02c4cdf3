//! What a dog's plans said before: where a new line of an exercise begins, and every line as each plan had it.

use crate::domain::charts::PlannedLine;
use crate::ids::{DogId, ExerciseId, LineId, StepId};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// The line and step at which a dog last had an exercise in a published plan; `None` where it never had.
pub async fn last_step(tx: &mut Tx, dog: DogId, exercise: ExerciseId) -> Result<Option<(LineId, StepId)>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select i.line_id, i.step_id as "step_id!" from plan_item i
           join plan_version v on v.practice_id = i.practice_id and v.id = i.plan_version_id
           join step s on s.practice_id = i.practice_id and s.id = i.step_id and s.exercise_id = i.exercise_id
           where i.practice_id = $1 and i.dog_id = $2 and i.exercise_id = $3
           order by v.number desc, i.position limit 1"#,
        practice.0,
        dog.0,
        exercise.0
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(row.map(|row| (row.line_id.into(), row.step_id.into())))
}

/// Every exercise of a dog's plans, as each plan had it, oldest plan first; at most `most`, the newest. When evidence begins
/// anew is told as in [`terms`](crate::store::readiness::terms).
pub async fn lines(tx: &mut Tx, dog: DogId, most: i64) -> Result<Vec<PlannedLine>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select line_id as "line_id!", number as "number!", position as "position!", name as "name!", step_id, step_position,
             steps_total as "steps_total!", step_name as "step_name!", class as "class!", outcome as "outcome!",
             coalesce(was_step is not null and (was_step <> step_id or is_reworded), false) as "is_anew!",
             case when was_step <> step_id then coalesce(is_up, false) end as is_up
           from (
             select i.line_id, v.number, i.position, i.name, i.step_id, i.step_position, i.steps_total, i.step_name, i.class,
               i.outcome, lag(i.step_id) over line as was_step, i.criterion <> lag(i.criterion) over line as is_reworded,
               i.exercise_id = lag(i.exercise_id) over line and i.step_position > lag(i.step_position) over line as is_up
             from plan_item i
             join plan_version v on v.practice_id = i.practice_id and v.id = i.plan_version_id
             where i.practice_id = $1 and i.dog_id = $2 and i.kind = 'exercise'
             window line as (partition by i.line_id order by v.number)) told
           order by number desc, position desc limit $3"#,
        practice.0,
        dog.0,
        most
    )
    .fetch_all(tx.conn())
    .await?;
    let lines = rows.into_iter().rev().map(|row| {
        Ok(PlannedLine {
            line: row.line_id.into(),
            plan: row.number,
            position: row.position,
            name: row.name,
            step: row.step_id.map(Into::into),
            step_position: row.step_position,
            steps_total: row.steps_total,
            step_name: row.step_name,
            class: word(&row.class)?,
            outcome: word(&row.outcome)?,
            is_anew: row.is_anew,
            is_up: row.is_up,
        })
    });
    lines.collect()
}
