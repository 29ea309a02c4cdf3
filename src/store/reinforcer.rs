//! What a dog works for, ranked by the dog.

use serde::Deserialize;

use crate::ids::{DogId, ReinforcerId};
use crate::store::reading::{Reading, reading};
use crate::store::{Result, Tx};

/// A reinforcer of one dog.
#[derive(Debug, Clone, PartialEq, Deserialize)]
pub struct Reinforcer {
    /// Its id.
    pub id: ReinforcerId,
    /// The dog.
    pub dog: DogId,
    /// What it is.
    pub what: String,
    /// How much this dog wants it, 1–5, 5 the most.
    pub rank: i16,
    /// Whether it is a toy or game, not food.
    pub is_toy: bool,
    /// Energy, kcal per gram; `None` when not stated or a toy.
    pub kcal_per_g: Option<f64>,
    /// Grams in one piece; `None` when not stated or a toy.
    pub grams_per_piece: Option<f64>,
    /// Whether it comes out of the daily meals; `None` when not stated or a toy.
    pub from_meals: Option<bool>,
}

/// Reinforcers of a dog; `$tail` says which.
macro_rules! reinforcers {
    ($tail:literal $(, $bind:expr)*) => {
        reading!(
            Reinforcer,
            "select id, dog_id as dog, what, rank, is_toy, kcal_per_g, grams_per_piece, from_meals
             from reinforcer where practice_id = $1 and dog_id = $2 "
                + $tail
            $(, $bind)*
        )
    };
}

/// The reinforcers of a dog, the most wanted first.
pub fn of_dog(dog: DogId) -> Reading<Vec<Reinforcer>> {
    reinforcers!("order by rank desc, lower(what), id", dog.0)
}

/// One reinforcer of this dog.
pub fn find(dog: DogId, id: ReinforcerId) -> Reading<Option<Reinforcer>> {
    reinforcers!("and id = $3", dog.0, id.0).first()
}

/// Adds a reinforcer, or changes the one with this id; false where the id is that of another dog's.
pub async fn keep(tx: &mut Tx, reinforcer: &Reinforcer) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "insert into reinforcer (practice_id, id, dog_id, what, rank, is_toy, kcal_per_g, grams_per_piece,
                                 from_meals)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9)
         on conflict (practice_id, id) do update
         set what = excluded.what, rank = excluded.rank, is_toy = excluded.is_toy, kcal_per_g = excluded.kcal_per_g,
             grams_per_piece = excluded.grams_per_piece, from_meals = excluded.from_meals
         where reinforcer.dog_id = excluded.dog_id",
        practice.0,
        reinforcer.id.0,
        reinforcer.dog.0,
        reinforcer.what,
        reinforcer.rank,
        reinforcer.is_toy,
        reinforcer.kcal_per_g,
        reinforcer.grams_per_piece,
        reinforcer.from_meals
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}

/// Removes a reinforcer; refused by the database while a plan names it.
pub async fn remove(tx: &mut Tx, dog: DogId, id: ReinforcerId) -> Result<bool> {
    let practice = tx.practice();
    let done = sqlx::query!(
        "delete from reinforcer where practice_id = $1 and dog_id = $2 and id = $3",
        practice.0,
        dog.0,
        id.0
    )
    .execute(tx.conn())
    .await?;
    Ok(done.rows_affected() == 1)
}
