//! Records what a dog weighed: a trainer or somebody of its household.

use crate::actions::{Done, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::dog::Weighing;
use crate::ids::DogId;
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::dog_weight;

/// Records the weighing; one on the same day takes the earlier one's place.
pub async fn record_weight(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    weight: Weighing,
    moment: &Moment,
) -> Done<()> {
    authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?;
    dog_weight::record(&mut tx, dog, weight).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "record_weight", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
