//! One line of a draft: which exercise, and how this dog is to practise it.

use crate::domain::vocabulary::{Clip, Line, Word};
use crate::ids::{DogId, ExerciseId, LineId, PlaceId, ReinforcerId, StepId};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// What a trainer chooses for a line.
#[derive(Debug, Clone, PartialEq)]
pub struct LineSettings {
    /// The exercise, arrangement or skill.
    pub exercise: ExerciseId,
    /// The rung, where it has a ladder.
    pub step: Option<StepId>,
    /// Attempts in one sitting, 1–50.
    pub attempts: Option<i16>,
    /// Sittings in a week, 1–21.
    pub times_a_week: Option<i16>,
    /// Minutes in one sitting, 1–120.
    pub minutes: Option<i16>,
    /// Where.
    pub place: Option<PlaceId>,
    /// With which reinforcer.
    pub reinforcer: Option<ReinforcerId>,
    /// What joins dog and handler.
    pub line: Line,
    /// Where it is clipped.
    pub clip: Option<Clip>,
    /// Length of the line, metres, 1–50.
    pub line_metres: Option<i16>,
    /// Minutes of cool-down, 0–60; 0 asks for none.
    pub cool_down_minutes: i16,
    /// How to cool down.
    pub cool_down_way: String,
    /// A note on this item, for the owner.
    pub note: String,
}

/// Which of the things that a line names belong to it.
#[derive(Debug, Clone, Copy)]
pub struct Belongs {
    /// The exercise is in the library.
    pub exercise: bool,
    /// The step is one of this exercise, or none is named.
    pub step: bool,
    /// The place is one of this dog's, or none is named.
    pub place: bool,
    /// The reinforcer is one of this dog's, or none is named.
    pub reinforcer: bool,
}

/// Checks what a line names against its dog and exercise.
pub async fn belongs(tx: &mut Tx, dog: DogId, named: &LineSettings) -> Result<Belongs> {
    let practice = tx.practice();
    sqlx::query_as!(
        Belongs,
        r#"select
             exists (select 1 from exercise where practice_id = $1 and id = $3) as "exercise!",
             $4::uuid is null or exists (select 1 from step
               where practice_id = $1 and id = $4 and exercise_id = $3) as "step!",
             $5::uuid is null or exists (select 1 from place
               where practice_id = $1 and id = $5 and dog_id = $2) as "place!",
             $6::uuid is null or exists (select 1 from reinforcer
               where practice_id = $1 and id = $6 and dog_id = $2) as "reinforcer!""#,
        practice.0,
        dog.0,
        named.exercise.0,
        named.step.map(|id| id.0),
        named.place.map(|id| id.0),
        named.reinforcer.map(|id| id.0)
    )
    .fetch_one(tx.conn())
    .await
}

/// A line of this dog's draft.
pub async fn find(tx: &mut Tx, dog: DogId, line: LineId) -> Result<Option<LineSettings>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        "select exercise_id, step_id, attempts, times_a_week, minutes, place_id, reinforcer_id, line, clip, line_metres,
                cool_down_minutes, cool_down_way, note
         from plan_draft_item where practice_id = $1 and dog_id = $2 and line_id = $3",
        practice.0,
        dog.0,
        line.0
    )
    .fetch_optional(tx.conn())
    .await?;
    row.map(|row| {
        Ok(LineSettings {
            exercise: row.exercise_id.into(),
            step: row.step_id.map(Into::into),
            attempts: row.attempts,
            times_a_week: row.times_a_week,
            minutes: row.minutes,
            place: row.place_id.map(Into::into),
            reinforcer: row.reinforcer_id.map(Into::into),
            line: word(&row.line)?,
            clip: word_or_none(row.clip.as_deref())?,
            line_metres: row.line_metres,
            cool_down_minutes: row.cool_down_minutes,
            cool_down_way: row.cool_down_way,
            note: row.note,
        })
    })
    .transpose()
}

/// What a line starts from: the exercise's own usual numbers, equipment and cool-down, on its first step. A standing
/// arrangement is kept all the time and a skill has its own pace, so only exercises start with attempts.
pub async fn usual(tx: &mut Tx, exercise: ExerciseId) -> Result<Option<LineSettings>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select e.kind, e.outcome, e.usual_attempts, e.usual_times_a_week, e.line, e.clip, e.cool_down_minutes,
             e.cool_down_way,
             (select s.id from step s where s.practice_id = e.practice_id and s.exercise_id = e.id
              order by s.position limit 1) as "first_step?"
           from exercise e where e.practice_id = $1 and e.id = $2 and e.archived_at is null"#,
        practice.0,
        exercise.0
    )
    .fetch_optional(tx.conn())
    .await?;
    row.map(|row| {
        Ok(LineSettings {
            exercise,
            step: row.first_step.map(Into::into),
            attempts: (row.kind == "exercise" && row.outcome == "count").then_some(row.usual_attempts),
            times_a_week: (row.kind != "standing_arrangement").then_some(row.usual_times_a_week),
            minutes: None,
            place: None,
            reinforcer: None,
            line: word(&row.line)?,
            clip: word_or_none(row.clip.as_deref())?,
            line_metres: None,
            cool_down_minutes: row.cool_down_minutes,
            cool_down_way: row.cool_down_way,
            note: String::new(),
        })
    })
    .transpose()
}

/// The exercises that a dog's draft holds.
pub async fn exercises(tx: &mut Tx, dog: DogId) -> Result<Vec<ExerciseId>> {
    let practice = tx.practice();
    let ids = sqlx::query_scalar!(
        "select exercise_id from plan_draft_item where practice_id = $1 and dog_id = $2 order by position",
        practice.0,
        dog.0
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(ids.into_iter().map(Into::into).collect())
}

/// Adds a line at a position of the draft, which must exist.
pub async fn add(tx: &mut Tx, dog: DogId, line: LineId, position: i16, chosen: &LineSettings) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into plan_draft_item (practice_id, dog_id, line_id, position, exercise_id, step_id, attempts,
           times_a_week, minutes, place_id, reinforcer_id, line, clip, line_metres, cool_down_minutes,
           cool_down_way, note)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17)",
        practice.0,
        dog.0,
        line.0,
        position,
        chosen.exercise.0,
        chosen.step.map(|id| id.0),
        chosen.attempts,
        chosen.times_a_week,
        chosen.minutes,
        chosen.place.map(|id| id.0),
        chosen.reinforcer.map(|id| id.0),
        chosen.line.stored(),
        chosen.clip.map(Word::stored),
        chosen.line_metres,
        chosen.cool_down_minutes,
        chosen.cool_down_way,
        chosen.note
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Changes a line; its exercise stays. Gives whether there was one.
pub async fn edit(tx: &mut Tx, dog: DogId, line: LineId, chosen: &LineSettings) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update plan_draft_item set step_id = $4, attempts = $5, times_a_week = $6, minutes = $7, place_id = $8,
           reinforcer_id = $9, line = $10, clip = $11, line_metres = $12, cool_down_minutes = $13,
           cool_down_way = $14, note = $15
         where practice_id = $1 and dog_id = $2 and line_id = $3",
        practice.0,
        dog.0,
        line.0,
        chosen.step.map(|id| id.0),
        chosen.attempts,
        chosen.times_a_week,
        chosen.minutes,
        chosen.place.map(|id| id.0),
        chosen.reinforcer.map(|id| id.0),
        chosen.line.stored(),
        chosen.clip.map(Word::stored),
        chosen.line_metres,
        chosen.cool_down_minutes,
        chosen.cool_down_way,
        chosen.note
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Takes a line out of the draft. Gives whether there was one.
pub async fn remove(tx: &mut Tx, dog: DogId, line: LineId) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "delete from plan_draft_item where practice_id = $1 and dog_id = $2 and line_id = $3",
        practice.0,
        dog.0,
        line.0
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
