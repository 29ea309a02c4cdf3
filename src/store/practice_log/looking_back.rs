//! Which sittings the rules looked at with another one in view, so that they look again when that one changes.

use time::{Date, OffsetDateTime};

use crate::ids::{DogId, PracticeLogId};
use crate::store::{Result, Tx};

/// The sittings of a dog that were told after `told` and may have looked back on something of the instants `at`: of each
/// the `most` that follow it, those of its days `on` (food is added up over whole days), and those with a bite between the
/// days of `around`.
pub async fn looking_back_on(
    tx: &mut Tx,
    dog: DogId,
    told: OffsetDateTime,
    at: [OffsetDateTime; 2],
    on: [Date; 2],
    around: [(Date, Date); 2],
    most: i64,
) -> Result<Vec<PracticeLogId>> {
    let practice = tx.practice();
    let ids = sqlx::query_scalar!(
        r#"(select id as "id!" from practice_log
            where practice_id = $1 and dog_id = $2 and received_at > $3 and deleted_at is null and started_at >= $4
            order by started_at, id limit $10)
           union
           (select id from practice_log
            where practice_id = $1 and dog_id = $2 and received_at > $3 and deleted_at is null and started_at >= $5
            order by started_at, id limit $10)
           union
           (select id from practice_log
            where practice_id = $1 and dog_id = $2 and received_at > $3 and deleted_at is null and bite
              and (local_date between $6 and $7 or local_date between $8 and $9)
            order by started_at, id limit $10)
           union
           (select id from practice_log
            where practice_id = $1 and dog_id = $2 and received_at > $3 and deleted_at is null
              and local_date in ($11, $12)
            order by started_at, id limit $10)"#,
        practice.0,
        dog.0,
        told,
        at[0],
        at[1],
        around[0].0,
        around[0].1,
        around[1].0,
        around[1].1,
        most,
        on[0],
        on[1]
    )
    .fetch_all(tx.conn())
    .await?;
    Ok(ids.into_iter().map(Into::into).collect())
}
