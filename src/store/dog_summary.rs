//! One row a dog, kept in the transaction that changes the facts. Only what changes by writes is here; what depends
//! on the clock is derived on reading. Rebuilding from the facts gives the same row.

use serde::Deserialize;
use time::{Date, OffsetDateTime};

use crate::domain::plan::counts_in_the_week;
use crate::domain::vocabulary::{ItemKind, Severity, Word};
use crate::ids::DogId;
use crate::store::reading::{Reading, day, reading};
use crate::store::word::word_or_none;
use crate::store::{Result, Tx, flag};

mod rebuild;

pub use rebuild::rebuild;

/// All that is kept of one dog, row by row as text, to compare it with what its facts say.
pub async fn kept(tx: &mut Tx, dog: DogId) -> Result<Vec<String>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select kept as "kept!" from (
             select 'summary ' || t::text as kept from dog_summary t where practice_id = $1 and dog_id = $2
             union all select 'day ' || t::text from dog_day t where practice_id = $1 and dog_id = $2
             union all select 'readiness ' || t::text from readiness t where practice_id = $1 and dog_id = $2
           ) rows order by 1"#,
        practice.0,
        dog.0
    )
    .fetch_all(tx.conn())
    .await
}

/// Adds one log of an item of this kind. Any is heard from; only the dog's practice is a sitting of the day.
pub async fn log_added(
    tx: &mut Tx,
    dog: DogId,
    kind: ItemKind,
    started_at: OffsetDateTime,
    on: Date,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary set logs = logs + 1, last_log_at = greatest(last_log_at, $3), last_log_on = greatest(last_log_on, $4)
         where practice_id = $1 and dog_id = $2",
        practice.0,
        dog.0,
        started_at,
        on
    )
    .execute(tx.conn())
    .await?;
    if !counts_in_the_week(kind) {
        return Ok(());
    }
    sqlx::query!(
        "insert into dog_day (practice_id, dog_id, local_date, sittings) values ($1, $2, $3, 1)
         on conflict (practice_id, dog_id, local_date) do update set sittings = dog_day.sittings + 1",
        practice.0,
        dog.0,
        on
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Notes trouble: a bite, a stop, running off, or an owner who is not coping.
pub async fn trouble(tx: &mut Tx, dog: DogId, at: OffsetDateTime, bite: bool) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary set last_trouble_at = greatest(last_trouble_at, $3),
           last_bite_at = case when $4 then greatest(last_bite_at, $3) else last_bite_at end
         where practice_id = $1 and dog_id = $2",
        practice.0,
        dog.0,
        at,
        bite
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Marks a day with the gravest thing found on it.
pub async fn mark_day(tx: &mut Tx, dog: DogId, on: Date, severity: Severity) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into dog_day (practice_id, dog_id, local_date, severity) values ($1, $2, $3, $4)
         on conflict (practice_id, dog_id, local_date) do update set severity =
           case when coalesce(array_position(array['notice', 'caution', 'stop'], dog_day.severity), 0)
                   >= array_position(array['notice', 'caution', 'stop'], excluded.severity)
                then dog_day.severity else excluded.severity end",
        practice.0,
        dog.0,
        on,
        severity.stored()
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Counts the open flags anew, names the gravest, and says by when the first of them is to be answered.
pub async fn flags_changed(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    let (top, answer_due) = flag::standing(tx, dog).await?;
    sqlx::query!(
        "update dog_summary s set open_stops = f.stops, open_cautions = f.cautions, open_notices = f.notices,
           not_coping_open = f.not_coping, bite_open = f.bite,
           trouble_open = f.trouble, answer_due = $4, top_flag_id = $3
         from (select count(*) filter (where severity = 'stop')::int as stops,
                      count(*) filter (where severity = 'caution')::int as cautions,
                      count(*) filter (where severity = 'notice')::int as notices,
                      coalesce(bool_or(rule = 'not_coping'), false) as not_coping,
                      coalesce(bool_or(rule = 'bite'), false) as bite,
                      coalesce(bool_or(severity = 'stop' or rule in ('bolted', 'second_incident', 'growl_at_child', 'not_coping')), false)
                        as trouble
               from welfare_flag where practice_id = $1 and dog_id = $2 and state = 'open') f
         where s.practice_id = $1 and s.dog_id = $2",
        practice.0,
        dog.0,
        top.map(|id| id.0),
        answer_due
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Counts the lines of the current plan that wait for a decision, and names the one that waits longest.
pub async fn decisions_changed(tx: &mut Tx, dog: DogId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary s set decisions_waiting = w.lines, decision_waits_on = w.first
         from (select count(*)::int as lines,
                      coalesce((array_agg(i.name || ', ' || i.step_name order by r.last_started_at, r.line_id))[1], '') as first
               from dog_summary c
               join readiness r on r.practice_id = c.practice_id and r.dog_id = c.dog_id and r.waiting
               join plan_item i on i.practice_id = r.practice_id and i.plan_version_id = c.plan_version_id
                 and i.line_id = r.line_id and i.step_id = r.step_id
               where c.practice_id = $1 and c.dog_id = $2) w
         where s.practice_id = $1 and s.dog_id = $2",
        practice.0,
        dog.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Notes what an owner wrote: it waits for an answer. The newest is kept, as building the row anew keeps it.
pub async fn owner_wrote(tx: &mut Tx, dog: DogId, body: &str, at: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    let start: String = body.chars().take(160).collect();
    sqlx::query!(
        "update dog_summary set last_owner_message_at = $3, last_owner_message = $4
         where practice_id = $1 and dog_id = $2 and (last_owner_message_at is null or last_owner_message_at <= $3)",
        practice.0,
        dog.0,
        at,
        start
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Notes that a trainer has answered or settled every message up to an instant; what was sent later still waits.
pub async fn answered_to(tx: &mut Tx, dog: DogId, to: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary set answered_to = greatest(answered_to, $3) where practice_id = $1 and dog_id = $2",
        practice.0,
        dog.0,
        to
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

#[derive(Deserialize)]
struct Asked {
    #[serde(rename = "waits!")]
    waits: bool,
    #[serde(with = "time::serde::rfc3339::option")]
    answered_to: Option<OffsetDateTime>,
}

/// Whether an owner's message waits, as the caseload reads it, and up to when the trainers have answered or settled. Messages are compared
/// with each other, by where they stand in the conversation; a clock that was set back changes nothing.
pub fn question_waits(dog: DogId) -> Reading<(bool, Option<OffsetDateTime>)> {
    reading!(
        Asked,
        r#"select last_owner_message_at is not null and (answered_to is null or last_owner_message_at > answered_to) as "waits!",
             answered_to
           from dog_summary where practice_id = $1 and dog_id = $2"#,
        dog.0
    )
    .first()
    .then(|asked| Ok(asked.map_or((false, None), |asked| (asked.waits, asked.answered_to))))
}

/// A day with something in it.
#[derive(Debug, Clone, Copy)]
pub struct DayKept {
    /// The day.
    pub on: Date,
    /// How many sittings.
    pub sittings: i32,
    /// The gravest thing found on it.
    pub severity: Option<Severity>,
}

#[derive(Deserialize)]
struct DayRow {
    #[serde(with = "day")]
    local_date: Date,
    sittings: i32,
    severity: Option<String>,
}

impl TryFrom<DayRow> for DayKept {
    type Error = sqlx::Error;

    fn try_from(row: DayRow) -> Result<Self> {
        let severity = word_or_none(row.severity.as_deref())?;
        Ok(Self { on: row.local_date, sittings: row.sittings, severity })
    }
}

/// A dog's days with something in them, from `from` on.
pub fn days(dog: DogId, from: Date) -> Reading<Vec<DayKept>> {
    reading!(
        DayRow,
        "select local_date, sittings, severity from dog_day
         where practice_id = $1 and dog_id = $2 and local_date >= $3 order by local_date",
        dog.0,
        from
    )
    .each()
}
