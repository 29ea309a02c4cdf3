//! Changing and removing a log, and reading what it said before.

use std::collections::HashMap;

use serde_json::Value;
use sqlx::types::Json;
use time::OffsetDateTime;
use uuid::Uuid;

use super::{NewPracticeLog, PracticeLog, Row, Wanted, one, rows};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::Word;
use crate::ids::{DogId, LineId, PracticeLogId, StepId};
use crate::store::reading::{Reading, Together, reading};
use crate::store::revision::{self, Revision, Said};
use crate::store::{Error, Result, Tx};

/// Keeps what the log says now, and what is stated anew in its place. What it is a log of, who sent it and when stay.
pub async fn revise(tx: &mut Tx, new: &NewPracticeLog, said: &Said<'_>) -> Result<()> {
    keep(tx, new.dog, new.id, said, false).await?;
    let practice = tx.practice();
    let s = &new.sitting;
    let signs: Vec<String> = s.health_signs.iter().map(|sign| sign.stored().to_owned()).collect();
    sqlx::query!(
        "update practice_log set revision = revision + 1, handler = $3, started_at = $4, local_date = $5, place_name = $6,
           place_distraction = $7, busy = $8, line = $9, clip = $10, equipment_basis = $11, minutes = $12, attempts = $13,
           met = $14, rewarded = $15, outcome_value = $16, arousal_before = $17, arousal_end = $18, took_food = $19,
           looked = $20, recovery = $21, finish = $22, cool_down_minutes = $23, health_signs = $24, bolted = $25, bite = $26,
           note = $27, air_c = $28, humidity = $29, felt = $30, in_sun = $31, hot_ground = $32, child_held_line = $33,
           loop_round_hand = $34, muzzle_worn = $35, had_break = $36
         where practice_id = $1 and id = $2",
        practice.0,
        new.id.0,
        new.handler,
        new.started_at,
        s.local_date,
        new.place_name,
        s.place_distraction,
        s.busy.map(Word::stored),
        s.line.map(Word::stored),
        s.clip.map(Word::stored),
        s.equipment.map(Word::stored),
        s.minutes,
        s.attempts,
        s.met,
        s.rewarded,
        new.outcome_value,
        s.arousal_before,
        s.arousal_end,
        s.took_food.map(Word::stored),
        s.looked.map(Word::stored),
        s.recovery.map(Word::stored),
        s.finish.map(Word::stored),
        s.cool_down_minutes,
        &signs,
        s.bolted,
        s.bite,
        new.note,
        s.weather.air_c,
        s.weather.humidity,
        s.weather.felt.map(Word::stored),
        s.weather.in_sun,
        s.weather.hot_ground,
        s.child_held_line,
        s.loop_round_hand,
        s.muzzle_worn,
        s.had_break
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Removes a log: its row stays, and is left out of everything from then on.
pub async fn remove(tx: &mut Tx, dog: DogId, id: PracticeLogId, said: &Said<'_>) -> Result<()> {
    keep(tx, dog, id, said, true).await?;
    let practice = tx.practice();
    sqlx::query!(
        "update practice_log set revision = revision + 1, deleted_at = $3 where practice_id = $1 and id = $2",
        practice.0,
        id.0,
        said.at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

async fn keep(tx: &mut Tx, dog: DogId, id: PracticeLogId, said: &Said<'_>, removes: bool) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into log_revision (practice_id, practice_log_id, number, dog_id, removes, before, by_membership_id, at, reason)
         select l.practice_id, l.id, l.revision + 1, l.dog_id, $4, to_jsonb(l) - 'fingerprint', $5, $6, $7
         from practice_log l where l.practice_id = $1 and l.dog_id = $2 and l.id = $3",
        practice.0,
        dog.0,
        id.0,
        removes,
        said.by.0,
        said.at,
        said.reason
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// The log as an earlier row of it said. What the table did not ask for then is as it is now.
fn earlier(now: &Row, before: Value) -> Result<Row> {
    let decode = |error: serde_json::Error| Error::Decode(error.into());
    let mut all = serde_json::to_value(now).map_err(decode)?;
    if let (Value::Object(all), Value::Object(before)) = (&mut all, before) {
        all.extend(before);
    }
    serde_json::from_value(all).map_err(decode)
}

/// Everything that was done to a log, the newest first.
pub fn revisions(dog: DogId, id: PracticeLogId) -> Reading<Vec<Revision<PracticeLog>>> {
    let kept = reading!(
        revision::Row,
        r#"select r.removes, r.before as "before: Json<Value>", m.name as by, r.at, r.reason
           from log_revision r join membership m on m.practice_id = r.practice_id and m.id = r.by_membership_id
           where r.practice_id = $1 and r.practice_log_id = $2 order by r.number desc"#,
        id.0
    );
    (one(dog, id), kept).together().then(|(now, kept)| {
        let Some(now) = now else { return Ok(Vec::new()) };
        kept.into_iter().map(|row| row.with(|before| PracticeLog::try_from(earlier(&now, before)?))).collect()
    })
}

/// What was told of a sitting at one instant.
#[derive(Debug, Clone)]
pub struct Told {
    /// When.
    pub at: OffsetDateTime,
    /// Of which log.
    pub log: PracticeLogId,
    /// When the sitting began, as it was said then.
    pub began: OffsetDateTime,
    /// The facts, as they were said then; `None` where the log was removed.
    pub sitting: Option<Sitting>,
}

/// Everything that was told of the sittings of one line and step, in the order in which it was: logs as they came, changes
/// and removals. Of the newest `most` logs at items of the plan with the number `since` and later ones.
pub async fn told(
    tx: &mut Tx,
    dog: DogId,
    (line, step, since): (LineId, StepId, i32),
    most: i64,
) -> Result<Vec<Told>> {
    let now = rows(tx, dog, Wanted::WholeStream(line, step, since), most).await?;
    let practice = tx.practice();
    let revisions = sqlx::query!(
        r#"select r.practice_log_id, r.at, r.before as "before: Json<Value>"
           from log_revision r join practice_log l on l.practice_id = r.practice_id and l.id = r.practice_log_id
           where r.practice_id = $1 and r.dog_id = $2 and l.line_id = $3 and l.step_id = $4
           order by r.number"#,
        practice.0,
        dog.0,
        line.0,
        step.0
    )
    .fetch_all(tx.conn())
    .await?;
    let mut before: HashMap<Uuid, Vec<(OffsetDateTime, Value)>> = HashMap::new();
    for revision in revisions {
        before.entry(revision.practice_log_id).or_default().push((revision.at, revision.before.0));
    }
    let mut all = Vec::new();
    for row in now {
        let mut at = row.received_at;
        for (changed_at, said) in before.remove(&row.id).unwrap_or_default() {
            all.push(Told::of(&earlier(&row, said)?, at)?);
            at = changed_at;
        }
        all.push(Told::of(&row, at)?);
    }
    all.sort_by_key(|told| (told.at, told.log));
    Ok(all)
}

impl Told {
    fn of(row: &Row, at: OffsetDateTime) -> Result<Self> {
        let sitting = if row.deleted_at.is_some() { None } else { Some(row.sitting()?) };
        Ok(Self { at, log: row.id.into(), began: row.started_at, sitting })
    }
}
