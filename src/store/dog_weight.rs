//! What a dog weighed, one figure a day.

use serde::Deserialize;
use time::Date;

use crate::domain::dog::Weighing;
use crate::ids::DogId;
use crate::store::reading::{Reading, day, reading};
use crate::store::{Result, Tx};

#[derive(Deserialize)]
struct Row {
    #[serde(with = "day")]
    weighed_on: Date,
    kg: f64,
}

/// The weighings of a dog, newest first; at most `most`.
pub fn of_dog(dog: DogId, most: i64) -> Reading<Vec<Weighing>> {
    reading!(
        Row,
        "select weighed_on, kg from dog_weight
         where practice_id = $1 and dog_id = $2 order by weighed_on desc limit $3",
        dog.0,
        most
    )
    .then(|rows| Ok(rows.into_iter().map(|row| Weighing { on: row.weighed_on, kg: row.kg }).collect()))
}

/// Records a weighing; a second one on the same day takes the first one's place.
pub async fn record(tx: &mut Tx, dog: DogId, weight: Weighing) -> Result<()> {
    let practice = tx.practice();
    sqlx::query!(
        "insert into dog_weight (practice_id, dog_id, weighed_on, kg) values ($1, $2, $3, $4)
         on conflict (practice_id, dog_id, weighed_on) do update set kg = excluded.kg",
        practice.0,
        dog.0,
        weight.on,
        weight.kg
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Removes the weighing of a day; false if there was none.
pub async fn remove(tx: &mut Tx, dog: DogId, on: Date) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "delete from dog_weight where practice_id = $1 and dog_id = $2 and weighed_on = $3",
        practice.0,
        dog.0,
        on
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
