//! Checking that what is kept of each dog is what its facts say: its summary, its days, and where its streams stand.
//! They are built anew from the facts; a difference is mended by that, and counted. Open flags whose rule has got another
//! meaning since it spoke are looked at again after that.

use crate::actions::{Done, Refusal, authorise, fold_readiness, look_again};
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
    /// Logs and encounters that changed rules looked at again.
    pub looked_again: usize,
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
        let (looked_again, is_mended) = check_dog(tx, actor, dog, now).await?;
        checked.looked_again += looked_again;
        if is_mended {
            checked.mended.push(dog);
        }
    }
    checked.next = dogs.last().copied().filter(|_| dogs.len() as i64 == BATCH);
    Ok(checked)
}

/// How much changed rules looked at again, and whether one dog's records had to be mended.
async fn check_dog(mut tx: Tx, actor: &Actor, id: DogId, now: &Moment) -> Done<(usize, bool)> {
    let dog = dog::find(&mut tx, actor, id).await?.ok_or(Refusal::NotFound)?;
    dog::lock_summary(&mut tx, id).await?;
    let kept = dog_summary::kept(&mut tx, id).await?;
    dog_summary::rebuild(&mut tx, id).await?;
    fold_readiness::rebuild(&mut tx, id).await?;
    dog_summary::decisions_changed(&mut tx, id).await?;
    let is_mended = dog_summary::kept(&mut tx, id).await? != kept;
    let looked_again = look_again::with_changed_rules(&mut tx, &dog, now).await?;
    if looked_again > 0 {
        dog_summary::rebuild(&mut tx, id).await?;
        audit::note(&mut tx, &AuditEvent::by(actor, "look_again", "dog", id.0, now)).await?;
    }
    if is_mended {
        audit::note(&mut tx, &AuditEvent::by(actor, "mend_records", "dog", id.0, now)).await?;
    }
    if is_mended || looked_again > 0 {
        tx.commit().await?;
    }
    Ok((looked_again, is_mended))
}
