//! Photos of sittings and of what happened.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, EncounterId, MembershipId, PhotoId, PracticeLogId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// What a photo is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// A sitting.
    Log(PracticeLogId),
    /// Something that happened.
    Encounter(EncounterId),
}

impl Of {
    /// The id of what it is of.
    pub fn id(self) -> uuid::Uuid {
        match self {
            Self::Log(id) => id.0,
            Self::Encounter(id) => id.0,
        }
    }

    /// The same as (sitting, encounter): one of the two.
    pub(in crate::store) fn ids(self) -> (Option<uuid::Uuid>, Option<uuid::Uuid>) {
        match self {
            Self::Log(id) => (Some(id.0), None),
            Self::Encounter(id) => (None, Some(id.0)),
        }
    }
}

/// A photo, without its bytes.
#[derive(Debug, Clone)]
pub struct Photo {
    /// Its id.
    pub id: PhotoId,
    /// What it is of.
    pub of: Of,
    /// Pixels across.
    pub width: i32,
    /// Pixels down.
    pub height: i32,
    /// Who kept it.
    pub by: String,
    /// The same, by their place in the practice.
    pub by_member: MembershipId,
}

/// A photo to be kept.
#[derive(Debug)]
pub struct NewPhoto<'a> {
    /// Its id, made where it was taken.
    pub id: PhotoId,
    /// The dog.
    pub dog: DogId,
    /// What it is of.
    pub of: Of,
    /// JPEG.
    pub bytes: &'a [u8],
    /// Pixels across.
    pub width: i32,
    /// Pixels down.
    pub height: i32,
}

/// Keeps a photo; one whose id is taken changes nothing.
pub async fn add(tx: &mut Tx, new: &NewPhoto<'_>, by: MembershipId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    let (log, encounter) = new.of.ids();
    sqlx::query!(
        "insert into photo (practice_id, id, dog_id, log_id, encounter_id, bytes, width, height, kept_by, kept_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) on conflict do nothing",
        practice.0,
        new.id.0,
        new.dog.0,
        log,
        encounter,
        new.bytes,
        new.width,
        new.height,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// How many photos there are of one thing, and of the dog.
pub async fn counts(tx: &mut Tx, dog: DogId, of: Of) -> Result<(i64, i64)> {
    let practice = tx.practice();
    let (log, encounter) = of.ids();
    let row = sqlx::query!(
        r#"select count(*) filter (where log_id = $3 or encounter_id = $4) as "of_one!", count(*) as "of_dog!"
           from photo where practice_id = $1 and dog_id = $2"#,
        practice.0,
        dog.0,
        log,
        encounter
    )
    .fetch_one(tx.conn())
    .await?;
    Ok((row.of_one, row.of_dog))
}

#[derive(Deserialize)]
struct Row {
    id: Uuid,
    width: i32,
    height: i32,
    kept_by: Uuid,
    name: String,
}

/// The photos of one thing, the first that was kept first.
pub fn of(dog: DogId, of: Of) -> Reading<Vec<Photo>> {
    let (log, encounter) = of.ids();
    let photo = move |row: Row| Photo {
        id: row.id.into(),
        of,
        width: row.width,
        height: row.height,
        by: row.name,
        by_member: row.kept_by.into(),
    };
    reading!(
        Row,
        "select p.id, p.width, p.height, p.kept_by, m.name from photo p
         join membership m on m.practice_id = p.practice_id and m.id = p.kept_by
         where p.practice_id = $1 and p.dog_id = $2 and (p.log_id = $3 or p.encounter_id = $4)
         order by p.kept_at, p.id",
        dog.0,
        log,
        encounter
    )
    .then(move |rows| Ok(rows.into_iter().map(photo).collect()))
}

/// One photo of a dog, without its bytes.
pub async fn find(tx: &mut Tx, dog: DogId, id: PhotoId) -> Result<Option<Photo>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        "select p.log_id, p.encounter_id, p.width, p.height, p.kept_by, m.name from photo p
         join membership m on m.practice_id = p.practice_id and m.id = p.kept_by
         where p.practice_id = $1 and p.dog_id = $2 and p.id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await?;
    Ok(row.and_then(|row| {
        let of = match (row.log_id, row.encounter_id) {
            (Some(log), _) => Of::Log(log.into()),
            (None, Some(encounter)) => Of::Encounter(encounter.into()),
            (None, None) => return None,
        };
        Some(Photo {
            id,
            of,
            width: row.width,
            height: row.height,
            by: row.name,
            by_member: row.kept_by.into(),
        })
    }))
}

/// The bytes of a photo of a dog: JPEG.
pub async fn bytes(tx: &mut Tx, dog: DogId, id: PhotoId) -> Result<Option<Vec<u8>>> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        "select bytes from photo where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .fetch_optional(tx.conn())
    .await
}

/// Takes a photo away for good.
pub async fn remove(tx: &mut Tx, dog: DogId, id: PhotoId) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from photo where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
