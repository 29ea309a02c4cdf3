//! Several dogs at once: handed to a trainer, put away from the caseload, or taken out again.

use crate::actions::edit_dog::trainer_stands;
use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, MembershipId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog, hand_over};

/// What becomes of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// This trainer looks after their plans.
    Trainer(MembershipId),
    /// They leave the caseload. Nothing recorded goes.
    Archive,
    /// They come back to it.
    Restore,
}

/// Changes all of them, or none. What is so already stays as it is. `note` is for whoever takes them over.
pub async fn change_dogs(
    mut tx: Tx,
    actor: &Actor,
    dogs: &[DogId],
    change: Change,
    note: &str,
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::KeepDog, None)?;
    let mut dogs = dogs.to_vec();
    dogs.sort_unstable();
    dogs.dedup();
    let known = match change {
        Change::Trainer(trainer) => {
            trainer_stands(&mut tx, trainer).await?;
            let ids: Vec<_> = dogs.iter().map(|dog| (*dog, moment.id())).collect();
            hand_over::add(&mut tx, &ids, (trainer, actor.membership), note, moment.at).await?;
            dog::set_trainer(&mut tx, &dogs, trainer).await?
        }
        Change::Archive => dog::set_archived(&mut tx, &dogs, Some(moment.at)).await?,
        Change::Restore => dog::set_archived(&mut tx, &dogs, None).await?,
    };
    if known != dogs.len() {
        return Err(Refusal::NotFound);
    }
    let action = match change {
        Change::Trainer(_) => "hand_over_dog",
        Change::Archive => "archive_dog",
        Change::Restore => "restore_dog",
    };
    for dog in dogs {
        audit::note(&mut tx, &AuditEvent::by(actor, action, "dog", dog.0, moment)).await?;
    }
    tx.commit().await?;
    Ok(())
}
