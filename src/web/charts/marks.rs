//! What happened in life beside the training, for every chart of a dog.

use crate::domain::charts::Mark;
use crate::ids::DogId;
use crate::store::{Result, Tx};

/// What happened in a dog's life, by its day, oldest first: drawn as a numbered line on every chart, and listed under it and in
/// its table. Nothing is kept of that yet, so there is nothing to draw.
pub async fn marks_of(_tx: &mut Tx, _dog: DogId) -> Result<Vec<Mark>> {
    Ok(Vec::new())
}
