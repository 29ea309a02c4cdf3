//! What a dog did of an exercise before: where a new line of it begins.

use crate::ids::{DogId, ExerciseId, LineId, StepId};
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
