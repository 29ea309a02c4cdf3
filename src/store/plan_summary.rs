//! What a dog's summary keeps of its plan.

use crate::ids::{DogId, PlanVersionId};
use crate::store::{Result, Tx};

/// Makes a published version the one that the summary counts by. The summary must be locked. Only exercises are
/// practice that can be counted; the day is the household's.
pub async fn set_plan(tx: &mut Tx, dog: DogId, version: PlanVersionId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "update dog_summary s
         set plan_version_id = v.id,
             planned_items = i.items,
             planned_times_a_week = i.times_a_week,
             plan_published_on = (v.published_at at time zone h.zone)::date
         from plan_version v
         join dog d on d.practice_id = v.practice_id and d.id = v.dog_id
         join household h on h.practice_id = d.practice_id and h.id = d.household_id
         cross join lateral (
           select count(*)::integer as items, coalesce(sum(times_a_week), 0)::integer as times_a_week
           from plan_item where practice_id = v.practice_id and plan_version_id = v.id and kind = 'exercise') i
         where s.practice_id = $1 and s.dog_id = $2 and v.practice_id = $1 and v.dog_id = $2 and v.id = $3",
        practice.0,
        dog.0,
        version.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
