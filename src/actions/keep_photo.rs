//! Keeps a photo of a sitting, of something that happened or of a message, and takes it away again.

use crate::actions::clean_photo::CleanPhoto;
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Role;
use crate::ids::{DogId, PhotoId};
use crate::store::audit::{self, AuditEvent};
use crate::store::photo::{self, NewPhoto, Of};
use crate::store::{Tx, dog, encounter, fit, message, practice_log};

/// The most photos of one sitting, encounter or message, and of one dog.
const MOST_OF_ONE: i64 = 6;
const MOST_OF_DOG: i64 = 400;

/// Keeps it. Sent again it changes nothing. To a message, only whoever wrote it adds one.
pub async fn keep_photo(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (id, of): (PhotoId, Of),
    clean: &CleanPhoto,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    let is_there = match of {
        Of::Log(log) => practice_log::find(&mut tx, dog, log).await?.is_some(),
        Of::Encounter(id) => encounter::find(&mut tx, dog, id).await?.is_some(),
        Of::Message(id) => match message::writer(&mut tx, dog, id).await? {
            Some(by) if by != actor.membership => return Err(Refusal::Forbidden),
            by => by.is_some(),
        },
    };
    if !is_there {
        return Err(Refusal::NotFound);
    }
    let (of_one, of_dog) = photo::counts(&mut tx, dog, of).await?;
    if of_one >= MOST_OF_ONE || of_dog >= MOST_OF_DOG {
        let is_known = photo::find(dog, id).read(&mut tx).await?.is_some();
        return if is_known { Ok(()) } else { Err(Refusal::Forbidden) };
    }
    let size = |side: u32| i32::try_from(side).unwrap_or(i32::MAX);
    let new =
        NewPhoto { id, dog, of, bytes: &clean.bytes, width: size(clean.width), height: size(clean.height) };
    photo::add(&mut tx, &new, actor.membership, moment.at).await?;
    tx.commit().await?;
    Ok(())
}

/// Takes a photo away: whoever kept it may, and trainers. Where it showed how gear should sit, that goes with it.
pub async fn remove_photo(mut tx: Tx, actor: &Actor, dog: DogId, id: PhotoId, moment: &Moment) -> Done<Of> {
    let dog = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?.id;
    dog::lock_summary(&mut tx, dog).await?;
    let kept = photo::find(dog, id).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    if actor.role == Role::Owner && kept.by_member != actor.membership {
        return Err(Refusal::Forbidden);
    }
    fit::forget(&mut tx, dog, id).await?;
    photo::remove(&mut tx, dog, id).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_photo", "dog", dog.0, moment)).await?;
    tx.commit().await?;
    Ok(kept.of)
}
