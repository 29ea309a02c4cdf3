//! Packages of lessons: adding one, and taking one back that was added in error.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{DogId, LessonPackageId};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::lesson_package::{self, NewPackage};

/// Adds a package. Sent again, it changes nothing; the same id with other content is refused.
pub async fn add_package(mut tx: Tx, actor: &Actor, new: &NewPackage<'_>, moment: &Moment) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepLessons, new.dog).await?.id;
    if !lesson_package::add(&mut tx, new, actor.membership, moment).await? {
        return if lesson_package::is_same(&mut tx, new).await? { Ok(()) } else { Err(Refusal::Clash) };
    }
    let detail = format!("{} from {}", new.bought, new.from);
    let event = AuditEvent { detail: &detail, ..AuditEvent::by(actor, "add_package", "dog", dog.0, moment) };
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(())
}

/// Takes a package back: it stays on record and counts no more. Sent again, it changes nothing.
pub async fn take_back_package(
    mut tx: Tx,
    actor: &Actor,
    (dog, id): (DogId, LessonPackageId),
    why: &str,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::KeepLessons, dog).await?.id;
    let packages = lesson_package::of_dog(dog).read(&mut tx).await?;
    let kept = packages.iter().find(|package| package.id == id).ok_or(Refusal::NotFound)?;
    if kept.taken_back_at.is_some() {
        return if kept.taken_back_why == why { Ok(()) } else { Err(Refusal::Clash) };
    }
    if !lesson_package::take_back(&mut tx, (dog, id), why, actor.membership, moment.at).await? {
        return Err(Refusal::Clash);
    }
    let short: String = why.chars().take(200).collect();
    let event =
        AuditEvent { detail: &short, ..AuditEvent::by(actor, "take_back_package", "dog", dog.0, moment) };
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(())
}
