//! Folding a dog's sittings into where each line and step stands: one more, streams under a new plan, or all anew.
//!
//! Evidence begins anew with the plan that brings a line to a step from another one, or changes what earns its marker:
//! sittings at items of earlier plans count no more there. A step that the line came up to is watched for decline from then on.

use time::OffsetDateTime;

use crate::actions::Done;
use crate::domain::readiness::{CountedSitting, Readiness};
use crate::domain::vocabulary::SkillClass;
use crate::ids::{DogId, LineId, PracticeLogId, StepId};
use crate::store::practice_log::{NewPracticeLog, Told, Wanted};
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
    let terms = readiness::terms(dog, line, step).read(tx).await?;
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
    for old in readiness::of_dog(dog).read(tx).await? {
        let terms = readiness::terms(dog, old.line, old.step).read(tx).await?;
        if terms.since == number {
            readiness::forget(tx, dog, old.line, old.step).await?;
        } else if terms.class != old.class {
            retold(tx, dog, old.line, old.step).await?;
        }
    }
    Ok(())
}

/// Builds every stream of a dog anew.
pub(super) async fn rebuild(tx: &mut Tx, dog: DogId) -> Done<()> {
    readiness::clear(tx, dog).await?;
    for (line, step) in readiness::streams(tx, dog).await? {
        retold(tx, dog, line, step).await?;
    }
    Ok(())
}

/// Builds one stream anew from everything that was told of its sittings and decided about it, in the order in which it was,
/// by the terms of now.
pub(super) async fn retold(tx: &mut Tx, dog: DogId, line: LineId, step: StepId) -> Done<()> {
    let terms = readiness::terms(dog, line, step).read(tx).await?;
    let told = practice_log::told(tx, dog, (line, step, terms.since), REPLAY).await?;
    let decided = decision::times(tx, dog, line, step).await?;
    match retell(&told, &decided, (line, step, terms)) {
        Some(kept) => readiness::put(tx, dog, &kept).await?,
        None => readiness::forget(tx, dog, line, step).await?,
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

/// A stream as it came to stand while its sittings were told, changed and removed, and decisions were taken; `None` without
/// a counted sitting.
fn retell(
    told: &[Told],
    decided: &[OffsetDateTime],
    (line, step, terms): (LineId, StepId, Terms),
) -> Option<Kept> {
    let class = terms.class;
    let mut sittings: Vec<((OffsetDateTime, PracticeLogId), CountedSitting)> = Vec::new();
    let mut kept: Option<Kept> = None;
    let mut decided = decided.iter().peekable();
    for event in told {
        while decided.next_if(|at| **at < event.at).is_some() {
            kept.iter_mut().for_each(|kept| kept.waiting = false);
        }
        let counted = event.sitting.as_ref().and_then(CountedSitting::from_sitting);
        let before = sittings.len();
        sittings.retain(|((_, log), _)| *log != event.log);
        let is_known = sittings.len() < before;
        let began = (event.began, event.log);
        let place = sittings.partition_point(|(other, _)| *other < began);
        let is_newest = !is_known && place == sittings.len();
        if let Some(counted) = counted {
            sittings.insert(place, (began, counted));
        } else if !is_known {
            continue;
        }
        kept = sittings.last().map(|((last_started_at, last_log), newest)| {
            let (last_started_at, last_log) = (*last_started_at, *last_log);
            let first =
                Kept { line, step, class, state: begun(terms), last_started_at, last_log, waiting: false };
            let old = kept.take().unwrap_or(first);
            let state = if is_newest {
                old.state.advance(newest, class)
            } else {
                begun(terms).replay(sittings.iter().map(|(_, counted)| counted), class)
            };
            let waiting = waits(&old, &state, class);
            Kept { state, last_started_at, last_log, waiting, ..old }
        });
    }
    if decided.next().is_some() {
        kept.iter_mut().for_each(|kept| kept.waiting = false);
    }
    kept
}
