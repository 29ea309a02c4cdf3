//! Where a dog practises.

use serde::Deserialize;

use crate::ids::{DogId, PlaceId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// A place of one dog.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Place {
    /// Its id.
    pub id: PlaceId,
    /// The dog.
    pub dog: DogId,
    /// What the household calls it.
    pub name: String,
    /// How distracting it usually is, 1–5.
    pub distraction: i16,
    /// Whether it is fenced; `None` when not stated.
    pub secure: Option<bool>,
    /// Whether a road is near; `None` when not stated.
    pub near_road: Option<bool>,
    /// How far away the nearest road is, metres.
    pub road_metres: Option<i16>,
}

/// Places of a dog; `$tail` says which.
macro_rules! places {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Place,
            "select id, dog_id as dog, name, distraction, secure, near_road, road_metres
             from place where practice_id = $1 and dog_id = $2 "
                + $tail
            $(, $bind)*
        )
    };
}

/// The places of a dog, quietest first.
pub fn of_dog(dog: DogId) -> Reading<Vec<Place>> {
    places!("order by distraction, lower(name), id", dog.0)
}

/// One place of this dog.
pub fn find(dog: DogId, id: PlaceId) -> Reading<Option<Place>> {
    places!("and id = $3", dog.0, id.0).first()
}

/// Whether another place of this dog has this name: plans and logs keep the name, so two of one name could not be told apart.
pub async fn is_name_taken(tx: &mut Tx, place: &Place) -> Result<bool> {
    let practice = tx.practice();
    sqlx::query_scalar!(
        r#"select exists (select 1 from place where practice_id = $1 and dog_id = $2 and id <> $3
             and lower(name) = lower($4)) as "taken!""#,
        practice.0,
        place.dog.0,
        place.id.0,
        place.name
    )
    .fetch_one(tx.conn())
    .await
}

/// Adds a place, or changes the one with this id; false where the id is that of another dog's.
pub async fn keep(tx: &mut Tx, place: &Place) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into place (practice_id, id, dog_id, name, distraction, secure, near_road, road_metres)
         values ($1, $2, $3, $4, $5, $6, $7, $8)
         on conflict (practice_id, id) do update
         set name = excluded.name, distraction = excluded.distraction, secure = excluded.secure,
             near_road = excluded.near_road, road_metres = excluded.road_metres
         where place.dog_id = excluded.dog_id",
        practice.0,
        place.id.0,
        place.dog.0,
        place.name,
        place.distraction,
        place.secure,
        place.near_road,
        place.road_metres
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Removes a place; refused by the database while a plan or an off-lead permission names it.
pub async fn remove(tx: &mut Tx, dog: DogId, id: PlaceId) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "delete from place where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
