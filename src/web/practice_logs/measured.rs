//! What is read of an instruction's measured sittings, for its advice.

use crate::domain::outcomes::{OutcomeAdvice, advise_on};
use crate::domain::vocabulary::Outcome;
use crate::store::plan::PlanItem;
use crate::store::practice_log::Wanted;
use crate::store::{Result, Tx, practice_log, readiness};

/// How many of the last sittings are read.
const READ: i64 = 60;

/// What the measures of an instruction at its step say; `None` where nothing is measured, or it is counted.
pub async fn advice(tx: &mut Tx, item: &PlanItem) -> Result<Option<OutcomeAdvice>> {
    let Some(step) = item.step.filter(|_| item.outcome != Outcome::Count) else { return Ok(None) };
    let terms = readiness::terms(tx, item.dog, item.line_id, step).await?;
    let stream = Wanted::Stream(item.line_id, step, terms.since);
    let mut logs = practice_log::of_dog(tx, item.dog, stream, READ).await?;
    logs.reverse();
    Ok(advise_on(item.outcome, logs.iter().map(|log| (&log.sitting, log.outcome_value)), item.minutes))
}
