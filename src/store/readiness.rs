//! Where each line and step of a dog stands: the folded state of its sittings.

use serde::{Deserialize, Serialize};
use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::domain::readiness::{Decline, Readiness};
use crate::domain::vocabulary::{SkillClass, Word};
use crate::ids::{DogId, LineId, PlanItemId, PracticeLogId, StepId};
use crate::store::reading::{Reading, reading};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// A kept state, and what it was folded up to.
#[derive(Debug, Clone)]
pub struct Kept {
    /// The instruction.
    pub line: LineId,
    /// The step.
    pub step: StepId,
    /// The class by whose chart it was folded.
    pub class: SkillClass,
    /// The state.
    pub state: Readiness,
    /// When the newest sitting in it began.
    pub last_started_at: OffsetDateTime,
    /// The newest sitting in it.
    pub last_log: PracticeLogId,
    /// Whether a decision is waited for.
    pub waiting: bool,
}

/// The state as the database keeps it.
#[derive(Debug, Serialize, Deserialize)]
struct Stored {
    score: f64,
    attempts: i32,
    met: i32,
    sittings: i32,
    days: i32,
    first_day: Option<Date>,
    last_day: Option<Date>,
    trainer_seen: i32,
    shown_only: i32,
    signalled_on: Option<Date>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    decline: Option<StoredDecline>,
}

/// The watch for decline as the database keeps it.
#[derive(Debug, Serialize, Deserialize)]
struct StoredDecline {
    score: f64,
    relapsed_on: Option<Date>,
}

impl From<&Readiness> for Stored {
    fn from(r: &Readiness) -> Self {
        Self {
            score: r.score,
            attempts: r.attempts,
            met: r.met,
            sittings: r.sittings,
            days: r.days,
            first_day: r.first_day,
            last_day: r.last_day,
            trainer_seen: r.trainer_seen,
            shown_only: r.shown_only,
            signalled_on: r.signalled_on,
            decline: r.decline.map(|d| StoredDecline { score: d.score, relapsed_on: d.relapsed_on }),
        }
    }
}

impl From<Stored> for Readiness {
    fn from(s: Stored) -> Self {
        Self {
            score: s.score,
            attempts: s.attempts,
            met: s.met,
            sittings: s.sittings,
            days: s.days,
            first_day: s.first_day,
            last_day: s.last_day,
            trainer_seen: s.trainer_seen,
            shown_only: s.shown_only,
            signalled_on: s.signalled_on,
            decline: s.decline.map(|d| Decline { score: d.score, relapsed_on: d.relapsed_on }),
        }
    }
}

#[derive(Deserialize)]
struct Row {
    line_id: Uuid,
    step_id: Uuid,
    class: String,
    #[serde(rename = "state: sqlx::types::Json<Stored>")]
    state: sqlx::types::Json<Stored>,
    #[serde(with = "time::serde::rfc3339")]
    last_started_at: OffsetDateTime,
    last_log_id: Uuid,
    waiting: bool,
}

impl TryFrom<Row> for Kept {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            line: row.line_id.into(),
            step: row.step_id.into(),
            class: word(&row.class)?,
            state: row.state.0.into(),
            last_started_at: row.last_started_at,
            last_log: row.last_log_id.into(),
            waiting: row.waiting,
        })
    }
}

/// Every state of a dog.
pub fn of_dog(dog: DogId) -> Reading<Vec<Kept>> {
    reading!(
        Row,
        r#"select line_id, step_id, class, state as "state: sqlx::types::Json<Stored>", last_started_at, last_log_id, waiting
           from readiness where practice_id = $1 and dog_id = $2 order by last_started_at desc"#,
        dog.0
    )
    .each()
}

/// The state of one line and step.
pub async fn find(tx: &mut Tx, dog: DogId, line: LineId, step: StepId) -> Result<Option<Kept>> {
    Ok(of_dog(dog).read(tx).await?.into_iter().find(|k| k.line == line && k.step == step))
}

/// Keeps a state.
pub async fn put(tx: &mut Tx, dog: DogId, kept: &Kept) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into readiness (practice_id, dog_id, line_id, step_id, class, state, last_started_at, last_log_id, waiting)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9)
         on conflict (practice_id, dog_id, line_id, step_id) do update
           set class = excluded.class, state = excluded.state, last_started_at = excluded.last_started_at,
               last_log_id = excluded.last_log_id, waiting = excluded.waiting",
        practice.0,
        dog.0,
        kept.line.0,
        kept.step.0,
        kept.class.stored(),
        sqlx::types::Json(Stored::from(&kept.state)) as _,
        kept.last_started_at,
        kept.last_log.0,
        kept.waiting
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// By what a line and step is charted, and since when.
#[derive(Debug, Clone, Copy)]
pub struct Terms {
    /// The class, as the latest plan says that had it.
    pub class: SkillClass,
    /// The number of the plan with which its evidence began anew, because the line came to this step from another, or its
    /// criterion changed; 0 where it never did. Sittings at items of earlier plans do not count.
    pub since: i32,
    /// Whether the line came to this step from an easier one: then it is watched for decline.
    pub watched: bool,
}

#[derive(Deserialize)]
struct TermsRow {
    #[serde(rename = "class!")]
    class: String,
    #[serde(rename = "since!")]
    since: i32,
    #[serde(rename = "watched!")]
    watched: bool,
}

/// The terms of a line and step. Only what was planned once has them.
pub fn terms(dog: DogId, line: LineId, step: StepId) -> Reading<Terms> {
    reading!(
        TermsRow,
        r#"with told as (
             select v.number, i.class, i.step_id,
               lag(i.step_id) over line as was_step, i.criterion <> lag(i.criterion) over line as is_reworded,
               i.exercise_id = lag(i.exercise_id) over line and i.step_position > lag(i.step_position) over line as is_up
             from plan_item i
             join plan_version v on v.practice_id = i.practice_id and v.id = i.plan_version_id
             where i.practice_id = $1 and i.dog_id = $2 and i.line_id = $3
             window line as (order by v.number))
           select class as "class!",
             coalesce((select max(number) from told
                       where step_id = $4 and was_step is not null and (was_step <> step_id or is_reworded)), 0) as "since!",
             coalesce((select is_up from told where step_id = $4 and was_step <> step_id order by number desc limit 1), false)
               as "watched!"
           from told where step_id = $4 order by number desc limit 1"#,
        dog.0,
        line.0,
        step.0
    )
    .only()
    .then(|row| Ok(Terms { class: word(&row.class)?, since: row.since, watched: row.watched }))
}

/// Whether an item is of a plan with this number or a later one.
pub async fn is_of_plan_since(tx: &mut Tx, item: PlanItemId, number: i32) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select v.number >= $3 as "is_since!" from plan_item i
           join plan_version v on v.practice_id = i.practice_id and v.id = i.plan_version_id
           where i.practice_id = $1 and i.id = $2"#,
        practice.0,
        item.0,
        number
    )
    .fetch_one(tx.conn())
    .await
}

/// Forgets the state of one line and step, where its evidence begins anew or no counted sitting is left.
pub async fn forget(tx: &mut Tx, dog: DogId, line: LineId, step: StepId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from readiness where practice_id = $1 and dog_id = $2 and line_id = $3 and step_id = $4",
        practice.0,
        dog.0,
        line.0,
        step.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Every line and step that a dog has sittings of.
pub async fn streams(tx: &mut Tx, dog: DogId) -> Result<Vec<(LineId, StepId)>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select distinct line_id, step_id as "step_id!" from practice_log
           where practice_id = $1 and dog_id = $2 and step_id is not null and deleted_at is null"#,
        practice.0,
        dog.0
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(rows.into_iter().map(|r| (r.line_id.into(), r.step_id.into())).collect())
}

/// Forgets every state of a dog, to be built anew.
pub async fn clear(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!("delete from readiness where practice_id = $1 and dog_id = $2", practice.0, dog.0)
        .execute(tx.conn())
        .await
        .map(drop)
}
