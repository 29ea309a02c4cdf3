//! Checking that what is kept of each dog is what its facts say: its summary, its days, and where its streams stand.
//! They are built anew from the facts; a difference is mended by that, and counted.

use crate::actions::{Done, Refusal, authorise, fold_readiness};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Db, Tx, dog, dog_summary};

/// How many dogs one check takes: a second's work.
pub const BATCH: i64 = 25;

/// What a check found.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Checked {
    /// Dogs looked at.
    pub dogs: usize,
    /// Those of them whose records were not what their facts say, and now are.
    pub mended: Vec<DogId>,
    /// Where the next check goes on; `None` when every dog of the practice was looked at.
    pub next: Option<DogId>,
}

/// Checks the dogs after `after` in the order of their ids, [`BATCH`] at most. Each is a transaction of its own, so that
/// nobody who logs waits for more than one, and what is mended stays so.
///
/// # Errors
/// [`Refusal`] for anybody but the lead trainer.
pub async fn check_records(
    db: &Db,
    mut tx: Tx,
    actor: &Actor,
    after: Option<DogId>,
    now: &Moment,
) -> Done<Checked> {
    authorise(actor, Action::RunPractice, None)?;
    let dogs = dog::ids_after(&mut tx, after, BATCH).await?;
    drop(tx);
    let mut checked = Checked { dogs: dogs.len(), ..Checked::default() };
    for &dog in &dogs {
        let tx = db.for_member(actor.practice, actor.membership).await?.ok_or(Refusal::NotFound)?;
        if check_dog(tx, actor, dog, now).await? {
            checked.mended.push(dog);
        }
    }
    checked.next = dogs.last().copied().filter(|_| dogs.len() as i64 == BATCH);
    Ok(checked)
}

/// Whether one dog's records had to be mended.
async fn check_dog(mut tx: Tx, actor: &Actor, dog: DogId, now: &Moment) -> Done<bool> {
    dog::lock_summary(&mut tx, dog).await?;
    let kept = dog_summary::kept(&mut tx, dog).await?;
    dog_summary::rebuild(&mut tx, dog).await?;
    fold_readiness::rebuild(&mut tx, dog).await?;
    dog_summary::decisions_changed(&mut tx, dog).await?;
    if dog_summary::kept(&mut tx, dog).await? == kept {
        return Ok(false);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "mend_records", "dog", dog.0, now)).await?;
    tx.commit().await?;
    Ok(true)
}
