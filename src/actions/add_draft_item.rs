//! Adding something from the library to a dog's draft.

use crate::actions::fit_to_dog::fit_to_dog;
use crate::actions::plan_draft::{checked, finished, opened};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::domain::plan_order::arranged;
use crate::ids::{DogId, ExerciseId, LineId};
use crate::store::plan_draft_item::{self, LineSettings};
use crate::store::{Tx, plan_draft};

/// The most items that a draft holds; five are already many (`plan_too_large`).
pub const MOST: i16 = 40;

/// Adds an exercise, arrangement or skill with its usual numbers and what suits this dog, as the last of its kind; gives its line. The same line
/// sent again changes nothing.
pub async fn add_draft_item(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    exercise: ExerciseId,
    line: LineId,
    moment: &Moment,
) -> Done<LineId> {
    opened(&mut tx, actor, dog, moment).await?;
    if let Some(first) = plan_draft_item::find(&mut tx, dog, line).await? {
        return if first.exercise == exercise { Ok(line) } else { Err(Refusal::Clash) };
    }
    let mut chosen = plan_draft_item::usual(&mut tx, exercise).await?.ok_or(Refusal::NotFound)?;
    fit_to_dog(&mut tx, dog, &mut chosen).await?;
    put(tx, actor, dog, line, &chosen, moment).await
}

/// Adds a line just as it was chosen, as the last of its kind; gives the new line.
pub async fn add_chosen_item(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    chosen: &LineSettings,
    moment: &Moment,
) -> Done<LineId> {
    opened(&mut tx, actor, dog, moment).await?;
    checked(&mut tx, dog, chosen).await?;
    put(tx, actor, dog, moment.id(), chosen, moment).await
}

async fn put(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    line: LineId,
    chosen: &LineSettings,
    moment: &Moment,
) -> Done<LineId> {
    let held = plan_draft::order(&mut tx, dog).await?.len();
    let position = i16::try_from(held + 1).ok().filter(|n| *n <= MOST).ok_or(Refusal::Field {
        field: "exercise",
        message: "A plan holds 40 items at most. Take one out first.",
    })?;
    plan_draft_item::add(&mut tx, dog, line, position, chosen).await?;
    let order = arranged(&plan_draft::order(&mut tx, dog).await?);
    plan_draft::set_order(&mut tx, dog, &order).await?;
    finished(tx, actor, dog, "add_draft_item", "", moment).await?;
    Ok(line)
}
