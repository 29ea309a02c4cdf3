//! Plans kept to start others from. They hold nothing of the dog that they came from.

use time::OffsetDateTime;

use crate::ids::{DogId, MembershipId, PlanTemplateId, PlanVersionId};
use crate::store::plan_draft_item::LineSettings;
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// A kept plan, as a list names it.
#[derive(Debug, Clone)]
pub struct PlanTemplate {
    /// Its id.
    pub id: PlanTemplateId,
    /// Its name, once in a practice.
    pub name: String,
    /// For which dog it is; may be empty.
    pub about: String,
    /// Who kept it.
    pub by: String,
    /// How many instructions it has.
    pub items: i64,
}

/// The kept plans of the practice, by name.
pub async fn list(tx: &mut Tx) -> Result<Vec<PlanTemplate>> {
    let practice = tx.practice();
    sqlx::query_as!(
        PlanTemplate,
        r#"select t.id, t.name, t.about, m.name as by,
             (select count(*) from plan_template_item i where i.practice_id = t.practice_id and i.template_id = t.id) as "items!"
           from plan_template t
           join membership m on m.practice_id = t.practice_id and m.id = t.kept_by
           where t.practice_id = $1 order by lower(t.name), t.id"#,
        practice.0
    )
    .fetch_all(tx.conn())
    .await
}

/// One kept plan of the practice.
pub async fn find(tx: &mut Tx, id: PlanTemplateId) -> Result<Option<PlanTemplate>> {
    Ok(list(tx).await?.into_iter().find(|template| template.id == id))
}

/// What to keep of a draft.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewTemplate {
    /// Its id, made with the form.
    pub id: PlanTemplateId,
    /// Its name.
    pub name: String,
    /// For which dog it is.
    pub about: String,
}

/// Keeps a dog's draft under a name. False where the id is known already.
pub async fn keep(
    tx: &mut Tx,
    new: &NewTemplate,
    dog: DogId,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into plan_template (practice_id, id, name, about, kept_by, kept_at) values ($1, $2, $3, $4, $5, $6)
         on conflict (practice_id, id) do nothing",
        practice.0,
        new.id.0,
        new.name,
        new.about,
        by.0,
        now
    )
    .execute(tx.conn())
    .await?;
    if done.rows_affected() == 0 {
        return Ok(false);
    }
    sqlx::query!(
        "insert into plan_template_item (practice_id, template_id, position, exercise_id, step_id, attempts, times_a_week,
           minutes, line, clip, line_metres, cool_down_minutes, cool_down_way, note)
         select practice_id, $3, row_number() over (order by position, line_id), exercise_id, step_id, attempts,
           times_a_week, minutes, line, clip, line_metres, cool_down_minutes, cool_down_way, note
         from plan_draft_item where practice_id = $1 and dog_id = $2",
        practice.0,
        dog.0,
        new.id.0
    )
    .execute(tx.conn())
    .await?;
    Ok(true)
}

/// Removes a kept plan; plans that were started from it stay. Gives whether there was one.
pub async fn remove(tx: &mut Tx, id: PlanTemplateId) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from plan_template_item where practice_id = $1 and template_id = $2",
        practice.0,
        id.0
    )
    .execute(tx.conn())
    .await?;
    let done = sqlx::query!("delete from plan_template where practice_id = $1 and id = $2", practice.0, id.0)
        .execute(tx.conn())
        .await?;
    Ok(done.rows_affected() == 1)
}

/// A row of a kept plan, or of a published one without its dog's places and reinforcers.
struct Row {
    exercise_id: uuid::Uuid,
    step_id: Option<uuid::Uuid>,
    attempts: Option<i16>,
    times_a_week: Option<i16>,
    minutes: Option<i16>,
    line: String,
    clip: Option<String>,
    line_metres: Option<i16>,
    cool_down_minutes: i16,
    cool_down_way: String,
    note: String,
}

impl TryFrom<Row> for LineSettings {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            exercise: row.exercise_id.into(),
            step: row.step_id.map(Into::into),
            attempts: row.attempts,
            times_a_week: row.times_a_week,
            minutes: row.minutes,
            place: None,
            reinforcer: None,
            line: word(&row.line)?,
            clip: word_or_none(row.clip.as_deref())?,
            line_metres: row.line_metres,
            cool_down_minutes: row.cool_down_minutes,
            cool_down_way: row.cool_down_way,
            note: row.note,
        })
    }
}

/// The lines of a kept plan, in order.
pub async fn lines(tx: &mut Tx, id: PlanTemplateId) -> Result<Vec<LineSettings>> {
    let practice = tx.practice();
    let rows = sqlx::query_as!(
        Row,
        "select exercise_id, step_id, attempts, times_a_week, minutes, line, clip, line_metres, cool_down_minutes,
                cool_down_way, note
         from plan_template_item where practice_id = $1 and template_id = $2 order by position",
        practice.0,
        id.0
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(LineSettings::try_from).collect()
}

/// The lines of a published plan for another dog: on the first step of each ladder, without a note, since both were another
/// dog's.
pub async fn lines_of_version(tx: &mut Tx, version: PlanVersionId) -> Result<Vec<LineSettings>> {
    let practice = tx.practice();
    let rows = sqlx::query_as!(
        Row,
        r#"select i.exercise_id,
             (select s.id from step s where s.practice_id = i.practice_id and s.exercise_id = i.exercise_id
              order by s.position limit 1) as step_id,
             i.attempts, i.times_a_week, i.minutes, i.line, i.clip, i.line_metres, i.cool_down_minutes,
             i.cool_down_way, '' as "note!"
           from plan_item i where i.practice_id = $1 and i.plan_version_id = $2 order by i.position"#,
        practice.0,
        version.0
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(LineSettings::try_from).collect()
}

/// A dog whose published plan another may start from.
#[derive(Debug, Clone)]
pub struct Lender {
    /// The dog.
    pub dog: DogId,
    /// Its name.
    pub name: String,
    /// Its household's.
    pub household: String,
}

/// The practice's dogs with a published plan, by name, without this one.
pub async fn lenders(tx: &mut Tx, without: DogId) -> Result<Vec<Lender>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Lender,
        r#"select d.id as dog, d.name, h.name as household from dog d
           join household h on h.practice_id = d.practice_id and h.id = d.household_id
           where d.practice_id = $1 and d.id <> $2
             and exists (select 1 from plan_version v where v.practice_id = d.practice_id and v.dog_id = d.id)
           order by lower(d.name), lower(h.name), d.id"#,
        practice.0,
        without.0
    )
    .fetch_all(tx.conn())
    .await
}

#[cfg(test)]
mod tests {
    use crate::domain::vocabulary::{Line, Word};

    #[test]
    fn every_line_may_be_kept() {
        // the CHECK of the table names the same words
        let sql = include_str!("../../migrations/0013_plan_writing.sql");
        for line in Line::ALL {
            assert!(sql.contains(&format!("'{}'", line.stored())), "{line}");
        }
    }
}
