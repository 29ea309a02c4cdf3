//! How near a household feels to what it hopes for, and how sure of itself: told by the household, or to its trainer in a lesson.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Role;
use crate::ids::DogId;
use crate::store::audit::{self, AuditEvent};
use crate::store::goal_reading::{self, Told};
use crate::store::{Tx, dog};

/// Keeps the reading; one of the same day takes the earlier one's place, and the same again changes nothing.
pub async fn tell_goal(mut tx: Tx, actor: &Actor, dog: DogId, told: &Told, moment: &Moment) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::TellLife, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    let to_trainer = actor.role != Role::Owner;
    if goal_reading::keep(&mut tx, dog, told, (actor.membership, to_trainer), moment).await? {
        audit::note(&mut tx, &AuditEvent::by(actor, "tell_goal", "dog", dog.0, moment)).await?;
    }
    tx.commit().await?;
    Ok(())
}
