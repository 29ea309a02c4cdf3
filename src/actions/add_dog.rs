//! Adds a dog to a household.

use crate::actions::{Done, Refusal, authorise, edit_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, HouseholdId};
use crate::store::audit::{self, AuditEvent};
use crate::store::dog_profile::{Care, Identity};
use crate::store::dog_weight::{self, Weight};
use crate::store::{Tx, dog, dog_profile, household};

/// What a new dog's short page holds, checked.
#[derive(Debug, Clone)]
pub struct NewDog {
    /// Who it is.
    pub identity: Identity,
    /// Who looks after it, and where it stands.
    pub care: Care,
    /// What it weighs, if somebody knows.
    pub weight: Option<Weight>,
}

/// Adds the dog; the rest of its profile comes later.
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
    let id: DogId = moment.id();
    dog_profile::add(&mut tx, id, household, &new.identity, new.care, moment.at).await?;
    dog::lock_summary(&mut tx, id).await?;
    if let Some(weight) = new.weight {
        dog_weight::record(&mut tx, id, weight).await?;
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "add_dog", "dog", id.0, moment)).await?;
    tx.commit().await?;
    Ok(id)
}
