//! Checking that what is kept of each dog is what its facts say: its summary, its days, and where its streams stand.
//! They are built anew from the facts; a difference is mended by that, and counted.

use crate::actions::{Done, authorise, fold_readiness};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog, dog_summary};

/// How many dogs one check takes: a second's work.
pub const BATCH: i64 = 50;

/// What a check found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checked {
    /// Dogs looked at.
    pub dogs: usize,
    /// Those of them whose records were not what their facts say, and now are.
    pub mended: Vec<DogId>,
    /// Where the next check goes on; `None` when every dog of the practice was looked at.
    pub next: Option<DogId>,
}

/// Checks the dogs after `after` in the order of their ids, [`BATCH`] at most, which is also the order in which their
/// records are locked.
///
/// # Errors
/// [`crate::actions::Refusal`] for anybody but the lead trainer.
pub async fn check_records(mut tx: Tx, actor: &Actor, after: Option<DogId>, now: &Moment) -> Done<Checked> {
    authorise(actor, Action::RunPractice, None)?;
    let dogs = dog::ids_after(&mut tx, after, BATCH).await?;
    let mut mended = Vec::new();
    for &dog in &dogs {
        dog::lock_summary(&mut tx, dog).await?;
        let kept = dog_summary::kept(&mut tx, dog).await?;
        dog_summary::rebuild(&mut tx, dog).await?;
        fold_readiness::rebuild(&mut tx, dog).await?;
        dog_summary::decisions_changed(&mut tx, dog).await?;
        if dog_summary::kept(&mut tx, dog).await? != kept {
            mended.push(dog);
        }
    }
    let next = (dogs.len() as i64 == BATCH).then(|| dogs.last().copied()).flatten();
    for &dog in &mended {
        audit::note(&mut tx, &AuditEvent::by(actor, "mend_records", "dog", dog.0, now)).await?;
    }
    tx.commit().await?;
    Ok(Checked { dogs: dogs.len(), mended, next })
}
