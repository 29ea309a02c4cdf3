//! Folding a dog's sittings into where each line and step stands: one more, streams under a new plan, or all anew.
//!
//! Evidence begins anew with the plan that brings a line to a step from another one, or changes what earns its marker:
//! sittings at items of earlier plans count no more there. A step that the line came up to is watched for decline from then on.

use time::OffsetDateTime;

use crate::actions::Done;
use crate::domain::readiness::{CountedSitting, Readiness};
use crate::domain::vocabulary::SkillClass;
use crate::ids::{DogId, LineId, PracticeLogId, StepId};
use crate::store::practice_log::{NewPracticeLog, PracticeLog, Wanted};
use crate::store::readiness::{Kept, Terms};
use crate::store::{Tx, decision, practice_log, readiness};

/// How many sittings of one line and step are replayed at most.
const REPLAY: i64 = 5_000;

/// Folds a sitting that is kept already into its stream: at the end when it is the newest, by replaying the stream when
/// it came late or the plan has changed the class.
pub(super) async fn fold(
    tx: &mut Tx,
    new: &NewPracticeLog,
    step: StepId,
    counted: &CountedSitting,
) -> Done<()> {
    let (dog, line) = (new.dog, new.line_id);
    let terms = readiness::terms(tx, dog, line, step).await?;
    if !readiness::is_of_plan_since(tx, new.item, terms.since).await? {
        return Ok(());
    }
    let class = terms.class;
    let begun = Kept {
        line,
        step,
        class,
        state: begun(terms),
        last_started_at: new.started_at,
        last_log: new.id,
        waiting: false,
    };
    let old = readiness::find(tx, dog, line, step).await?.unwrap_or(begun);
    let (last_started_at, last_log) = (old.last_started_at, old.last_log).max((new.started_at, new.id));
    let state = if last_log == new.id && old.class == class {
        old.state.advance(counted, class)
    } else {
        replay(tx, dog, line, step, terms).await?
    };
    let kept = Kept { class, state, last_started_at, last_log, waiting: waits(&old, &state, class), ..old };
    readiness::put(tx, dog, &kept).await?;
    Ok(())
}

/// Looks at every stream again under the plan of this number, just published: those whose evidence begins anew with it are
/// forgotten, those whose class it changes are folded anew.
pub(super) async fn refold(tx: &mut Tx, dog: DogId, number: i32) -> Done<()> {
    for old in readiness::of_dog(tx, dog).await? {
        let terms = readiness::terms(tx, dog, old.line, old.step).await?;
        if terms.since == number {
            readiness::forget(tx, dog, old.line, old.step).await?;
        } else if terms.class != old.class {
            let state = replay(tx, dog, old.line, old.step, terms).await?;
            let kept = Kept { class: terms.class, state, waiting: waits(&old, &state, terms.class), ..old };
            readiness::put(tx, dog, &kept).await?;
        }
    }
    Ok(())
}

/// Builds every stream of a dog anew from its sittings and decisions, in the order in which they arrived.
pub(super) async fn rebuild(tx: &mut Tx, dog: DogId) -> Done<()> {
    readiness::clear(tx, dog).await?;
    for (line, step) in readiness::streams(tx, dog).await? {
        let terms = readiness::terms(tx, dog, line, step).await?;
        let logs = practice_log::of_dog(tx, dog, Wanted::Stream(line, step, terms.since), REPLAY).await?;
        let decided = decision::times(tx, dog, line, step).await?;
        if let Some(kept) = retell(logs, &decided, (line, step, terms)) {
            readiness::put(tx, dog, &kept).await?;
        }
    }
    Ok(())
}

/// Whether a decision is waited for, now that the stream stands so.
fn waits(old: &Kept, state: &Readiness, class: SkillClass) -> bool {
    let (was, is) = (old.state.verdict(old.class), state.verdict(class));
    is.waits_for_trainer() && (old.waiting || was != is)
}

/// A stream without a sitting.
fn begun(terms: Terms) -> Readiness {
    if terms.watched { Readiness::after_moving_on() } else { Readiness::default() }
}

/// The state of a stream, from its sittings.
async fn replay(tx: &mut Tx, dog: DogId, line: LineId, step: StepId, terms: Terms) -> Done<Readiness> {
    let mut logs = practice_log::of_dog(tx, dog, Wanted::Stream(line, step, terms.since), REPLAY).await?;
    logs.reverse();
    let counted: Vec<CountedSitting> =
        logs.iter().filter_map(|log| CountedSitting::from_sitting(&log.sitting)).collect();
    Ok(begun(terms).replay(&counted, terms.class))
}

/// A stream as it came to stand while its sittings and decisions arrived; `None` without a counted sitting.
fn retell(
    mut logs: Vec<PracticeLog>,
    decided: &[OffsetDateTime],
    (line, step, terms): (LineId, StepId, Terms),
) -> Option<Kept> {
    let class = terms.class;
    logs.sort_by_key(|log| (log.received_at, log.id));
    let mut told: Vec<((OffsetDateTime, PracticeLogId), CountedSitting)> = Vec::new();
    let mut kept: Option<Kept> = None;
    let mut decided = decided.iter().peekable();
    for log in logs {
        let Some(counted) = CountedSitting::from_sitting(&log.sitting) else { continue };
        let is_decided = decided.next_if(|at| **at < log.received_at).is_some();
        while decided.next_if(|at| **at < log.received_at).is_some() {}
        let began = (log.started_at, log.id);
        let at = told.partition_point(|(before, _)| *before < began);
        told.insert(at, (began, counted));
        let state = begun(terms).replay(told.iter().map(|(_, counted)| counted), class);
        let (last_started_at, last_log) = told.last().map_or(began, |(last, _)| *last);
        let begun =
            Kept { line, step, class, state: begun(terms), last_started_at, last_log, waiting: false };
        let mut old = kept.unwrap_or(begun);
        old.waiting &= !is_decided;
        let waiting = waits(&old, &state, class);
        kept = Some(Kept { state, last_started_at, last_log, waiting, ..old });
    }
    if let Some(kept) = &mut kept {
        kept.waiting &= decided.next().is_none();
    }
    kept
}
