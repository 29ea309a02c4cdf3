//! How near a household felt to what it hopes for, and how sure of itself: one reading a day.

use serde::Deserialize;
use time::{Date, OffsetDateTime};

use crate::clock::Moment;
use crate::ids::{DogId, GoalReadingId, MembershipId};
use crate::store::reading::{Reading, day, reading};
use crate::store::{Result, Tx};

/// A reading to be kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// The day, where the dog lives.
    pub on: Date,
    /// How near the goal, 0–10.
    pub nearness: i16,
    /// How sure they feel handling the dog, 0–10.
    pub confidence: i16,
    /// A note in their words.
    pub note: String,
}

/// A reading.
#[derive(Debug, Clone, Deserialize)]
pub struct GoalReading {
    /// Its id.
    pub id: GoalReadingId,
    /// The day.
    #[serde(with = "day")]
    pub on: Date,
    /// How near the goal, 0–10.
    pub nearness: i16,
    /// How sure they feel handling the dog, 0–10; `None` where nobody asked.
    pub confidence: Option<i16>,
    /// A note in their words.
    pub note: String,
    /// Whether they told it to a trainer, who wrote it down.
    pub told_to_trainer: bool,
    /// Who wrote it down.
    pub by: String,
    /// When.
    #[serde(with = "time::serde::rfc3339")]
    pub at: OffsetDateTime,
}

/// Keeps a reading. A later one of the same day takes the earlier one's place; the same again changes
/// nothing, and gives false.
pub async fn keep(
    tx: &mut Tx,
    dog: DogId,
    told: &Told,
    (by, told_to_trainer): (MembershipId, bool),
    moment: &Moment,
) -> Result<bool> {
    let practice = tx.practice();
    let id: GoalReadingId = moment.id();
    let done = sqlx::query!(
        "insert into goal_reading as r (practice_id, id, dog_id, local_date, nearness, confidence, note, told_to_trainer, by_membership_id, at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)
         on conflict on constraint goal_reading_one_a_day do update
           set nearness = excluded.nearness, confidence = excluded.confidence, note = excluded.note,
             told_to_trainer = excluded.told_to_trainer, by_membership_id = excluded.by_membership_id, at = excluded.at
           where (r.nearness, r.confidence, r.note, r.told_to_trainer, r.by_membership_id) is distinct from
             (excluded.nearness, excluded.confidence, excluded.note, excluded.told_to_trainer, excluded.by_membership_id)",
        practice.0,
        id.0,
        dog.0,
        told.on,
        told.nearness,
        told.confidence,
        told.note,
        told_to_trainer,
        by.0,
        moment.at
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// The last readings of a dog, the newest first, at most `most`.
pub fn of_dog(dog: DogId, most: i64) -> Reading<Vec<GoalReading>> {
    reading!(
        GoalReading,
        "select r.id, r.local_date as on, r.nearness, r.confidence, r.note, r.told_to_trainer, m.name as by, r.at
         from goal_reading r
         join membership m on m.practice_id = r.practice_id and m.id = r.by_membership_id
         where r.practice_id = $1 and r.dog_id = $2
         order by r.local_date desc limit $3",
        dog.0,
        most
    )
}
