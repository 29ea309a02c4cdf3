//! Photos of sittings, of what happened, and of messages.

use serde::Deserialize;
use time::OffsetDateTime;
use uuid::Uuid;

use crate::ids::{DogId, EncounterId, MembershipId, MessageId, PhotoId, PracticeLogId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// What a photo is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// A sitting.
    Log(PracticeLogId),
    /// Something that happened.
    Encounter(EncounterId),
    /// A message.
    Message(MessageId),
}

impl Of {
    /// Ids of the three columns: one of them.
    fn columns(self) -> [Option<Uuid>; 3] {
        match self {
            Self::Log(id) => [Some(id.0), None, None],
            Self::Encounter(id) => [None, Some(id.0), None],
            Self::Message(id) => [None, None, Some(id.0)],
        }
    }

    fn named([log, encounter, message]: [Option<Uuid>; 3]) -> Option<Self> {
        let log = log.map(|id| Self::Log(id.into()));
        log.or(encounter.map(|id| Self::Encounter(id.into()))).or(message.map(|id| Self::Message(id.into())))
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
    let [log, encounter, message] = new.of.columns();
    sqlx::query!(
        "insert into photo (practice_id, id, dog_id, log_id, encounter_id, message_id, bytes, width, height, kept_by, kept_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11) on conflict do nothing",
        practice.0,
        new.id.0,
        new.dog.0,
        log,
        encounter,
        message,
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
    let [log, encounter, message] = of.columns();
    let row = sqlx::query!(
        r#"select count(*) filter (where log_id = $3 or encounter_id = $4 or message_id = $5) as "of_one!", count(*) as "of_dog!"
           from photo where practice_id = $1 and dog_id = $2"#,
        practice.0,
        dog.0,
        log,
        encounter,
        message
    )
    .fetch_one(tx.conn())
    .await?;
    Ok((row.of_one, row.of_dog))
}

#[derive(Deserialize)]
struct Row {
    id: Uuid,
    log_id: Option<Uuid>,
    encounter_id: Option<Uuid>,
    message_id: Option<Uuid>,
    width: i32,
    height: i32,
    kept_by: Uuid,
    name: String,
}

impl TryFrom<Row> for Photo {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        let of = Of::named([row.log_id, row.encounter_id, row.message_id]);
        Ok(Self {
            id: row.id.into(),
            of: of.ok_or_else(|| sqlx::Error::Decode("a photo of nothing".into()))?,
            width: row.width,
            height: row.height,
            by: row.name,
            by_member: row.kept_by.into(),
        })
    }
}

/// Photos of a dog, without their bytes; `$tail` says which.
macro_rules! photos {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Row,
            "select p.id, p.log_id, p.encounter_id, p.message_id, p.width, p.height, p.kept_by, m.name from photo p
             join membership m on m.practice_id = p.practice_id and m.id = p.kept_by
             where p.practice_id = $1 and p.dog_id = $2 "
                + $tail
            $(, $bind)*
        )
        .each::<Photo>()
    };
}

/// The photos of one thing, the first that was kept first.
pub fn of(dog: DogId, of: Of) -> Reading<Vec<Photo>> {
    let [log, encounter, message] = of.columns();
    photos!(
        "and (p.log_id = $3 or p.encounter_id = $4 or p.message_id = $5) order by p.kept_at, p.id",
        dog.0,
        log,
        encounter,
        message
    )
}

/// The photos of the messages about a dog from one instant to another, both included, the first that was kept first.
pub fn of_messages(dog: DogId, (from, to): (OffsetDateTime, OffsetDateTime)) -> Reading<Vec<Photo>> {
    photos!(
        "and exists (select from message g where g.practice_id = p.practice_id and g.id = p.message_id
           and g.sent_at between $3 and $4)
         order by p.kept_at, p.id",
        dog.0,
        from,
        to
    )
}

/// One photo of a dog, without its bytes.
pub fn find(dog: DogId, id: PhotoId) -> Reading<Option<Photo>> {
    photos!("and p.id = $3", dog.0, id.0).first()
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
