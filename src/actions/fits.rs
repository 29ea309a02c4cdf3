//! How a harness or a muzzle should sit: a trainer approves a photo, and the household says whether it still sits like that.

use crate::actions::send_message::{MessageInput, send};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::{FitAnswer, Gear};
use crate::ids::{DogId, PhotoId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, dog, fit, photo};

/// Approves a photo of the dog for a piece of gear. The same photo again changes nothing.
pub async fn approve_fit(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    photo: PhotoId,
    gear: Gear,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepDog, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    let photo = photo::find(dog, photo).read(&mut tx).await?.ok_or(Refusal::NotFound)?.id;
    fit::put(&mut tx, dog, (gear, photo), actor.membership, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "approve_fit", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}

/// Says whether gear still sits like that. Where it does not, the trainer is written to, once a day at most.
pub async fn answer_fit(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (gear, said): (Gear, FitAnswer),
    moment: &Moment,
) -> Done<()> {
    let found = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?;
    dog::lock_summary(&mut tx, dog).await?;
    let before = fit::of_dog(dog).read(&mut tx).await?.into_iter().find(|fit| fit.gear == gear);
    let before = before.ok_or(Refusal::NotFound)?.answered;
    let is_told_today = before
        .is_some_and(|(answer, at)| answer == FitAnswer::Changed && moment.at - at < time::Duration::days(1));
    fit::answer(&mut tx, dog, (gear, said), actor.membership, moment.at).await?;
    if said == FitAnswer::Changed && !is_told_today {
        let body = format!("{}’s {} sits differently from the photo.", found.name, gear.in_a_sentence());
        let message = MessageInput { id: moment.id(), body: &body, seen: None, about: None };
        send(&mut tx, actor, dog, message, moment).await?;
    }
    tx.commit().await?;
    Ok(())
}
