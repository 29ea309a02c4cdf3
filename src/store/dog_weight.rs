//! What a dog weighed, one figure a day.

use time::Date;

use crate::domain::dog::Weighing;
use crate::ids::DogId;
use crate::store::{Result, Tx};

/// The weighings of a dog, newest first; at most `most`.
pub async fn of_dog(tx: &mut Tx, dog: DogId, most: i64) -> Result<Vec<Weighing>> {
    let practice = tx.practice();
    sqlx::query_as!(
        Weighing,
        r#"select weighed_on as "on", kg from dog_weight
           where practice_id = $1 and dog_id = $2 order by weighed_on desc limit $3"#,
        practice.0,
        dog.0,
        most
    )
    .fetch_all(tx.conn())
    .await
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
