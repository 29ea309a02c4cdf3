//! Changes one section of a dog's profile.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::DayOfWeek;
use crate::ids::{DogId, MembershipId};
use crate::store::audit::{self, AuditEvent};
use crate::store::dog::set_phase;
use crate::store::dog_profile::{self, Care, Food, Goal, Health, Identity, Safety, Vet};
use crate::store::{Tx, membership};

/// One section, as it shall read from now on.
#[derive(Debug, Clone)]
pub enum Section {
    /// Who it is.
    Identity(Identity),
    /// Its body and health.
    Health(Health),
    /// What it eats.
    Food(Food),
    /// How far a vet has been part of this.
    Vet(Vet),
    /// What happened before, and what keeps everyone safe.
    Safety(Safety),
    /// What the owner wants.
    Goal(Goal),
    /// The days on which its household can practise.
    Days(Vec<DayOfWeek>),
    /// Who looks after it, and where it stands.
    Care(Care),
}

/// Changes the section.
pub async fn edit_dog(mut tx: Tx, actor: &Actor, dog: DogId, section: &Section, moment: &Moment) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?;
    match section {
        Section::Identity(identity) => dog_profile::set_identity(&mut tx, dog, identity).await?,
        Section::Health(health) => dog_profile::set_health(&mut tx, dog, health).await?,
        Section::Food(food) => dog_profile::set_food(&mut tx, dog, food).await?,
        Section::Vet(vet) => dog_profile::set_vet(&mut tx, dog, *vet).await?,
        Section::Safety(safety) => dog_profile::set_safety(&mut tx, dog, safety).await?,
        Section::Goal(goal) => dog_profile::set_goal(&mut tx, dog, goal).await?,
        Section::Days(days) => dog_profile::set_days(&mut tx, dog, days).await?,
        Section::Care(care) => {
            trainer_stands(&mut tx, care.trainer).await?;
            // since when it stands there is noted where that is another phase
            set_phase(&mut tx, dog, care.phase, moment.at).await?;
            dog_profile::set_care(&mut tx, dog, *care).await?;
        }
    }
    let event =
        AuditEvent { detail: section.name(), ..AuditEvent::by(actor, "edit_dog", "dog", dog.0, moment) };
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(())
}

impl Section {
    fn name(&self) -> &'static str {
        match self {
            Self::Identity(_) => "who",
            Self::Health(_) => "body and health",
            Self::Food(_) => "food",
            Self::Vet(_) => "vet",
            Self::Safety(_) => "history and safety",
            Self::Goal(_) => "goal",
            Self::Days(_) => "days for practice",
            Self::Care(_) => "phase and trainer",
        }
    }
}

/// Goes on only where this member still trains here.
pub(in crate::actions) async fn trainer_stands(tx: &mut Tx, trainer: MembershipId) -> Done<()> {
    if membership::hold_trainer(tx, trainer).await? {
        Ok(())
    } else {
        Err(Refusal::Field { field: "trainer", message: "Choose a trainer of the team." })
    }
}
