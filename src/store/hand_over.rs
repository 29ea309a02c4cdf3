//! A dog's going from one trainer to another, with a word for whoever takes it.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, HandOverId, MembershipId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// One hand-over.
#[derive(Debug, Clone, Deserialize)]
pub struct HandOver {
    /// Who looked after the dog.
    pub from: String,
    /// Who does now.
    pub to: String,
    /// Who said so.
    pub by: String,
    /// What they wrote for whoever takes it; trainers alone read it.
    pub note: String,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
}

/// Notes that these dogs go to a trainer, those that are theirs already left out. Called before they do.
pub async fn add(
    tx: &mut Tx,
    dogs: &[(DogId, HandOverId)],
    (to, by): (MembershipId, MembershipId),
    note: &str,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    let (dogs, ids): (Vec<Uuid>, Vec<Uuid>) = dogs.iter().map(|(dog, id)| (dog.0, id.0)).unzip();
    sqlx::query!(
        "insert into hand_over (practice_id, id, dog_id, from_membership_id, to_membership_id, by_membership_id, note, at)
         select $1, n.id, d.id, d.trainer_id, $4, $5, $6, $7
         from unnest($2::uuid[], $3::uuid[]) as n (dog, id)
         join dog d on d.practice_id = $1 and d.id = n.dog and d.trainer_id <> $4",
        practice.0,
        &dogs,
        &ids,
        to.0,
        by.0,
        note,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// A dog's last hand-over since an instant.
pub fn last(dog: DogId, since: OffsetDateTime) -> Reading<Option<HandOver>> {
    reading!(
        HandOver,
        r#"select f.name as "from", t.name as "to", b.name as by, h.note, h.at
           from hand_over h
           join membership f on f.practice_id = $1 and f.id = h.from_membership_id
           join membership t on t.practice_id = $1 and t.id = h.to_membership_id
           join membership b on b.practice_id = $1 and b.id = h.by_membership_id
           where h.practice_id = $1 and h.dog_id = $2 and h.at >= $3
           order by h.at desc, h.id desc limit 1"#,
        dog.0,
        since
    )
    .first()
}
