//! One exercise of the plan: where it stands and how its sittings went.

use time::Date;

use crate::domain::outcomes::OutcomeAdvice;
use crate::domain::vocabulary::Outcome;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::store::readiness::Kept;
use crate::web::chart::{Chart, Subject, Value};
use crate::web::practice_logs::owner_reading;
use crate::web::zones;

/// The most sittings in one chart: more would be too fine for a phone.
const MOST: usize = 24;
/// How many sittings the sentence under a chart sums up.
const LATELY: usize = 5;

/// One exercise.
pub struct Line {
    /// What it is called.
    pub name: String,
    /// Which rung: "Step 2 of 6: across the garden".
    pub step: String,
    /// Where it stands, in the owner's words.
    pub reading: String,
    /// Its sittings, once there are two.
    pub chart: Option<Chart>,
}

impl Line {
    /// An exercise from all its sittings, oldest first.
    pub fn new(
        index: usize,
        item: PlanItem,
        (kept, measures): (&[Kept], Option<OutcomeAdvice>),
        logs: &[PracticeLog],
        today: Date,
    ) -> Self {
        let state = kept.iter().find(|k| k.line == item.line_id && Some(k.step) == item.step);
        let reading = match (item.outcome, state) {
            (Outcome::Count, Some(kept)) => owner_reading(&kept.state, item.class),
            _ => measures.map(|advice| advice.for_owner).unwrap_or_default(),
        };
        let mine: Vec<&PracticeLog> = logs.iter().filter(|log| log.line_id == item.line_id).collect();
        let values: Vec<(&PracticeLog, Value)> =
            mine.into_iter().filter_map(|log| value(log, today).map(|value| (log, value))).collect();
        let skipped = values.len().saturating_sub(MOST);
        let values: Vec<(&PracticeLog, Value)> = values.into_iter().skip(skipped).collect();
        let step = match item.step_position {
            Some(n) => format!("Step {n} of {}: {}", item.steps_total, item.step_name),
            None => item.step_name.clone(),
        };
        let chart = (values.len() >= 2).then(|| Chart::draw(index, subject(&item, values)));
        Self { name: item.name, step, reading, chart }
    }
}

/// A value with its unit.
fn value_words(value: f64, outcome: Outcome) -> String {
    match outcome {
        Outcome::Count => format!("{value}"),
        Outcome::Distance => format!("{value} m"),
        Outcome::Duration | Outcome::Recovery => format!("{value} min"),
        Outcome::Events => format!("{value} times"),
    }
}

fn value(log: &PracticeLog, today: Date) -> Option<Value> {
    let day = zones::day(log.sitting.local_date, today);
    let note = if log.sitting.trainer_seen { "your trainer" } else { "" };
    match (log.sitting.counted(), log.outcome_value.zip(log.sitting.outcome)) {
        (Some((attempts, met)), _) if attempts > 0 => {
            let share = f64::from(met) * 100.0 / f64::from(attempts);
            Some(Value { day, value: share, words: format!("{met} of {attempts}"), note })
        }
        (_, Some((value, outcome))) if outcome != Outcome::Count => {
            Some(Value { day, value, words: value_words(value, outcome), note })
        }
        _ => None,
    }
}

fn subject(item: &PlanItem, values: Vec<(&PracticeLog, Value)>) -> Subject {
    let title = match item.outcome {
        Outcome::Count => format!("{}: share that earned the “yes”, sitting by sitting", item.name),
        Outcome::Distance => format!("{}: nearest comfortable distance", item.name),
        Outcome::Duration => format!("{}: longest calm time", item.name),
        Outcome::Recovery => format!("{}: time to recover", item.name),
        Outcome::Events => format!("{}: how often it happened", item.name),
    };
    let (unit, scale) = match item.outcome {
        Outcome::Count => {
            ("Earned the “yes”", vec![(0.0, "0 %".into()), (50.0, "50 %".into()), (100.0, "100 %".into())])
        }
        outcome => {
            let highest = values.iter().map(|(_, value)| value.value).fold(1.0, f64::max).ceil();
            ("How it went", vec![(0.0, value_words(0.0, outcome)), (highest, value_words(highest, outcome))])
        }
    };
    Subject {
        title,
        reading: sentence(item.outcome, &values),
        unit,
        scale,
        values: values.into_iter().map(|(_, v)| v).collect(),
    }
}

/// What a chart says, in one sentence.
fn sentence(outcome: Outcome, values: &[(&PracticeLog, Value)]) -> String {
    let lately = &values[values.len().saturating_sub(LATELY)..];
    if outcome == Outcome::Count {
        let counted = lately.iter().filter_map(|(log, _)| log.sitting.counted());
        let (attempts, met) = counted
            .fold((0_i32, 0_i32), |(a, m), (attempts, met)| (a + i32::from(attempts), m + i32::from(met)));
        return format!("The last {} sittings: {met} of {attempts} earned the “yes”.", lately.len());
    }
    let words =
        |found: Option<&(&PracticeLog, Value)>| found.map_or("", |(_, v)| v.words.as_str()).to_owned();
    format!("From {} to {} over {} sittings.", words(values.first()), words(values.last()), values.len())
}
