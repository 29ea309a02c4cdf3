//! Building what is kept of a dog anew from its facts: its summary, its days, and where its streams stand.

use crate::actions::{Done, authorised_dog, fold_readiness};
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::{Tx, dog, dog_summary};

/// Rebuilds what is kept of one dog.
pub async fn rebuild_summary(mut tx: Tx, actor: &Actor, dog: DogId) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    dog_summary::rebuild(&mut tx, dog).await?;
    fold_readiness::rebuild(&mut tx, dog).await?;
    dog_summary::decisions_changed(&mut tx, dog).await?;
    tx.commit().await?;
    Ok(())
}
