//! Adds a dog to a household.

use crate::actions::{Done, Refusal, authorise, edit_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::dog::Weighing;
use crate::ids::{DogId, HouseholdId};
use crate::store::audit::{self, AuditEvent};
use crate::store::dog_profile::{Care, Identity};
use crate::store::{Tx, dog, dog_profile, dog_weight, household};

/// What a new dog's short page holds, checked.
#[derive(Debug, Clone)]
pub struct NewDog {
    /// Its id, made with the form.
    pub id: DogId,
    /// Who it is.
    pub identity: Identity,
    /// Who looks after it, and where it stands.
    pub care: Care,
    /// What it weighs, if somebody knows.
    pub weight: Option<Weighing>,
}

/// Adds the dog; the rest of its profile comes later. Sent again, it changes nothing; the same id with other content is
/// refused.
pub async fn add_dog(
    mut tx: Tx,
    actor: &Actor,
    household: HouseholdId,
    new: &NewDog,
    moment: &Moment,
) -> Done<DogId> {
    authorise(actor, Action::KeepDog, Some(household))?;
    household::find(&mut tx, household).await?.ok_or(Refusal::NotFound)?;
    edit_dog::trainer_stands(&mut tx, new.care.trainer).await?;
    let id = new.id;
    if !dog_profile::add(&mut tx, id, household, &new.identity, new.care, moment.at).await? {
        return if is_repeat(&mut tx, actor, household, new).await? { Ok(id) } else { Err(Refusal::Clash) };
    }
    dog::lock_summary(&mut tx, id).await?;
    if let Some(weight) = new.weight {
        dog_weight::record(&mut tx, id, weight).await?;
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "add_dog", "dog", id.0, moment)).await?;
    tx.commit().await?;
    Ok(id)
}

/// Whether the dog of this id is the same one in the same household, as it was added.
async fn is_repeat(tx: &mut Tx, actor: &Actor, household: HouseholdId, new: &NewDog) -> Done<bool> {
    let here = dog::find(tx, actor, new.id).await?.is_some_and(|dog| dog.household == household);
    let Some(first) = dog_profile::find(tx, new.id).await?.filter(|_| here) else { return Ok(false) };
    let weighed = dog_weight::of_dog(new.id, 1).read(tx).await?;
    let weighs = new.weight.is_none_or(|weight| weighed.contains(&weight));
    Ok(weighs && first.identity == new.identity && first.care.trainer == new.care.trainer)
}
