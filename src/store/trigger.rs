//! What sets a dog off.

use serde::Deserialize;

use crate::ids::{DogId, TriggerId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// A trigger of one dog.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Trigger {
    /// Its id.
    pub id: TriggerId,
    /// The dog.
    pub dog: DogId,
    /// What it is.
    pub what: String,
    /// A word more: how near, since when.
    pub note: String,
}

/// Triggers of a dog; `$tail` says which.
macro_rules! triggers {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Trigger,
            "select id, dog_id as dog, what, note from trigger where practice_id = $1 and dog_id = $2 " + $tail
            $(, $bind)*
        )
    };
}

/// The triggers of a dog, by name.
pub fn of_dog(dog: DogId) -> Reading<Vec<Trigger>> {
    triggers!("order by lower(what), id", dog.0)
}

/// One trigger of this dog.
pub fn find(dog: DogId, id: TriggerId) -> Reading<Option<Trigger>> {
    triggers!("and id = $3", dog.0, id.0).first()
}

/// Adds a trigger, or changes the one with this id; false where the id is that of another dog's.
pub async fn keep(tx: &mut Tx, trigger: &Trigger) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into trigger (practice_id, id, dog_id, what, note) values ($1, $2, $3, $4, $5)
         on conflict (practice_id, id) do update set what = excluded.what, note = excluded.note
         where trigger.dog_id = excluded.dog_id",
        practice.0,
        trigger.id.0,
        trigger.dog.0,
        trigger.what,
        trigger.note
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Removes a trigger; refused by the database while an encounter names it.
pub async fn remove(tx: &mut Tx, dog: DogId, id: TriggerId) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "delete from trigger where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
