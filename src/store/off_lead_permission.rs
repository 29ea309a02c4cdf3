//! Where a trainer lets a dog off the lead. A permission lapses, with its reason, and is never deleted.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, MembershipId, PlaceId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// The latest permission for a place.
#[derive(Debug, Clone, Deserialize)]
pub struct OffLeadPermission {
    /// The place.
    pub place: PlaceId,
    /// The name of the trainer who granted it.
    pub granted_by: String,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub granted_at: OffsetDateTime,
    /// When it lapsed; `None` while it holds.
    #[serde(with = "time::serde::rfc3339::option")]
    pub lapsed_at: Option<OffsetDateTime>,
    /// Why it lapsed.
    pub lapsed_because: String,
}

/// The latest permission of each place of a dog that ever had one.
pub fn of_dog(dog: DogId) -> Reading<Vec<OffLeadPermission>> {
    reading!(
        OffLeadPermission,
        "select distinct on (p.place_id) p.place_id as place, m.name as granted_by, p.granted_at, p.lapsed_at,
                p.lapsed_because
         from off_lead_permission p
         join membership m on m.practice_id = p.practice_id and m.id = p.granted_by
         where p.practice_id = $1 and p.dog_id = $2
         order by p.place_id, p.lapsed_at is null desc, p.granted_at desc, p.id desc",
        dog.0
    )
}

/// Whether a permission for a place held at an instant.
pub async fn held_at(tx: &mut Tx, dog: DogId, place: PlaceId, at: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from off_lead_permission
             where practice_id = $1 and dog_id = $2 and place_id = $3
               and granted_at <= $4 and (lapsed_at is null or lapsed_at > $4)) as "held!""#,
        practice.0,
        dog.0,
        place.0,
        at
    )
    .fetch_one(tx.conn())
    .await
}

/// Grants a permission for a place.
pub async fn grant(
    tx: &mut Tx,
    id: Uuid,
    dog: DogId,
    place: PlaceId,
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into off_lead_permission (practice_id, id, dog_id, place_id, granted_by, granted_at)
         values ($1, $2, $3, $4, $5, $6)",
        practice.0,
        id,
        dog.0,
        place.0,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Lets the permission for one place lapse; gives whether there was one that held.
pub async fn lapse(
    tx: &mut Tx,
    dog: DogId,
    place: PlaceId,
    because: &str,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update off_lead_permission set lapsed_at = $4, lapsed_because = $5
         where practice_id = $1 and dog_id = $2 and place_id = $3 and lapsed_at is null",
        practice.0,
        dog.0,
        place.0,
        now,
        because
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() > 0)
}

/// Lets every permission of a dog lapse that was granted by the time something happened; gives how many did. One that
/// was granted afterwards stands: the trainer gave it knowing what had gone before.
pub async fn lapse_all(
    tx: &mut Tx,
    dog: DogId,
    because: &str,
    happened_at: OffsetDateTime,
    now: OffsetDateTime,
) -> Result<u64> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update off_lead_permission set lapsed_at = $4, lapsed_because = $5
         where practice_id = $1 and dog_id = $2 and lapsed_at is null and granted_at <= $3",
        practice.0,
        dog.0,
        happened_at,
        now,
        because
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected())
}
