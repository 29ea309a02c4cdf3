//! What a household says of its day beside its sittings: no practice today, how an arrangement was kept this week.

use time::Date;

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::{DayOffReason, Held, ItemKind};
use crate::ids::{DogId, LineId};
use crate::store::{Tx, arrangement_week, day_off, plan};

/// Takes a day off. Sending the same again changes nothing.
pub async fn take_day_off(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    said: (Date, Option<DayOffReason>),
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?.id;
    day_off::add(&mut tx, dog, said, actor.membership, moment).await?;
    tx.commit().await?;
    Ok(())
}

/// Practises after all on a day that was taken off.
pub async fn take_back_day_off(mut tx: Tx, actor: &Actor, dog: DogId, on: Date) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?.id;
    day_off::remove(&mut tx, dog, on).await?;
    tx.commit().await?;
    Ok(())
}

/// Says how an arrangement of the current plan was kept in the week that begins on this Monday.
pub async fn say_held(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (line, week_of): (LineId, Date),
    held: Held,
    moment: &Moment,
) -> Done<()> {
    let dog = authorised_dog(&mut tx, actor, Action::LogPractice, dog).await?.id;
    let version = plan::current(dog).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    let items = plan::items(version.id).read(&mut tx).await?;
    if !items.iter().any(|item| item.line_id == line && item.kind == ItemKind::StandingArrangement) {
        return Err(Refusal::NotFound);
    }
    arrangement_week::put(&mut tx, dog, (line, week_of), held, actor.membership, moment).await?;
    tx.commit().await?;
    Ok(())
}
