//! Starting a dog's draft from something that is there already: a starting point, a kept plan, or another dog's plan.

use crate::actions::add_draft_item::MOST;
use crate::actions::copy_starter_library::put_on_shelf;
use crate::actions::fit_to_dog::fit_to_dog;
use crate::actions::plan_draft::{finished, opened};
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::plan_order::arranged;
use crate::domain::starting_points::{StartingItem, StartingPoint};
use crate::ids::{DogId, LineId, PlanTemplateId};
use crate::store::plan_draft_item::{self, LineSettings};
use crate::store::{Tx, exercise, plan, plan_draft, plan_template, step};

/// What to start from.
#[derive(Debug, Clone, Copy)]
pub enum StartFrom {
    /// A starting point of the product.
    Point(&'static StartingPoint),
    /// A plan that the practice has kept.
    Template(PlanTemplateId),
    /// What another dog of the practice has now.
    Dog(DogId),
}

/// Adds the instructions to the draft, fitted to this dog; what the draft holds stays, and no exercise is added twice, so
/// sending it again changes nothing. Gives how many were added.
pub async fn start_plan(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    from: StartFrom,
    moment: &Moment,
) -> Done<usize> {
    opened(&mut tx, actor, dog, moment).await?;
    let lines = match from {
        StartFrom::Point(point) => of_point(&mut tx, point, moment).await?,
        StartFrom::Template(id) => of_template(&mut tx, id).await?,
        StartFrom::Dog(other) => of_dog(&mut tx, actor, other).await?,
    };
    let added = append(&mut tx, dog, lines, "from", moment).await?;
    if let StartFrom::Point(point) = from
        && plan_draft::find(dog).read(&mut tx).await?.is_some_and(|draft| draft.note.is_empty())
    {
        plan_draft::set_note(&mut tx, dog, point.note).await?;
    }
    finished(tx, actor, dog, "start_plan", &from.in_words(), moment).await?;
    Ok(added)
}

/// Adds lines to a draft that is held, fitted to this dog, and no exercise twice; gives how many. `field` is the form's that too many
/// are said at.
pub(super) async fn append(
    tx: &mut Tx,
    dog: DogId,
    lines: Vec<LineSettings>,
    field: &'static str,
    moment: &Moment,
) -> Done<usize> {
    let mut held = plan_draft_item::exercises(tx, dog).await?;
    let before = held.len();
    for mut chosen in lines {
        if held.contains(&chosen.exercise) {
            continue;
        }
        let position = i16::try_from(held.len() + 1).ok().filter(|n| *n <= MOST).ok_or(Refusal::Field {
            field,
            message: "A plan holds 40 items at most. Take some out first.",
        })?;
        fit_to_dog(tx, dog, &mut chosen).await?;
        let line: LineId = moment.id();
        plan_draft_item::add(tx, dog, line, position, &chosen).await?;
        held.push(chosen.exercise);
    }
    let order = arranged(&plan_draft::order(tx, dog).await?);
    plan_draft::set_order(tx, dog, &order).await?;
    Ok(held.len() - before)
}

impl StartFrom {
    /// For the record: "new-home", "a kept plan".
    fn in_words(self) -> String {
        match self {
            Self::Point(point) => point.key.to_owned(),
            Self::Template(_) => "a kept plan".to_owned(),
            Self::Dog(_) => "another dog's plan".to_owned(),
        }
    }
}

async fn of_point(tx: &mut Tx, point: &StartingPoint, moment: &Moment) -> Done<Vec<LineSettings>> {
    let mut lines = Vec::new();
    for item in point.items {
        lines.extend(of_item(tx, item, moment).await?);
    }
    Ok(lines)
}

/// The practice's own entry of that name, or the starter library's where it has none. An archived one was put away on purpose:
/// then the item is left out.
async fn of_item(tx: &mut Tx, item: &StartingItem, moment: &Moment) -> Done<Option<LineSettings>> {
    let Some(entry) = item.entry() else { return Ok(None) };
    let id = match exercise::named(tx, entry.name).await? {
        Some(id) => id,
        None if exercise::is_archived(tx, entry.name).await? => return Ok(None),
        None => put_on_shelf(tx, entry, moment).await?,
    };
    let Some(mut chosen) = plan_draft_item::usual(tx, id).await? else { return Ok(None) };
    let steps = step::of_exercise(id).read(tx).await?;
    let rung = usize::from(item.rung).checked_sub(1).and_then(|index| steps.get(index));
    chosen.step = rung.map(|step| step.id).or(chosen.step);
    let number = |n: u8| (n > 0).then_some(i16::from(n));
    chosen.times_a_week = number(item.times_a_week).or(chosen.times_a_week);
    chosen.minutes = number(item.minutes);
    Ok(Some(chosen))
}

async fn of_template(tx: &mut Tx, id: PlanTemplateId) -> Done<Vec<LineSettings>> {
    plan_template::find(tx, id).await?.ok_or(Refusal::NotFound)?;
    Ok(plan_template::lines(tx, id).await?)
}

async fn of_dog(tx: &mut Tx, actor: &Actor, other: DogId) -> Done<Vec<LineSettings>> {
    authorised_dog(tx, actor, Action::KeepPlan, other).await?;
    let version = plan::current(other).read(tx).await?.ok_or(Refusal::NotFound)?;
    Ok(plan_template::lines_of_version(tx, version.id).await?)
}
