//! A new line of a plan, fitted to its dog: the next sensible step, a place and a reinforcer of its own lists.

use crate::actions::Done;
use crate::domain::plan_fitting::{place_for, reinforcer_for};
use crate::domain::readiness::Verdict;
use crate::domain::vocabulary::ItemKind;
use crate::ids::{DogId, StepId};
use crate::store::plan_draft_item::LineSettings;
use crate::store::step::{self, Step};
use crate::store::{Tx, exercise, place, plan_history, readiness, reinforcer};

/// Fills in what the library cannot know. What is chosen already stays; only exercises with a ladder are fitted.
pub(super) async fn fit_to_dog(tx: &mut Tx, dog: DogId, chosen: &mut LineSettings) -> Done<()> {
    let kind = exercise::find(tx, chosen.exercise).await?.map(|exercise| exercise.kind);
    if kind != Some(ItemKind::Exercise) {
        return Ok(());
    }
    let steps = step::of_exercise(chosen.exercise).read(tx).await?;
    let first = steps.first().map(|step| step.id);
    if chosen.step.is_none() || chosen.step == first {
        chosen.step = next_step(tx, dog, chosen, &steps).await?.or(chosen.step);
    }
    let at = chosen.step.and_then(|id| steps.iter().find(|step| step.id == id));
    let Some(distraction) = at.map(|step| step.distraction) else { return Ok(()) };
    let places = place::of_dog(dog).read(tx).await?;
    let places: Vec<_> = places.iter().map(|place| (place.id, place.distraction)).collect();
    let place = place_for(Some(distraction), &places);
    chosen.place = chosen.place.or(place.map(|(id, _)| id));
    let food: Vec<_> = reinforcer::of_dog(dog).read(tx).await?.iter().map(|one| (one.id, one.rank)).collect();
    let level = place.map_or(distraction, |(_, level)| level);
    chosen.reinforcer = chosen.reinforcer.or_else(|| reinforcer_for(level, &food));
    Ok(())
}

/// Where the dog goes on that had this exercise before: at its step, or one beyond it where the counts were there.
async fn next_step(tx: &mut Tx, dog: DogId, chosen: &LineSettings, steps: &[Step]) -> Done<Option<StepId>> {
    let Some((line, last)) = plan_history::last_step(tx, dog, chosen.exercise).await? else {
        return Ok(None);
    };
    let kept = readiness::find(tx, dog, line, last).await?;
    let is_ready = kept.is_some_and(|kept| kept.state.verdict(kept.class) == Verdict::LikelyReady);
    let at = steps.iter().position(|step| step.id == last);
    let next = at.and_then(|at| steps.get(at + 1)).filter(|_| is_ready);
    Ok(next.map(|step| step.id).or(Some(last)))
}
