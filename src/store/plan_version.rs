//! Publishing: a version and its items are added once and never changed.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, LineId, MembershipId, PlanItemId, PlanVersionId};
use crate::store::plan::PlanVersion;
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// A version of this dog's plan.
pub async fn find(tx: &mut Tx, dog: DogId, version: PlanVersionId) -> Result<Option<PlanVersion>> {
    let practice = tx.practice();
    sqlx::query_as!(
        PlanVersion,
        "select v.id, v.number, v.note, m.name as by, v.published_at, v.despite_stop
         from plan_version v
         join membership m on m.practice_id = v.practice_id and m.id = v.published_by
         where v.practice_id = $1 and v.dog_id = $2 and v.id = $3",
        practice.0,
        dog.0,
        version.0
    )
    .fetch_optional(tx.conn())
    .await
}

/// The version of this number, if this person published it with this note.
pub async fn numbered(
    tx: &mut Tx,
    dog: DogId,
    number: i32,
    by: MembershipId,
    note: &str,
) -> Result<Option<PlanVersionId>> {
    let practice = tx.practice();
    let id = sqlx::query_scalar!(
        "select id from plan_version
         where practice_id = $1 and dog_id = $2 and number = $3 and published_by = $4 and note = $5",
        practice.0,
        dog.0,
        number,
        by.0,
        note
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(id.map(Into::into))
}

#[derive(Deserialize)]
struct Weekly {
    #[serde(with = "time::serde::rfc3339")]
    published_at: OffsetDateTime,
    #[serde(rename = "times!")]
    times: i64,
}

/// When each version was published, and how many sittings a week it asks for, oldest first.
pub fn weekly_times(dog: DogId) -> Reading<Vec<(OffsetDateTime, i64)>> {
    reading!(
        Weekly,
        r#"select v.published_at, coalesce(sum(i.times_a_week), 0) as "times!"
           from plan_version v
           left join plan_item i on i.practice_id = v.practice_id and i.plan_version_id = v.id and i.kind = 'exercise'
           where v.practice_id = $1 and v.dog_id = $2
           group by v.number, v.published_at order by v.number"#,
        dog.0
    )
    .then(|rows| Ok(rows.into_iter().map(|row| (row.published_at, row.times)).collect()))
}

/// Adds the dog's next version, with its note and why it is published despite a stop, and gives its number. The dog's summary must be locked, or two may ask for the same.
pub async fn add(
    tx: &mut Tx,
    dog: DogId,
    version: PlanVersionId,
    (note, despite_stop): (&str, &str),
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<i32> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "insert into plan_version (practice_id, id, dog_id, number, note, published_by, published_at, despite_stop)
         select $1, $2, $3, coalesce(max(number), 0) + 1, $4, $5, $6, $7
         from plan_version where practice_id = $1 and dog_id = $3
         returning number",
        practice.0,
        version.0,
        dog.0,
        note,
        by.0,
        now,
        despite_stop
    )
    .fetch_one(tx.conn())
    .await
}

/// Copies the draft's lines into a version with the wording that they have now, numbered in the order given.
/// The wording is the one that `plan_draft::items` reads.
pub async fn copy_draft(
    tx: &mut Tx,
    dog: DogId,
    version: PlanVersionId,
    items: &[(LineId, PlanItemId)],
) -> Result<u64> {
    let practice = tx.practice();
    let (lines, ids): (Vec<Uuid>, Vec<Uuid>) = items.iter().map(|(line, id)| (line.0, id.0)).unzip();
    let done = sqlx::query!(
        "insert into plan_item (practice_id, id, plan_version_id, dog_id, line_id, position, kind, exercise_id, step_id,
           step_position, steps_total, name, owner_why, criterion, set_up, delivery, equipment_note, step_name, distance,
           duration, distraction, energy, impact, class, outcome, line, clip, line_metres, attempts, times_a_week, minutes, place_id,
           place_name, place_distraction, place_secure, place_near_road, place_road_metres, reinforcer_id, reinforcer_name,
           reinforcer_rank, cool_down_minutes, cool_down_way, caution,
           source, note)
         select i.practice_id, o.id, $3, i.dog_id, i.line_id, o.position::smallint, e.kind, e.id, s.id,
           s.position, (select count(*) from step l where l.practice_id = e.practice_id and l.exercise_id = e.id)::smallint,
           e.name, e.owner_why, coalesce(s.criterion, e.criterion), e.set_up, e.delivery, e.equipment_note,
           coalesce(s.name, ''), coalesce(s.distance, ''), coalesce(s.duration, ''), s.distraction, e.energy, e.impact,
           e.class, e.outcome, i.line, i.clip, i.line_metres, i.attempts, i.times_a_week, i.minutes, p.id, coalesce(p.name, ''),
           p.distraction, p.secure, p.near_road, p.road_metres, r.id, coalesce(r.what, ''), r.rank, i.cool_down_minutes, i.cool_down_way, e.caution, e.source, i.note
         from unnest($4::uuid[], $5::uuid[]) with ordinality as o (line_id, id, position)
         join plan_draft_item i on i.practice_id = $1 and i.dog_id = $2 and i.line_id = o.line_id
         join exercise e on e.practice_id = i.practice_id and e.id = i.exercise_id
         left join step s on s.practice_id = i.practice_id and s.id = i.step_id
         left join place p on p.practice_id = i.practice_id and p.id = i.place_id
         left join reinforcer r on r.practice_id = i.practice_id and r.id = i.reinforcer_id",
        practice.0,
        dog.0,
        version.0,
        &lines,
        &ids
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected())
}
