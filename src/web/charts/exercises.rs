//! The charts of each exercise: success and evidence where attempts are counted, the measure where something is measured.

use crate::domain::charts::{
    Charted, Evidence, PlannedLine, evidence, evidence_says, measured, successes, successes_say, value_words,
};
use crate::domain::outcomes::Ease;
use crate::domain::readiness::{PlaceMatch, limit};
use crate::domain::sitting::Sitting;
use crate::domain::vocabulary::{Busy, Outcome};
use crate::ids::LineId;
use crate::web::chart::{Cell, Chart, Column, Row, Shape, Style, Subject, Trace, per_cent, upto};
use crate::web::charts::{Frame, Item};

/// Exercises on one page, at most: those of the current plan first, then those practised last.
const MOST: usize = 12;

const SUCCESS: &str = "Success by sitting";
const EVIDENCE: &str = "Evidence for a harder step";

/// One exercise and its charts.
pub struct Exercise {
    /// What it is called.
    pub name: String,
    /// Where it stands: "Step 3 of 6: …", or that the plan has it no more.
    pub step: String,
    /// Its charts.
    pub charts: Vec<Item>,
}

/// The exercises, those of the current plan first; and how many more there are.
pub fn of(frame: &Frame<'_>) -> (Vec<Exercise>, usize) {
    let planned = &frame.known.planned;
    let plan = planned.last().map_or(0, |line| line.plan);
    let mut lines: Vec<LineId> =
        planned.iter().filter(|line| line.plan == plan).map(|line| line.line).collect();
    for sitting in frame.sittings().into_iter().rev() {
        let line = sitting.sitting.plan_line.filter(|line| planned.iter().any(|known| known.line == *line));
        lines.extend(line.filter(|line| !lines.contains(line)));
    }
    let left_out = lines.len().saturating_sub(MOST);
    lines.truncate(MOST);
    let exercises = lines.into_iter().enumerate().filter_map(|(id, line)| exercise(frame, id, line, plan));
    (exercises.collect(), left_out)
}

fn exercise(frame: &Frame<'_>, id: usize, line: LineId, plan: i32) -> Option<Exercise> {
    let of_line: Vec<&PlannedLine> = frame.known.planned.iter().filter(|known| known.line == line).collect();
    let latest = *of_line.last()?;
    let now = Some(latest).filter(|latest| latest.plan == plan);
    let all: Vec<&Charted> =
        frame.known.sittings.iter().filter(|one| one.sitting.plan_line == Some(line)).collect();
    let step = match (now, latest.step_position) {
        (None, _) => "Not in the current plan".to_owned(),
        (_, Some(n)) => format!("Step {n} of {}: {}", latest.steps_total, latest.step_name),
        (_, None) => latest.step_name.clone(),
    };
    let one = One { frame, id, name: &latest.name, outcome: latest.outcome, all };
    let charts = match latest.outcome {
        Outcome::Count => vec![one.success(), one.evidence(&of_line, now)],
        _ => vec![one.measure()],
    };
    Some(Exercise { name: latest.name.clone(), step, charts })
}

/// One exercise with all its sittings.
struct One<'a> {
    frame: &'a Frame<'a>,
    id: usize,
    name: &'a str,
    outcome: Outcome,
    all: Vec<&'a Charted>,
}

impl<'a> One<'a> {
    fn subject(&self, id: &str, title: &'a str) -> Subject<'a> {
        Subject {
            id: format!("{id}-{}", self.id),
            about: self.name,
            title,
            reading: String::new(),
            notes: Vec::new(),
            columns: Vec::new(),
            rows: Vec::new(),
            scale: per_cent(),
            rules: Vec::new(),
            days: self.frame.days,
            marks: &self.frame.known.marks,
            shapes: Vec::new(),
            today: self.frame.today(),
        }
    }

    fn shown(&self) -> Vec<&'a Charted> {
        self.all.iter().copied().filter(|one| self.frame.has(one.sitting.local_date)).collect()
    }

    fn success(&self) -> Item {
        let shown = self.shown();
        let points = successes(&shown);
        if points.is_empty() {
            return self.frame.nothing(SUCCESS, "No counted sitting");
        }
        let row = |one: &crate::domain::charts::Success<'_>| {
            let (low, high) = (one.likely.low * 100.0, one.likely.high * 100.0);
            let share = Cell::value(one.share(), format!("{:.0} %", one.share()));
            Row {
                on: one.of.sitting.local_date,
                stage: stage(&one.of.sitting),
                cells: vec![
                    if one.of.sitting.trainer_seen { share.shaped(Shape::Ring) } else { share },
                    Cell::between(low, high, format!("{low:.0}–{high:.0} %")),
                    Cell::words(format!("{} of {}", one.met, one.attempts)),
                    Cell::words(step_words(one.of)),
                    Cell::words(place_words(&one.of.sitting)),
                    seen(one.of.sitting.trainer_seen),
                ],
            }
        };
        chart(Subject {
            reading: successes_say(&points),
            columns: vec![
                Column::drawn("Share met", Style::Points(Shape::Dot, Trace::Solid)),
                Column::drawn("Likely range (95 %)", Style::Band),
                Column::words("Met"),
                Column::words("Step"),
                Column::words("Place"),
                Column::words("Seen by a trainer"),
            ],
            shapes: [(Shape::Ring, "Seen by a trainer")]
                .into_iter()
                .filter(|_| points.iter().any(|one| one.of.sitting.trainer_seen))
                .collect(),
            rows: points.iter().map(row).collect(),
            ..self.subject("success", SUCCESS)
        })
    }

    fn evidence(&self, planned: &[&PlannedLine], now: Option<&PlannedLine>) -> Item {
        // all of them are played, since evidence gathers from its beginning; these days are drawn
        let all = evidence(&self.all, planned);
        let shown: Vec<&Evidence<'_>> =
            all.iter().filter(|one| self.frame.has(one.of.sitting.local_date)).collect();
        if shown.is_empty() {
            return self.frame.nothing(EVIDENCE, "No counted sitting");
        }
        let mut limits: Vec<f64> = shown.iter().map(|one| limit(one.class)).collect();
        limits.sort_by(f64::total_cmp);
        limits.dedup();
        let highest = limits.last().copied().unwrap_or_default();
        chart(Subject {
            reading: evidence_says(&all, planned, now, self.frame.today()),
            notes: anew(&shown),
            columns: vec![
                Column::drawn("Evidence after it", Style::Points(Shape::Dot, Trace::Solid)),
                Column::words("Met"),
                Column::words("Step"),
                Column::words("Limit"),
                Column::words("Counted"),
            ],
            shapes: [(Shape::Ring, "Shown, not counted: the place was easier than planned, or not stated")]
                .into_iter()
                .filter(|_| shown.iter().any(|one| one.place != PlaceMatch::AsHard))
                .collect(),
            rows: shown.iter().map(|one| evidence_row(one)).collect(),
            scale: upto(highest.ceil(), ""),
            rules: limits.iter().map(|limit| (*limit, format!("Limit {limit:.2}"))).collect(),
            ..self.subject("evidence", EVIDENCE)
        })
    }

    fn measure(&self) -> Item {
        let title = match self.outcome {
            Outcome::Distance => "Nearest comfortable distance",
            Outcome::Duration => "Longest calm time",
            Outcome::Recovery => "Time to recover",
            Outcome::Count | Outcome::Events => "How often it happened in a day",
        };
        let shown: Vec<&Charted> = self.shown().into_iter().filter(|one| one.value.is_some()).collect();
        let reading = measured(self.outcome, &shown);
        if reading.is_empty() {
            return self.frame.nothing(title, "Nothing was measured");
        }
        let row = |one: &&Charted| {
            let value = one.value?;
            let cell = Cell::value(value, value_words(value, self.outcome));
            let reacted = Ease::of(&one.sitting) == Ease::Reaction;
            Some(Row {
                on: one.sitting.local_date,
                stage: stage(&one.sitting),
                cells: vec![
                    if reacted { cell.shaped(Shape::Cross) } else { cell },
                    Cell::words(ease_words(&one.sitting)),
                    Cell::words(step_words(one)),
                    seen(one.sitting.trainer_seen),
                ],
            })
        };
        let highest = shown.iter().filter_map(|one| one.value).fold(1.0, f64::max);
        let unit = match self.outcome {
            Outcome::Distance => "m",
            Outcome::Duration | Outcome::Recovery => "min",
            Outcome::Count | Outcome::Events => "",
        };
        chart(Subject {
            reading,
            columns: vec![
                Column::drawn(title, Style::Points(Shape::Dot, Trace::Solid)),
                Column::words("How the dog was"),
                Column::words("Step"),
                Column::words("Seen by a trainer"),
            ],
            shapes: [(Shape::Cross, "It was too much that time: a reaction")]
                .into_iter()
                .filter(|_| shown.iter().any(|one| Ease::of(&one.sitting) == Ease::Reaction))
                .collect(),
            rows: shown.iter().filter_map(row).collect(),
            scale: upto(highest, unit),
            ..self.subject("measure", title)
        })
    }
}

fn chart(subject: Subject<'_>) -> Item {
    Item::Chart(Box::new(Chart::draw(subject)))
}

/// The step as a change to another is marked.
fn stage(sitting: &Sitting) -> String {
    sitting.planned.step_position.map(|n| format!("step {n}")).unwrap_or_default()
}

fn step_words(one: &Charted) -> String {
    match one.sitting.planned.step_position {
        Some(n) => format!("{n}: {}", one.step_name),
        None => one.step_name.clone(),
    }
}

fn place_words(sitting: &Sitting) -> String {
    let busy = match sitting.busy {
        Some(Busy::Quiet) => ", quiet",
        Some(Busy::Usual) => ", as usual",
        Some(Busy::Busy) => ", busy",
        None => "",
    };
    match sitting.place_distraction {
        Some(rating) => format!("rated {rating} of 5{busy}"),
        None => format!("not stated{busy}"),
    }
}

fn ease_words(sitting: &Sitting) -> &'static str {
    match Ease::of(sitting) {
        Ease::Easy => "at ease",
        Ease::NotEasy => "not at ease",
        Ease::Reaction => "a reaction",
        Ease::NotStated => "not stated",
    }
}

fn seen(by_trainer: bool) -> Cell {
    Cell::words(if by_trainer { "yes" } else { "no" })
}

fn evidence_row(one: &Evidence<'_>) -> Row {
    let cell = Cell::value(one.state.score, format!("{:.2}", one.state.score));
    let counts = match one.place {
        PlaceMatch::AsHard => "yes",
        PlaceMatch::Easier => "no: an easier place",
        PlaceMatch::NotStated => "no: place not stated",
    };
    let met = one.of.sitting.counted().map(|(attempts, met)| format!("{met} of {attempts}"));
    Row {
        on: one.of.sitting.local_date,
        stage: stage_of(one),
        cells: vec![
            if one.place == PlaceMatch::AsHard { cell } else { cell.shaped(Shape::Ring) },
            Cell::words(met.unwrap_or_default()),
            Cell::words(step_words(one.of)),
            Cell::words(format!("{:.2}", limit(one.class))),
            Cell::words(counts),
        ],
    }
}

/// The step; where its evidence began with a later plan, that as well.
fn stage_of(one: &Evidence<'_>) -> String {
    let step = stage(&one.of.sitting);
    if one.begun.1 > 0 { format!("{step}, plan {}", one.begun.1) } else { step }
}

/// That evidence began anew, where it did.
fn anew(shown: &[&Evidence<'_>]) -> Vec<String> {
    let begins = shown.windows(2).any(|pair| pair[0].begun != pair[1].begun);
    let says = "Evidence begins anew with the plan that brings the line to another step or changes what earns the marker: lines \
                are not drawn across that.";
    begins.then(|| says.to_owned()).into_iter().collect()
}
