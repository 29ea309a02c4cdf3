//! The one draft a dog has: what its next plan version will say. It stays when a version is published.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::domain::vocabulary::ItemKind;
use crate::ids::{DogId, LineId, MembershipId, PlanVersionId};
use crate::store::plan::{ItemRow, PlanItem};
use crate::store::reading::{Reading, reading};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// A draft.
#[derive(Debug, Clone, Deserialize)]
pub struct PlanDraft {
    /// The note to the owner, so far.
    pub note: String,
    /// Who changed it last.
    pub by: String,
    /// The same as a member.
    pub by_member: MembershipId,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub updated_at: OffsetDateTime,
}

/// A dog's draft.
pub fn find(dog: DogId) -> Reading<Option<PlanDraft>> {
    reading!(
        PlanDraft,
        "select d.note, m.name as by, m.id as by_member, d.updated_at
         from plan_draft d
         join membership m on m.practice_id = d.practice_id and m.id = d.updated_by
         where d.practice_id = $1 and d.dog_id = $2",
        dog.0
    )
    .first()
}

/// Makes sure that there is a draft, notes who changes it now, and holds it until the transaction ends, so that two
/// trainers cannot undo one another's order. Gives whether it is new.
pub async fn hold(tx: &mut Tx, dog: DogId, by: MembershipId, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"insert into plan_draft (practice_id, dog_id, updated_by, updated_at) values ($1, $2, $3, $4)
           on conflict (practice_id, dog_id) do update set updated_by = $3, updated_at = $4
           returning (xmax = 0) as "new!""#,
        practice.0,
        dog.0,
        by.0,
        now
    )
    .fetch_one(tx.conn())
    .await
}

/// Changes the note to the owner.
pub async fn set_note(tx: &mut Tx, dog: DogId, note: &str) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update plan_draft set note = $3 where practice_id = $1 and dog_id = $2",
        practice.0,
        dog.0,
        note
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Puts the items of a published version in place of what the draft holds, each on its own line.
pub async fn restart_from(tx: &mut Tx, dog: DogId, version: PlanVersionId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!("delete from plan_draft_item where practice_id = $1 and dog_id = $2", practice.0, dog.0)
        .execute(tx.conn())
        .await?;
    sqlx::query!(
        "insert into plan_draft_item (practice_id, line_id, dog_id, position, exercise_id, step_id, attempts,
           times_a_week, minutes, place_id, reinforcer_id, line, clip, line_metres, cool_down_minutes, cool_down_way, note)
         select practice_id, line_id, dog_id, position, exercise_id, step_id, attempts,
           times_a_week, minutes, place_id, reinforcer_id, line, clip, line_metres, cool_down_minutes, cool_down_way, note
         from plan_item where practice_id = $1 and dog_id = $2 and plan_version_id = $3",
        practice.0,
        dog.0,
        version.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// The draft's items as the owner would read them if they were published now, in order. Their `id` is the line's,
/// their `version` none.
pub async fn items(tx: &mut Tx, dog: DogId) -> Result<Vec<PlanItem>> {
    let practice = tx.practice();
    let rows = sqlx::query_as!(
        ItemRow,
        r#"select i.line_id as "id!", $3::uuid as "plan_version_id!", i.dog_id, i.line_id, i.position, e.kind, i.step_id,
             s.position as "step_position?",
             (select count(*) from step l where l.practice_id = e.practice_id and l.exercise_id = e.id)::smallint as "steps_total!",
             e.name, e.owner_why, coalesce(s.criterion, e.criterion) as "criterion!", e.set_up, e.delivery,
             e.equipment_note, coalesce(s.name, '') as "step_name!", coalesce(s.distance, '') as "distance!",
             coalesce(s.duration, '') as "duration!", s.distraction as "distraction?", e.energy, e.impact, e.class,
             e.outcome, i.line, i.clip, i.line_metres, i.attempts, i.times_a_week, i.minutes, i.place_id,
             coalesce(p.name, '') as "place_name!", p.distraction as "place_distraction?",
             p.secure as "place_secure?", p.near_road as "place_near_road?", p.road_metres as "place_road_metres?",
             exists (select 1 from off_lead_permission o where o.practice_id = i.practice_id and o.dog_id = i.dog_id
               and o.place_id = i.place_id and o.lapsed_at is null) as off_lead_allowed,
             coalesce(r.what, '') as "reinforcer_name!", r.rank as "reinforcer_rank?", i.cool_down_minutes, i.cool_down_way, e.caution, e.source, i.note
           from plan_draft_item i
           join exercise e on e.practice_id = i.practice_id and e.id = i.exercise_id
           left join step s on s.practice_id = i.practice_id and s.id = i.step_id
           left join place p on p.practice_id = i.practice_id and p.id = i.place_id
           left join reinforcer r on r.practice_id = i.practice_id and r.id = i.reinforcer_id
           where i.practice_id = $1 and i.dog_id = $2
           order by i.position, i.line_id"#,
        practice.0,
        dog.0,
        Uuid::nil()
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(PlanItem::try_from).collect()
}

/// The draft's lines in order, with what each is.
pub async fn order(tx: &mut Tx, dog: DogId) -> Result<Vec<(LineId, ItemKind)>> {
    let practice = tx.practice();
    let rows = sqlx::query!(
        "select i.line_id, e.kind from plan_draft_item i
         join exercise e on e.practice_id = i.practice_id and e.id = i.exercise_id
         where i.practice_id = $1 and i.dog_id = $2
         order by i.position, i.line_id",
        practice.0,
        dog.0
    )
    .fetch_all(tx.conn())
    .await?;
    rows.into_iter().map(|row| Ok((row.line_id.into(), word(&row.kind)?))).collect()
}

/// Numbers the draft's lines 1, 2, 3 in this order.
pub async fn set_order(tx: &mut Tx, dog: DogId, lines: &[LineId]) -> Result<()> {
    let practice = tx.practice();
    let ids: Vec<Uuid> = lines.iter().map(|line| line.0).collect();
    sqlx::query!(
        "update plan_draft_item i set position = o.position::smallint
         from unnest($3::uuid[]) with ordinality as o (line_id, position)
         where i.practice_id = $1 and i.dog_id = $2 and i.line_id = o.line_id",
        practice.0,
        dog.0,
        &ids
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
