//! What a household tells before the first lesson.

use serde::Deserialize;
use time::OffsetDateTime;

use crate::domain::intake::answers::Answers;
use crate::ids::{DogId, MembershipId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// An intake that was asked for.
#[derive(Debug, Clone)]
pub struct Intake {
    /// The answers so far.
    pub answers: Answers,
    /// When a trainer asked.
    pub asked_at: OffsetDateTime,
    /// When a page was saved last.
    pub saved_at: Option<OffsetDateTime>,
    /// When it was sent last.
    pub sent_at: Option<OffsetDateTime>,
    /// Who sent it.
    pub sent_by: Option<String>,
}

impl Intake {
    /// A mark of what it says now: another one where a page was saved or it was sent since.
    pub fn stamp(&self) -> String {
        let number = |at: Option<OffsetDateTime>| at.map_or(0, OffsetDateTime::unix_timestamp_nanos);
        format!("{}-{}", number(self.saved_at), number(self.sent_at))
    }

    /// Whether a page was changed after it was sent, and it was not sent again.
    pub fn is_changed_since(&self) -> bool {
        self.sent_at.is_some() && self.saved_at > self.sent_at
    }
}

/// Asks for an intake; one that was asked for stays as it is.
pub async fn ask(tx: &mut Tx, dog: DogId, by: MembershipId, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into intake (practice_id, dog_id, asked_by, asked_at) values ($1, $2, $3, $4) on conflict do nothing",
        practice.0,
        dog.0,
        by.0,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// The intake of a dog, where one was asked for.
pub async fn find(tx: &mut Tx, dog: DogId) -> Result<Option<Intake>> {
    let practice = tx.practice();
    let row = sqlx::query!(
        r#"select i.answers, i.asked_at, i.saved_at, i.sent_at, m.name as "sent_by?" from intake i
           left join membership m on m.practice_id = i.practice_id and m.id = i.sent_by
           where i.practice_id = $1 and i.dog_id = $2"#,
        practice.0,
        dog.0
    )
    .fetch_optional(tx.conn())
    .await?;
    row.map(|row| {
        Ok(Intake {
            answers: read(row.answers)?,
            asked_at: row.asked_at,
            saved_at: row.saved_at,
            sent_at: row.sent_at,
            sent_by: row.sent_by,
        })
    })
    .transpose()
}

/// Whether an intake was asked for and is not sent as it stands.
pub fn waits(dog: DogId) -> Reading<bool> {
    reading!(
        Waits,
        r#"select exists (select 1 from intake where practice_id = $1 and dog_id = $2
             and (sent_at is null or saved_at > sent_at)) as "waits!""#,
        dog.0
    )
    .only()
    .then(|row| Ok(row.waits))
}

#[derive(Deserialize)]
struct Waits {
    #[serde(rename = "waits!")]
    waits: bool,
}

/// The answers, held until the transaction ends, so that two pages saved at once are both kept.
pub async fn hold(tx: &mut Tx, dog: DogId) -> Result<Option<Answers>> {
    let practice = tx.practice();
    let found = sqlx::query_scalar!(
        "select answers from intake where practice_id = $1 and dog_id = $2 for update",
        practice.0,
        dog.0
    )
    .fetch_optional(tx.conn())
    .await?;
    found.map(read).transpose()
}

/// Keeps the answers.
pub async fn save(tx: &mut Tx, dog: DogId, answers: &Answers, now: OffsetDateTime) -> Result<()> {
    let practice = tx.practice();
    let answers = serde_json::to_value(answers).map_err(|error| sqlx::Error::Encode(error.into()))?;
    sqlx::query!(
        "update intake set answers = $3, saved_at = $4 where practice_id = $1 and dog_id = $2",
        practice.0,
        dog.0,
        answers,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Notes that the intake was sent. What was sent and not changed since stays sent as it was.
pub async fn send(tx: &mut Tx, dog: DogId, by: MembershipId, now: OffsetDateTime) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "update intake set sent_by = $3, sent_at = $4
         where practice_id = $1 and dog_id = $2 and (sent_at is null or saved_at > sent_at)",
        practice.0,
        dog.0,
        by.0,
        now
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

fn read(answers: serde_json::Value) -> Result<Answers> {
    serde_json::from_value(answers).map_err(|error| sqlx::Error::Decode(error.into()))
}
