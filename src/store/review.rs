//! What nobody has looked at yet, of many dogs at once, and what a trainer wants beside one of it.

use std::collections::HashMap;

use time::{Date, OffsetDateTime};
use uuid::Uuid;

use crate::domain::review::{Told, order};
use crate::domain::vocabulary::{Severity, Word};
use crate::ids::{DogId, LineId, MembershipId, PlanItemId};
use crate::store::look::Of;
use crate::store::{Result, Tx};

/// One sitting or encounter that waits to be looked at.
#[derive(Debug, Clone)]
pub struct Unread {
    /// What it is.
    pub of: Of,
    /// The dog.
    pub dog: DogId,
    /// The dog's name.
    pub name: String,
    /// Its household's name.
    pub household: String,
    /// Its household's zone.
    pub zone: String,
    /// The wording that waits: how often it was changed.
    pub revision: i32,
    /// Whether an earlier wording was looked at.
    pub is_changed_since: bool,
}

/// What the households of a trainer's dogs (everybody's where none is named) told since an instant and nobody has looked at, in the
/// order in which it is read, at most `most` of it. Dogs that were put away are left out.
pub async fn unread(
    tx: &mut Tx,
    trainer: Option<MembershipId>,
    since: OffsetDateTime,
    most: i64,
) -> Result<Vec<Unread>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        r#"select t.id as "id!", t.is_log as "is_log!", t.dog_id as "dog_id!", t.received_at as "told_at!", t.revision as "revision!",
             d.name, h.name as household, h.zone, k.revision is not null as "is_changed_since!",
             (select (array['notice', 'caution', 'stop'])[max(array_position(array['notice', 'caution', 'stop'], f.severity))]
              from welfare_flag f where f.practice_id = $1 and f.dog_id = t.dog_id and f.subject_id = t.id and f.state = 'open') as severity
           from (
             select l.id, true as is_log, l.dog_id, l.received_at, l.revision, l.by_membership_id from practice_log l
             where l.practice_id = $1 and l.received_at >= $3 and l.deleted_at is null
             union all
             select e.id, false, e.dog_id, e.received_at, e.revision, e.by_membership_id from encounter e
             where e.practice_id = $1 and e.received_at >= $3 and e.deleted_at is null
           ) t
           join membership m on m.practice_id = $1 and m.id = t.by_membership_id and m.role = 'owner'
           join dog d on d.practice_id = $1 and d.id = t.dog_id and d.archived_at is null
             and ($2::uuid is null or d.trainer_id = $2)
           join household h on h.practice_id = $1 and h.id = d.household_id
           left join look k on k.practice_id = $1 and k.subject_id = t.id
           where k.revision is null or k.revision < t.revision
           order by exists (select from welfare_flag f where f.practice_id = $1 and f.dog_id = t.dog_id and f.subject_id = t.id
               and f.state = 'open' and f.severity = 'stop') desc, t.received_at, t.id limit $4"#,
        practice.0,
        trainer.map(|t| t.0),
        since,
        most
    )
    .fetch_all(tx.conn())
    .await?;
    let mut told = Vec::with_capacity(rows.len());
    let mut by_id: HashMap<Uuid, Unread> = HashMap::with_capacity(rows.len());
    for row in rows {
        let gravity = row.severity.as_deref().and_then(Severity::from_stored);
        told.push(Told { subject: row.id, dog: row.dog_id.into(), at: row.told_at, gravity });
        let unread = Unread {
            of: if row.is_log { Of::Log(row.id.into()) } else { Of::Encounter(row.id.into()) },
            dog: row.dog_id.into(),
            name: row.name,
            household: row.household,
            zone: row.zone,
            revision: row.revision,
            is_changed_since: row.is_changed_since,
        };
        by_id.insert(row.id, unread);
    }
    Ok(order(told).iter().filter_map(|one| by_id.remove(&one.subject)).collect())
}

/// What the plan asks for now where something was practised, and how it went there lately.
#[derive(Debug, Clone)]
pub struct Context {
    /// The instruction of the current plan.
    pub item: PlanItemId,
    /// The plan's number.
    pub number: i32,
    /// The step, in words.
    pub step_name: String,
    /// What is asked.
    pub criterion: String,
    /// How it is set up.
    pub set_up: String,
    /// Where.
    pub place_name: String,
    /// Tries a sitting.
    pub attempts: Option<i16>,
    /// Times a week.
    pub times_a_week: Option<i16>,
    /// Whether its counts wait for a decision.
    pub waits: bool,
    /// The last sittings there, the newest first: (day, tries, of which met).
    pub lately: Vec<(Date, i16, i16)>,
}

/// The most sittings that say how it went lately.
const LATELY: i64 = 6;

/// The context of an instruction; `None` where the current plan has it no more.
pub async fn context(tx: &mut Tx, dog: DogId, line: LineId) -> Result<Option<Context>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select i.id, v.number, i.step_name, i.criterion, i.set_up, i.place_name, i.attempts, i.times_a_week,
             exists (select 1 from readiness r where r.practice_id = $1 and r.dog_id = $2 and r.line_id = i.line_id
                       and r.step_id = i.step_id and r.waiting) as "waits!",
             array(select l.local_date from practice_log l where l.practice_id = $1 and l.dog_id = $2 and l.line_id = $3
                     and l.deleted_at is null and l.attempts > 0 and l.met is not null order by l.started_at desc, l.id desc limit $4) as "days!",
             array(select l.attempts from practice_log l where l.practice_id = $1 and l.dog_id = $2 and l.line_id = $3
                     and l.deleted_at is null and l.attempts > 0 and l.met is not null order by l.started_at desc, l.id desc limit $4) as "tries!",
             array(select l.met from practice_log l where l.practice_id = $1 and l.dog_id = $2 and l.line_id = $3
                     and l.deleted_at is null and l.attempts > 0 and l.met is not null order by l.started_at desc, l.id desc limit $4) as "met!"
           from dog_summary s
           join plan_version v on v.practice_id = $1 and v.id = s.plan_version_id
           join plan_item i on i.practice_id = $1 and i.plan_version_id = v.id and i.line_id = $3
           where s.practice_id = $1 and s.dog_id = $2"#,
        practice.0,
        dog.0,
        line.0,
        LATELY
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(row.map(|row| Context {
        item: row.id.into(),
        number: row.number,
        step_name: row.step_name,
        criterion: row.criterion,
        set_up: row.set_up,
        place_name: row.place_name,
        attempts: row.attempts,
        times_a_week: row.times_a_week,
        waits: row.waits,
        lately: row
            .days
            .into_iter()
            .zip(row.tries)
            .zip(row.met)
            .map(|((day, n), met)| (day, n, met))
            .collect(),
    }))
}
