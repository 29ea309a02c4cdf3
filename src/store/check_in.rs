//! What households say to "still going well?".

use serde::Deserialize;
use time::{Date, OffsetDateTime};

use crate::clock::Moment;
use crate::domain::vocabulary::{StillWell, Word};
use crate::ids::{CheckInId, DogId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::word;
use crate::store::{Result, Tx};

/// One answer.
#[derive(Debug, Clone)]
pub struct CheckIn {
    /// What was said.
    pub answer: StillWell,
    /// The day on which it was, where the dog lives.
    pub on: Date,
    /// Who said so.
    pub by: String,
}

/// Keeps an answer; false where its id is taken.
pub async fn add(
    tx: &mut Tx,
    (id, dog): (CheckInId, DogId),
    (answer, on): (StillWell, Date),
    by: MembershipId,
    moment: &Moment,
) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into check_in (practice_id, id, dog_id, answer, local_date, said_by, said_at)
         values ($1, $2, $3, $4, $5, $6, $7) on conflict do nothing",
        practice.0,
        id.0,
        dog.0,
        answer.stored(),
        on,
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Whether the answer with this id says this of this dog, by this member.
pub async fn is_same(
    tx: &mut Tx,
    (id, dog): (CheckInId, DogId),
    answer: StillWell,
    by: MembershipId,
) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from check_in where practice_id = $1 and id = $2 and dog_id = $3 and answer = $4
             and said_by = $5) as "same!""#,
        practice.0,
        id.0,
        dog.0,
        answer.stored(),
        by.0
    )
    .fetch_one(tx.conn())
    .await
}

#[derive(Deserialize)]
struct Row {
    answer: String,
    #[serde(with = "day")]
    local_date: Date,
    name: String,
}

impl TryFrom<Row> for CheckIn {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self { answer: word(&row.answer)?, on: row.local_date, by: row.name })
    }
}

/// A dog's answers, the latest first, at most `most`.
pub fn of_dog(dog: DogId, most: i64) -> Reading<Vec<CheckIn>> {
    reading!(
        Row,
        "select c.answer, c.local_date, m.name from check_in c
         join membership m on m.practice_id = c.practice_id and m.id = c.said_by
         where c.practice_id = $1 and c.dog_id = $2
         order by c.said_at desc, c.id desc limit $3",
        dog.0,
        most
    )
    .each()
}

#[derive(Deserialize)]
struct Since {
    #[serde(rename = "since!", with = "time::serde::rfc3339")]
    since: OffsetDateTime,
}

/// Since when a dog stands where it stands in its work.
pub fn phase_since(dog: DogId) -> Reading<OffsetDateTime> {
    reading!(
        Since,
        r#"select coalesce(phase_since, created_at) as "since!" from dog where practice_id = $1 and id = $2"#,
        dog.0
    )
    .only()
    .then(|row| Ok(row.since))
}
