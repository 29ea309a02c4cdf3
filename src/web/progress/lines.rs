//! One exercise of the plan: where it stands and how its sittings went.

use time::Date;

use crate::domain::charts::value_words;
use crate::domain::outcomes::OutcomeAdvice;
use crate::domain::vocabulary::Outcome;
use crate::store::plan::PlanItem;
use crate::store::practice_log::PracticeLog;
use crate::store::readiness::Kept;
use crate::web::chart::{Cell, Chart, Column, Row, Shape, Style, Subject, Trace, per_cent, upto};
use crate::web::practice_logs::owner_reading;

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
        rests: bool,
        logs: &[PracticeLog],
        today: Date,
    ) -> Self {
        let state = kept.iter().find(|k| k.line == item.line_id && Some(k.step) == item.step);
        let reading = match (item.outcome, state) {
            _ if rests => "It rests for now; Today says why.".to_owned(),
            (Outcome::Count, Some(kept)) => owner_reading(&kept.state, item.class),
            _ => measures.map(|advice| advice.for_owner).unwrap_or_default(),
        };
        let mine: Vec<&PracticeLog> = logs.iter().filter(|log| log.line_id == item.line_id).collect();
        let values: Vec<Value> = mine.into_iter().filter_map(value).collect();
        let skipped = values.len().saturating_sub(MOST);
        let step = match item.step_position {
            Some(n) => format!("Step {n} of {}: {}", item.steps_total, item.step_name),
            None => item.step_name.clone(),
        };
        let chart = chart(index, &item, &values[skipped..], today);
        Self { name: item.name, step, reading, chart }
    }
}

/// What came of one sitting.
struct Value<'a> {
    log: &'a PracticeLog,
    value: f64,
    /// The value in words, and how many of how many where they were counted.
    words: (String, String),
}

fn value(log: &PracticeLog) -> Option<Value<'_>> {
    match (log.sitting.counted(), log.outcome_value.zip(log.sitting.outcome)) {
        (Some((attempts, met)), _) if attempts > 0 => {
            let share = f64::from(met) * 100.0 / f64::from(attempts);
            Some(Value {
                log,
                value: share,
                words: (format!("{share:.0} %"), format!("{met} of {attempts}")),
            })
        }
        (_, Some((value, outcome))) if outcome != Outcome::Count => {
            Some(Value { log, value, words: (value_words(value, outcome), String::new()) })
        }
        _ => None,
    }
}

/// The chart, once there are two values.
fn chart(index: usize, item: &PlanItem, values: &[Value<'_>], today: Date) -> Option<Chart> {
    let (first, last) = (values.first()?, values.last()?);
    if values.len() < 2 {
        return None;
    }
    let title = match item.outcome {
        Outcome::Count => "Share that earned the “yes”, sitting by sitting",
        Outcome::Distance => "Nearest comfortable distance",
        Outcome::Duration => "Longest calm time",
        Outcome::Recovery => "Time to recover",
        Outcome::Events => "How often it happened",
    };
    let highest = values.iter().map(|value| value.value).fold(1.0, f64::max);
    let (mut columns, scale) = match item.outcome {
        Outcome::Count => (vec![drawn("Share"), Column::words("Earned the “yes”")], per_cent()),
        Outcome::Distance => (vec![drawn("How it went")], upto(highest, "m")),
        Outcome::Duration | Outcome::Recovery => (vec![drawn("How it went")], upto(highest, "min")),
        Outcome::Events => (vec![drawn("How it went")], upto(highest, "")),
    };
    columns.push(Column::words("Seen by"));
    let row = |one: &Value<'_>| {
        let (words, counted) = &one.words;
        let cell = Cell::value(one.value, words);
        let seen = one.log.sitting.trainer_seen;
        let mut cells = vec![if seen { cell.shaped(Shape::Ring) } else { cell }];
        cells.extend((item.outcome == Outcome::Count).then(|| Cell::words(counted)));
        cells.push(Cell::words(if seen { "your trainer" } else { "you" }));
        Row::on(one.log.sitting.local_date, cells)
    };
    Some(Chart::draw(Subject {
        id: index.to_string(),
        about: &item.name,
        title,
        reading: sentence(item.outcome, values),
        notes: Vec::new(),
        columns,
        rows: values.iter().map(row).collect(),
        scale,
        rules: Vec::new(),
        days: (first.log.sitting.local_date, last.log.sitting.local_date),
        marks: &[],
        shapes: Vec::new(),
        today,
    }))
}

fn drawn(head: &'static str) -> Column {
    Column::drawn(head, Style::Points(Shape::Dot, Trace::Solid))
}

/// What a chart says, in one sentence.
fn sentence(outcome: Outcome, values: &[Value<'_>]) -> String {
    let lately = &values[values.len().saturating_sub(LATELY)..];
    if outcome == Outcome::Count {
        let counted = lately.iter().filter_map(|one| one.log.sitting.counted());
        let (attempts, met) = counted
            .fold((0_i32, 0_i32), |(a, m), (attempts, met)| (a + i32::from(attempts), m + i32::from(met)));
        return format!("The last {} sittings: {met} of {attempts} earned the “yes”.", lately.len());
    }
    let words = |found: Option<&Value<'_>>| found.map_or("", |one| one.words.0.as_str()).to_owned();
    format!("From {} to {} over {} sittings.", words(values.first()), words(values.last()), values.len())
}
