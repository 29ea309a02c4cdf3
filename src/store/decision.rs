//! Decisions: what a trainer chose for a line, and on what figures.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::domain::vocabulary::{Choice, DecisionReason, Word};
use crate::ids::{DecisionId, DogId, LineId, MembershipId, StepId};
use crate::store::reading::{Reading, reading};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// A decision to be kept.
#[derive(Debug, Clone)]
pub struct NewDecision {
    /// Its id.
    pub id: DecisionId,
    /// The dog.
    pub dog: DogId,
    /// The instruction.
    pub line: LineId,
    /// The step it stood at.
    pub step: StepId,
    /// What the service advised, with its figures.
    pub advice: String,
    /// What the trainer chose.
    pub choice: Choice,
    /// Why.
    pub reason: DecisionReason,
    /// A note.
    pub note: String,
    /// Who decided.
    pub by: MembershipId,
}

/// A decision as pages show it.
#[derive(Debug, Clone)]
pub struct Decision {
    /// The instruction.
    pub line: LineId,
    /// The exercise's name.
    pub exercise: String,
    /// What the service advised.
    pub advice: String,
    /// What the trainer chose.
    pub choice: Choice,
    /// Why.
    pub reason: DecisionReason,
    /// A note.
    pub note: String,
    /// Who decided.
    pub by: String,
    /// When.
    pub decided_at: OffsetDateTime,
}

/// Whether the decision of this id says the same; `None` where there is none.
pub async fn is_kept_as(tx: &mut Tx, new: &NewDecision) -> Result<Option<bool>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select dog_id = $3 and line_id = $4 and step_id = $5 and choice = $6 and reason = $7 and note = $8 as "same!"
           from decision where practice_id = $1 and id = $2"#,
        practice.0,
        new.id.0,
        new.dog.0,
        new.line.0,
        new.step.0,
        new.choice.stored(),
        new.reason.stored(),
        new.note
    )
    .fetch_optional(tx.conn())
    .await
}

/// Keeps a decision; the line then waits no more. The dog's summary must be locked, and `at` lie after all that was told of
/// the dog before ([`told_after_all`](crate::store::revision::told_after_all)).
pub async fn add(tx: &mut Tx, new: &NewDecision, at: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into decision (practice_id, id, dog_id, line_id, step_id, advice, choice, reason, note, decided_by, decided_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
        practice.0,
        new.id.0,
        new.dog.0,
        new.line.0,
        new.step.0,
        new.advice,
        new.choice.stored(),
        new.reason.stored(),
        new.note,
        new.by.0,
        at
    )
    .execute(tx.conn())
    .await?;
    sqlx::query!(
        "update readiness set waiting = false where practice_id = $1 and dog_id = $2 and line_id = $3 and step_id = $4",
        practice.0,
        new.dog.0,
        new.line.0,
        new.step.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Moves the draft's item from one rung of its exercise to another; false where the line is not in the draft, or holds another
/// exercise by now.
pub async fn move_draft_step(
    tx: &mut Tx,
    dog: DogId,
    line: LineId,
    from: StepId,
    to: StepId,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update plan_draft_item d set step_id = next.id
         from step now join step next on next.practice_id = now.practice_id and next.exercise_id = now.exercise_id
         where d.practice_id = $1 and d.dog_id = $2 and d.line_id = $3
           and now.practice_id = $1 and now.id = $4 and d.exercise_id = now.exercise_id and next.id = $5",
        practice.0,
        dog.0,
        line.0,
        from.0,
        to.0
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// When a line at a step was decided on, oldest first.
pub async fn times(tx: &mut Tx, dog: DogId, line: LineId, step: StepId) -> Result<Vec<OffsetDateTime>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select decided_at from decision where practice_id = $1 and dog_id = $2 and line_id = $3 and step_id = $4
         order by decided_at",
        practice.0,
        dog.0,
        line.0,
        step.0
    )
    .fetch_all(tx.conn())
    .await
}

/// One decision about a step, without who and why.
#[derive(Debug, Clone, Copy)]
pub struct Turn {
    /// The instruction.
    pub line: LineId,
    /// The step it stood at.
    pub step: StepId,
    /// What was chosen.
    pub choice: Choice,
    /// When.
    pub at: OffsetDateTime,
}

/// Every decision about a dog that left its step, oldest first.
pub async fn turns(tx: &mut Tx, dog: DogId) -> Result<Vec<Turn>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select line_id, step_id, choice, decided_at from decision
         where practice_id = $1 and dog_id = $2 and choice <> 'repeat' order by decided_at, id",
        practice.0,
        dog.0
    )
    .fetch_all(tx.conn())
    .await?;
    let turns = rows.into_iter().map(|row| {
        Ok(Turn {
            line: row.line_id.into(),
            step: row.step_id.into(),
            choice: word(&row.choice)?,
            at: row.decided_at,
        })
    });
    turns.collect()
}

#[derive(Deserialize)]
struct Row {
    line_id: Uuid,
    exercise: String,
    advice: String,
    choice: String,
    reason: String,
    note: String,
    by: String,
    #[serde(with = "time::serde::rfc3339")]
    decided_at: OffsetDateTime,
}

impl TryFrom<Row> for Decision {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            line: row.line_id.into(),
            exercise: row.exercise,
            advice: row.advice,
            choice: word(&row.choice)?,
            reason: word(&row.reason)?,
            note: row.note,
            by: row.by,
            decided_at: row.decided_at,
        })
    }
}

/// A dog's decisions, newest first, at most `most`.
pub fn of_dog(dog: DogId, most: i64) -> Reading<Vec<Decision>> {
    reading!(
        Row,
        "select d.line_id, e.name as exercise, d.advice, d.choice, d.reason, d.note, m.name as by, d.decided_at
         from decision d
         join step s on s.practice_id = d.practice_id and s.id = d.step_id
         join exercise e on e.practice_id = d.practice_id and e.id = s.exercise_id
         join membership m on m.practice_id = d.practice_id and m.id = d.decided_by
         where d.practice_id = $1 and d.dog_id = $2
         order by d.decided_at desc, d.id desc limit $3",
        dog.0,
        most
    )
    .each()
}
