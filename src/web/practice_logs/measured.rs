//! What is read of the measured sittings of instructions, for their advice.

use std::collections::HashMap;

use crate::domain::outcomes::{OutcomeAdvice, advise_on};
use crate::domain::vocabulary::Outcome;
use crate::ids::PlanItemId;
use crate::store::plan::PlanItem;
use crate::store::{Result, Tx, practice_log, readiness, reading};

/// How many of the last sittings of each are read.
const READ: i64 = 60;

/// What the measures of instructions at their steps say, by the item; those that are counted, or that nothing was measured of, are
/// left out. Two statements, however many they are, and none where nothing is measured.
pub async fn advice(tx: &mut Tx, items: &[PlanItem]) -> Result<HashMap<PlanItemId, OutcomeAdvice>> {
    let measured = items.iter().filter(|item| item.outcome != Outcome::Count);
    let measured: Vec<_> = measured.filter_map(|item| Some((item, item.step?))).collect();
    let terms = measured.iter().map(|(item, step)| readiness::terms(item.dog, item.line_id, *step));
    let terms = reading::all(terms.collect()).read(tx).await?;
    let streams = measured.iter().zip(terms).map(|((item, step), terms)| {
        practice_log::stream(item.dog, (item.line_id, *step), terms.since, READ)
    });
    let streams = reading::all(streams.collect()).read(tx).await?;
    let advised = measured.into_iter().zip(streams).filter_map(|((item, _), logs)| {
        let sittings = logs.iter().rev().map(|log| (&log.sitting, log.outcome_value));
        Some((item.id, advise_on(item.outcome, sittings, item.minutes)?))
    });
    Ok(advised.collect())
}
