//! How gear should sit: the approved photo of it, and what the household last said of it.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::domain::vocabulary::{FitAnswer, Gear, Word};
use crate::ids::{DogId, MembershipId, PhotoId};
use crate::store::reading::{Reading, reading};
use crate::store::word::{word, word_or_none};
use crate::store::{Result, Tx};

/// A fit that was approved.
#[derive(Debug, Clone)]
pub struct Fit {
    /// Of what.
    pub gear: Gear,
    /// The photo of it.
    pub photo: PhotoId,
    /// Its pixels across and down.
    pub size: (i32, i32),
    /// When it was approved.
    pub approved_at: OffsetDateTime,
    /// What the household last said, and when.
    pub answered: Option<(FitAnswer, OffsetDateTime)>,
}

#[derive(Deserialize)]
struct Row {
    gear: String,
    photo_id: Uuid,
    width: i32,
    height: i32,
    #[serde(with = "time::serde::rfc3339")]
    approved_at: OffsetDateTime,
    answer: Option<String>,
    #[serde(with = "time::serde::rfc3339::option")]
    answered_at: Option<OffsetDateTime>,
}

impl TryFrom<Row> for Fit {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self {
            gear: word(&row.gear)?,
            photo: row.photo_id.into(),
            size: (row.width, row.height),
            approved_at: row.approved_at,
            answered: word_or_none(row.answer.as_deref())?.zip(row.answered_at),
        })
    }
}

/// The approved fits of a dog.
pub fn of_dog(dog: DogId) -> Reading<Vec<Fit>> {
    reading!(
        Row,
        "select f.gear, f.photo_id, p.width, p.height, f.approved_at, f.answer, f.answered_at
         from fit f join photo p on p.practice_id = f.practice_id and p.id = f.photo_id
         where f.practice_id = $1 and f.dog_id = $2 order by f.gear",
        dog.0
    )
    .each()
}

/// Approves a photo for a piece of gear, in place of an earlier one; what was said of that is over.
pub async fn put(
    tx: &mut Tx,
    dog: DogId,
    (gear, photo): (Gear, PhotoId),
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into fit (practice_id, dog_id, gear, photo_id, approved_by, approved_at) values ($1, $2, $3, $4, $5, $6)
         on conflict (practice_id, dog_id, gear) do update
           set photo_id = $4, approved_by = $5, approved_at = $6, answer = null, answered_by = null, answered_at = null
           where fit.photo_id <> $4",
        practice.0,
        dog.0,
        gear.stored(),
        photo.0,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Keeps what the household says of a fit; false if none was approved.
pub async fn answer(
    tx: &mut Tx,
    dog: DogId,
    (gear, said): (Gear, FitAnswer),
    by: MembershipId,
    now: OffsetDateTime,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update fit set answer = $4, answered_by = $5, answered_at = $6
         where practice_id = $1 and dog_id = $2 and gear = $3",
        practice.0,
        dog.0,
        gear.stored(),
        said.stored(),
        by.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Forgets that a photo showed how gear should sit.
pub async fn forget(tx: &mut Tx, dog: DogId, photo: PhotoId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from fit where practice_id = $1 and dog_id = $2 and photo_id = $3",
        practice.0,
        dog.0,
        photo.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

#[derive(Deserialize)]
struct Bolt {
    #[serde(with = "time::serde::rfc3339::option")]
    at: Option<OffsetDateTime>,
}

/// When a bolt was last told of.
pub fn last_bolt(dog: DogId) -> Reading<Option<OffsetDateTime>> {
    reading!(
        Bolt,
        "select max(received_at) as at from (
           select received_at from practice_log where practice_id = $1 and dog_id = $2 and bolted and deleted_at is null
           union all
           select received_at from encounter where practice_id = $1 and dog_id = $2 and kind = 'bolted' and deleted_at is null
         ) b",
        dog.0
    )
    .only()
    .then(|row| Ok(row.at))
}
