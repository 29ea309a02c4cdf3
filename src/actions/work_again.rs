//! Working again with a dog that was maintaining, graduated or paused: it is active again, and lines that relapsed or are doubtful open
//! in the draft at their last sure step. Nothing is published by itself.

use std::collections::HashMap;

use time::Date;

use crate::actions::decide::say_why;
use crate::actions::plan_draft::{finished, opened};
use crate::actions::set_phase::put_in;
use crate::actions::{Done, Refusal, authorised_dog};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::owner_words::step_changed;
use crate::domain::readiness::Verdict;
use crate::domain::readiness::reopen::{Rung, Why, reopens};
use crate::domain::vocabulary::{Choice, ItemKind, Phase};
use crate::ids::{DogId, ExerciseId, LineId, StepId};
use crate::store::decision::{self, Turn};
use crate::store::plan::{Plan, PlanItem};
use crate::store::practice_log::{self, Wanted};
use crate::store::readiness::{self, Kept};
use crate::store::reading::Together;
use crate::store::step::{self, Step};
use crate::store::{Tx, dog, plan, plan_draft_item};

/// The last sittings that say whether a step was practised of late: more than anybody logs in four weeks.
const LOOKED_AT: i64 = 300;

/// A line that opens again.
#[derive(Debug, Clone)]
pub struct Reopening {
    /// The instruction.
    pub line: LineId,
    /// The exercise's name.
    pub name: String,
    /// The step at which it stands in the published plan, with its number.
    pub from: (StepId, i16, String),
    /// The step at which it opens.
    pub to: Step,
    /// Why.
    pub why: Why,
}

/// A mark of what would open: another one where that has changed.
pub fn mark(reopening: &[Reopening]) -> String {
    let lines = reopening.iter().map(|line| format!("{}>{}", line.line, line.to.id));
    lines.collect::<Vec<_>>().join(",")
}

/// What would open again, by the published plan; `day` gives the day of an instant where the dog lives. Only reads, for a page before
/// it happens as well.
pub async fn reopening(
    tx: &mut Tx,
    dog: DogId,
    day: impl Fn(time::OffsetDateTime) -> Date,
    today: Date,
) -> Done<Vec<Reopening>> {
    let (plan, kept, steps) =
        (plan::newest(dog), readiness::of_dog(dog), step::all()).together().read(tx).await?;
    let Some(Plan { items, .. }) = plan else { return Ok(Vec::new()) };
    let turns = decision::turns(tx, dog).await?;
    let logs = practice_log::of_dog(tx, dog, Wanted::Newest, LOOKED_AT).await?;
    let mut ladders: HashMap<ExerciseId, Vec<Step>> = HashMap::new();
    for step in steps {
        ladders.entry(step.exercise).or_default().push(step);
    }
    let exercises = items.iter().filter(|item| item.kind == ItemKind::Exercise);
    let of_item = |item: &PlanItem| {
        let step = item.step?;
        let ladder = ladders.values().find(|ladder| ladder.iter().any(|rung| rung.id == step))?;
        let at = ladder.iter().position(|rung| rung.id == step)?;
        let rungs: Vec<Rung> =
            (0..ladder.len()).map(|at| known(item, (ladder, at), &kept, &turns, &day)).collect();
        let there = logs
            .iter()
            .map(|log| &log.sitting)
            .filter(|sitting| sitting.plan_line == Some(item.line_id) && sitting.step == Some(step));
        let practised = there.map(|sitting| sitting.local_date).max();
        let reopened = reopens(at, &rungs, practised, today)?;
        Some(Reopening {
            line: item.line_id,
            name: item.name.clone(),
            from: (step, ladder[at].position, ladder[at].name.clone()),
            to: ladder[reopened.at].clone(),
            why: reopened.why,
        })
    };
    Ok(exercises.filter_map(of_item).collect())
}

/// What is known of one rung of a line. Made easier there counts until the line came up again from a rung below.
fn known(
    item: &PlanItem,
    (ladder, at): (&[Step], usize),
    kept: &[Kept],
    turns: &[Turn],
    day: impl Fn(time::OffsetDateTime) -> Date,
) -> Rung {
    let rung = ladder[at].id;
    let state =
        kept.iter().find(|kept| kept.line == item.line_id && kept.step == rung).map(|kept| kept.state);
    let last = |choice: Choice, of: &dyn Fn(StepId) -> bool| {
        let of_rung =
            turns.iter().filter(|turn| turn.line == item.line_id && turn.choice == choice && of(turn.step));
        of_rung.map(|turn| turn.at).max()
    };
    let came_up = last(Choice::MoveOn, &|step| ladder[..at].iter().any(|below| below.id == step));
    let made_easier = last(Choice::MakeEasier, &|step| step == rung).filter(|easier| came_up < Some(*easier));
    let relapsed = state.filter(|state| state.verdict(item.class) == Verdict::Relapse);
    Rung {
        sure_on: state
            .and_then(|state| state.signalled_on)
            .max(last(Choice::MoveOn, &|step| step == rung).map(&day)),
        // a chart that says so says so up to the last sitting
        declined_on: relapsed.and_then(|state| state.last_day).max(made_easier.map(&day)),
    }
}

/// Does it. `seen` is the [`mark`] of what whoever presses has read; where that has changed, it is refused. Gives how many lines opened
/// in the draft.
pub async fn work_again(
    mut tx: Tx,
    actor: &Actor,
    dog: DogId,
    (seen, today): (&str, Date),
    day: impl Fn(time::OffsetDateTime) -> Date,
    moment: &Moment,
) -> Done<usize> {
    let seen_dog = authorised_dog(&mut tx, actor, Action::KeepPlan, dog).await?;
    // the order in which publishing locks
    dog::lock_summary(&mut tx, seen_dog.id).await?;
    let dog = opened(&mut tx, actor, dog, moment).await?;
    let lines = reopening(&mut tx, dog.id, day, today).await?;
    if mark(&lines) != seen {
        return Err(Refusal::Field {
            field: "saw",
            message: "What opens again has changed since you opened this page. Read it once more, then press again.",
        });
    }
    let mut opened = 0;
    for line in &lines {
        if is_above(&mut tx, dog.id, line).await?
            && decision::move_draft_step(&mut tx, dog.id, line.line, line.from.0, line.to.id).await?
        {
            opened += 1;
            let why = step_changed(&line.name, Choice::MakeEasier, &line.to.name, None);
            say_why(&mut tx, dog.id, &why).await?;
        }
    }
    put_in(&mut tx, actor, &dog, Phase::Active, moment).await?;
    finished(tx, actor, dog.id, "work_again", "", moment).await?;
    Ok(opened)
}

/// Whether the draft has the line on a rung above the one that it opens at: what somebody has made easier already stays.
async fn is_above(tx: &mut Tx, dog: DogId, line: &Reopening) -> Done<bool> {
    let Some(draft) = plan_draft_item::find(tx, dog, line.line).await? else { return Ok(false) };
    let Some(step) = draft.step else { return Ok(false) };
    let stands = step::find(step).read(tx).await?;
    Ok(stands.is_some_and(|stands| stands.position > line.to.position))
}
