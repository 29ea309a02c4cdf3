//! Deciding on a line: move on, repeat, make it easier. The draft of the plan moves with it; the owner sees it when the
//! trainer publishes.

use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::added_text::added;
use crate::domain::owner_words::step_changed;
use crate::domain::readiness::rung_after;
use crate::domain::vocabulary::{Choice, DecisionReason};
use crate::ids::{DecisionId, DogId, PlanItemId, StepId};
use crate::store::audit::{self, AuditEvent};
use crate::store::decision::{self, NewDecision};
use crate::store::plan::PlanItem;
use crate::store::readiness::Kept;
use crate::store::revision::told_after_all;
use crate::store::step::{self, Step};
use crate::store::{Tx, dog, dog_summary, plan, plan_draft, plan_draft_item, readiness};

/// The most characters of a plan's note to the owner.
const LONGEST_NOTE: usize = 2000;

/// What a trainer decides.
#[derive(Debug, Clone)]
pub struct DecisionInput {
    /// The decision's id, made with the form.
    pub id: DecisionId,
    /// The dog.
    pub dog: DogId,
    /// The item of the current plan.
    pub item: PlanItemId,
    /// What was chosen.
    pub choice: Choice,
    /// Why.
    pub reason: DecisionReason,
    /// A note.
    pub note: String,
}

/// Records a decision with the figures it was taken on; gives whether the draft's step moved. Sent again, it changes
/// nothing; the same id with other content is refused.
pub async fn decide(mut tx: Tx, actor: &Actor, input: &DecisionInput, moment: &Moment) -> Done<bool> {
    let dog = authorised_dog(&mut tx, actor, Action::Decide, input.dog).await?;
    let item = plan::item(dog.id, input.item).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    let step = item.step.ok_or(Refusal::NotFound)?;
    dog::lock_summary(&mut tx, dog.id).await?;
    let kept = readiness::of_dog(dog.id).read(&mut tx).await?;
    let here = kept.iter().find(|kept| kept.line == item.line_id && kept.step == step);
    let new = NewDecision {
        id: input.id,
        dog: dog.id,
        line: item.line_id,
        step,
        advice: here.map_or_else(String::new, |here| here.state.for_trainer(item.class, item.is_last_step())),
        choice: input.choice,
        reason: input.reason,
        note: input.note.clone(),
        by: actor.membership,
    };
    if let Some(same) = decision::is_kept_as(&mut tx, &new).await? {
        let line = plan_draft_item::find(&mut tx, dog.id, item.line_id).await?;
        let elsewhere = line.is_some_and(|line| line.step != Some(step));
        return if same { Ok(elsewhere && input.choice != Choice::Repeat) } else { Err(Refusal::Clash) };
    }
    let decided_at = told_after_all(&mut tx, dog.id, moment.at).await?;
    decision::add(&mut tx, &new, decided_at).await?;
    let to = leads_to(&mut tx, &item, step, &kept, input.choice).await?;
    let moved = match &to {
        Some(to) => decision::move_draft_step(&mut tx, dog.id, item.line_id, step, to.id).await?,
        None => false,
    };
    if let Some(to) = to.filter(|_| moved) {
        let counted = here.map(|here| (here.state.met, here.state.attempts));
        say_why(&mut tx, dog.id, &step_changed(&item.name, input.choice, &to.name, counted)).await?;
    }
    dog_summary::decisions_changed(&mut tx, dog.id).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "decide", "dog", dog.id.0, moment)).await?;
    tx.commit().await?;
    Ok(moved)
}

/// Adds to the draft's note why a step changed, so that the household reads it with the plan. A note that has no room
/// stays as it is.
pub(super) async fn say_why(tx: &mut Tx, dog: DogId, why: &str) -> Done<()> {
    let note = plan_draft::find(dog).read(tx).await?.map(|draft| draft.note).unwrap_or_default();
    if let Some(note) = added(&note, why, LONGEST_NOTE) {
        plan_draft::set_note(tx, dog, &note).await?;
    }
    Ok(())
}

/// The step that a choice leads to, where it leads to another one. Also for whoever asks before deciding.
pub async fn leads_to(
    tx: &mut Tx,
    item: &PlanItem,
    from: StepId,
    kept: &[Kept],
    choice: Choice,
) -> Done<Option<Step>> {
    let of_line = |id: StepId| kept.iter().find(|kept| kept.line == item.line_id && kept.step == id);
    let exercise = step::find(from).read(tx).await?.ok_or(Refusal::NotFound)?.exercise;
    let mut ladder = step::of_exercise(exercise).read(tx).await?;
    let Some(at) = ladder.iter().position(|step| step.id == from) else { return Ok(None) };
    let sure: Vec<bool> = ladder
        .iter()
        .map(|step| of_line(step.id).is_some_and(|kept| kept.state.signalled_on.is_some()))
        .collect();
    let state = of_line(from).map(|kept| kept.state).unwrap_or_default();
    let rung = rung_after(choice, state.verdict(item.class), at, &sure);
    Ok(rung.map(|rung| ladder.swap_remove(rung)))
}
