//! Days on which a household says that there is no practice.

use serde::Deserialize;
use time::Date;

use crate::clock::Moment;
use crate::domain::vocabulary::{DayOffReason, Word};
use crate::ids::{DogId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::word::word_or_none;
use crate::store::{Result, Tx};

/// A day off.
#[derive(Debug, Clone)]
pub struct DayOff {
    /// The day.
    pub on: Date,
    /// Why; `None` where nobody said.
    pub reason: Option<DayOffReason>,
    /// Who said so.
    pub by: String,
}

/// Keeps a day off; one that was taken already stays.
pub async fn add(
    tx: &mut Tx,
    dog: DogId,
    (on, reason): (Date, Option<DayOffReason>),
    by: MembershipId,
    moment: &Moment,
) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into day_off (practice_id, dog_id, local_date, reason, said_by, said_at)
         values ($1, $2, $3, $4, $5, $6) on conflict do nothing",
        practice.0,
        dog.0,
        on,
        reason.map(Word::stored),
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

#[derive(Deserialize)]
struct Row {
    #[serde(with = "day")]
    local_date: Date,
    reason: Option<String>,
    name: String,
}

impl TryFrom<Row> for DayOff {
    type Error = sqlx::Error;

    fn try_from(row: Row) -> Result<Self> {
        Ok(Self { on: row.local_date, reason: word_or_none(row.reason.as_deref())?, by: row.name })
    }
}

/// A dog's days off since a day, the latest first.
pub fn since(dog: DogId, from: Date) -> Reading<Vec<DayOff>> {
    reading!(
        Row,
        "select o.local_date, o.reason, m.name from day_off o
         join membership m on m.practice_id = o.practice_id and m.id = o.said_by
         where o.practice_id = $1 and o.dog_id = $2 and o.local_date >= $3
         order by o.local_date desc",
        dog.0,
        from
    )
    .each()
}

/// Takes a day off back.
pub async fn remove(tx: &mut Tx, dog: DogId, on: Date) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "delete from day_off where practice_id = $1 and dog_id = $2 and local_date = $3",
        practice.0,
        dog.0,
        on
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
