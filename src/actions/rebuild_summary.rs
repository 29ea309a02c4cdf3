//! Building a dog's summary anew from its facts.

use crate::actions::{Done, Refusal};
use crate::domain::access::Actor;
use crate::ids::DogId;
use crate::store::{Tx, dog, dog_summary};

/// Rebuilds the summary of one dog.
pub async fn rebuild_summary(mut tx: Tx, actor: &Actor, dog: DogId) -> Done<()> {
    let dog = dog::find(&mut tx, actor, dog).await?.ok_or(Refusal::NotFound)?;
    dog::lock_summary(&mut tx, dog.id).await?;
    dog_summary::rebuild(&mut tx, dog.id).await?;
    tx.commit().await?;
    Ok(())
}
