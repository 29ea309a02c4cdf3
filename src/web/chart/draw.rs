//! Drawing a chart from its table.

use std::collections::HashMap;

use time::Date;

use super::frame::{BOTTOM, Frame, HEIGHT, RIGHT, TOP, WIDTH, at};
use super::{At, Row, Shape, Style, Subject, Trace};
use crate::domain::charts::Mark;
use crate::web::zones;

/// Rows of a chart, at most: more would be finer than anybody can see.
pub const MOST: usize = 200;
/// Rows from which points are drawn smaller.
const MANY: usize = 40;
/// How wide a character of a name is taken to be, at the size of the axes’ text.
const NAME_CHARACTER: f64 = 7.0;

/// A label of an axis: where it stands, what it says, and the value or day that it stands for.
pub struct Tick {
    /// Across or down.
    pub at: String,
    /// What it says.
    pub words: String,
    /// What it stands for.
    pub exact: String,
}

/// A line down: something that happened, or a change of stage.
pub struct Upright {
    /// Across.
    pub x: String,
    /// Down, where its name stands.
    pub y: String,
    /// Its name: a number that the list under the chart explains, or the stage.
    pub name: String,
    /// Which of the two.
    pub class: &'static str,
    /// Where its name begins or ends.
    pub anchor: &'static str,
}

/// Where in the table something that is drawn stands.
pub struct Spot {
    /// The row.
    pub row: usize,
    /// The column, the day being the first.
    pub column: usize,
}

/// A point.
pub struct Point {
    /// Where it stands in the table.
    pub spot: Spot,
    /// Where it stands in the drawing.
    pub transform: String,
    /// Its shape.
    pub shape: Shape,
    /// Its value.
    pub exact: f64,
}

/// One span of a band.
pub struct Span {
    /// Where it stands in the table.
    pub spot: Spot,
    /// The line from low to high.
    pub path: String,
    /// Its ends.
    pub exact: (f64, f64),
}

/// A bar.
pub struct Bar {
    /// Where it stands in the table.
    pub spot: Spot,
    /// Its left edge, top, width and height.
    pub edges: [String; 4],
    /// Its value.
    pub exact: f64,
}

/// Everything that is drawn.
#[derive(Default)]
pub struct Drawing {
    /// The left edge of the plot.
    pub left: String,
    /// Labels of the values.
    pub values: Vec<Tick>,
    /// Labels of the days: the first and the last.
    pub days: Vec<Tick>,
    /// Lines across.
    pub rules: Vec<Tick>,
    /// Lines down.
    pub uprights: Vec<Upright>,
    /// Areas of bands.
    pub areas: Vec<String>,
    /// Spans of bands.
    pub spans: Vec<Span>,
    /// Bars.
    pub bars: Vec<Bar>,
    /// Lines through points, with their class.
    pub traces: Vec<(&'static str, String)>,
    /// Points.
    pub points: Vec<Point>,
}

/// A sample of the key.
pub struct Key {
    /// The shape of a point, where it has one.
    pub shape: Option<Shape>,
    /// The class of its line, where it has one.
    pub trace: Option<&'static str>,
    /// Whether it is a band, a bar or a rule: the class of the sample.
    pub kind: &'static str,
    /// What it stands for.
    pub words: String,
}

/// A row of the table as it is shown.
pub struct Shown {
    /// The day.
    pub day: String,
    /// The row of the drawing; `None` for something that happened.
    pub row: Option<usize>,
    /// The cells: words, and whether they are drawn.
    pub cells: Vec<(String, bool)>,
}

/// A chart with its sentence and its table.
pub struct Chart {
    /// What tells it from others on the page.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The same with what it is of, for whoever hears it alone.
    pub full_title: String,
    /// What it says, in one sentence.
    pub reading: String,
    /// What else is to be known of it.
    pub notes: Vec<String>,
    /// What happened beside it, by number.
    pub marks: Vec<(usize, String, String)>,
    /// The headings of the table, and whether the column is drawn.
    pub heads: Vec<(&'static str, bool)>,
    /// The rows of the table.
    pub rows: Vec<Shown>,
    /// What is drawn.
    pub drawing: Drawing,
    /// What shapes and lines mean; empty where there is nothing to tell apart.
    pub key: Vec<Key>,
}

impl Chart {
    /// Draws it.
    pub fn draw(subject: Subject<'_>) -> Self {
        let mut subject = subject;
        let cut = subject.rows.len().saturating_sub(MOST);
        if cut > 0 {
            subject.notes.push(format!("The newest {MOST} of {} are shown.", subject.rows.len()));
            subject.rows.drain(..cut);
            subject.days.0 = subject.rows[0].on;
        }
        let (from, to) = subject.days;
        let marks: Vec<(usize, &Mark)> =
            (1..).zip(subject.marks.iter().filter(|mark| (from..=to).contains(&mark.on))).collect();
        let day = |on: Date| zones::day(on, subject.today);
        Self {
            full_title: match subject.about {
                "" => subject.title.to_owned(),
                about => format!("{about}: {}", in_lower(subject.title)),
            },
            heads: subject.columns.iter().map(|column| (column.head, column.style != Style::Words)).collect(),
            rows: table(&subject, &marks),
            drawing: drawing(&subject, &marks),
            key: key(&subject),
            marks: marks.iter().map(|(n, mark)| (*n, day(mark.on), mark.words.clone())).collect(),
            title: subject.title.to_owned(),
            id: subject.id,
            reading: subject.reading,
            notes: subject.notes,
        }
    }

    /// The drawing's `viewBox`.
    pub fn view_box(&self) -> String {
        format!("0 0 {WIDTH} {HEIGHT}")
    }

    /// Where lines across end, and where lines down begin and end.
    pub fn edges(&self) -> (f64, f64, f64) {
        (RIGHT, TOP, BOTTOM)
    }
}

fn in_lower(title: &str) -> String {
    let mut letters = title.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// The table, with what happened among its rows.
fn table(subject: &Subject<'_>, marks: &[(usize, &Mark)]) -> Vec<Shown> {
    let drawn: Vec<bool> = subject.columns.iter().map(|column| column.style != Style::Words).collect();
    let mut shown = Vec::new();
    let mut marks = marks.iter().peekable();
    let mut mark = |until: Option<Date>, shown: &mut Vec<Shown>| {
        while let Some((n, mark)) = marks.next_if(|(_, mark)| until.is_none_or(|until| mark.on <= until)) {
            let words = format!("{n}: {}", mark.words);
            let day = zones::day(mark.on, subject.today);
            shown.push(Shown { day, row: None, cells: vec![(words, false)] });
        }
    };
    for (row, one) in subject.rows.iter().enumerate() {
        mark(Some(one.on), &mut shown);
        let cells = one.cells.iter().zip(&drawn).map(|(cell, drawn)| (cell.words.clone(), *drawn)).collect();
        shown.push(Shown { day: zones::day(one.on, subject.today), row: Some(row), cells });
    }
    mark(None, &mut shown);
    shown
}

/// Where the rows stand across: those of a day side by side.
fn across(rows: &[Row], frame: &Frame) -> Vec<f64> {
    let mut of: HashMap<Date, usize> = HashMap::new();
    rows.iter().for_each(|row| *of.entry(row.on).or_default() += 1);
    let mut nth: HashMap<Date, usize> = HashMap::new();
    let place = |row: &Row| {
        let before = nth.entry(row.on).or_default();
        *before += 1;
        frame.x(row.on, *before - 1, of[&row.on])
    };
    rows.iter().map(place).collect()
}

fn drawing(subject: &Subject<'_>, marks: &[(usize, &Mark)]) -> Drawing {
    let frame = Frame::new(subject.days, &subject.scale);
    let xs = across(&subject.rows, &frame);
    let (from, to) = subject.days;
    let tick = |value: &f64, words: &str| Tick {
        at: at(frame.y(*value)),
        words: words.to_owned(),
        exact: value.to_string(),
    };
    let day = |on: Date| Tick {
        at: at(frame.x(on, 0, 1)),
        words: zones::day(on, subject.today),
        exact: on.to_string(),
    };
    let mut drawing = Drawing {
        left: at(frame.left),
        values: subject.scale.iter().map(|(value, words)| tick(value, words)).collect(),
        rules: subject.rules.iter().map(|(value, words)| tick(value, words)).collect(),
        days: if from == to { vec![day(from)] } else { vec![day(from), day(to)] },
        uprights: uprights(subject, &xs, &frame, marks),
        ..Drawing::default()
    };
    for (column, style) in subject.columns.iter().map(|column| column.style).enumerate() {
        match style {
            Style::Words => {}
            Style::Points(shape, trace) => points(&mut drawing, subject, &xs, &frame, (column, shape, trace)),
            Style::Band => band(&mut drawing, subject, &xs, &frame, column),
            Style::Bars => bars(&mut drawing, subject, &xs, &frame, column),
        }
    }
    drawing
}

fn uprights(subject: &Subject<'_>, xs: &[f64], frame: &Frame, marks: &[(usize, &Mark)]) -> Vec<Upright> {
    let upright = |x: f64, y: f64, name: String, class| {
        // near the right edge a name stands before its line
        let anchor = if x > RIGHT - 60.0 { "end" } else { "start" };
        Upright { x: at(x), y: at(y), name, class, anchor }
    };
    let mut found: Vec<Upright> = marks
        .iter()
        .map(|(n, mark)| upright(frame.x(mark.on, 0, 1), TOP - 30.0, n.to_string(), "mark"))
        .collect();
    let mut names = Names::default();
    for (n, pair) in subject.rows.windows(2).enumerate() {
        if pair[0].stage != pair[1].stage {
            let x = (xs[n + 1] - 6.0).max(f64::midpoint(xs[n], xs[n + 1]));
            let (y, name) = match names.height(x, &pair[1].stage) {
                Some(y) => (y, pair[1].stage.clone()),
                // the line stands; what it changes to is in the table
                None => (TOP, String::new()),
            };
            found.push(upright(x, y, name, "change"));
        }
    }
    found
}

/// The two heights at which changes are named, and where the last name at each ends.
struct Names([(f64, f64); 2]);

impl Default for Names {
    fn default() -> Self {
        Self([TOP - 7.0, TOP - 19.0].map(|y| (y, f64::NEG_INFINITY)))
    }
}

impl Names {
    /// A height at which a name at `x` runs into no other, where there is one.
    fn height(&mut self, x: f64, name: &str) -> Option<f64> {
        let long = NAME_CHARACTER * name.chars().count() as f64 + 6.0;
        let (begins, ends) = if x > RIGHT - 60.0 { (x - long, x) } else { (x, x + long) };
        let (y, taken) = self.0.iter_mut().find(|(_, taken)| *taken <= begins)?;
        *taken = ends;
        Some(*y)
    }
}

fn points(
    drawing: &mut Drawing,
    subject: &Subject<'_>,
    xs: &[f64],
    frame: &Frame,
    (column, shape, trace): (usize, Shape, Trace),
) {
    let small = if subject.rows.len() > MANY { " scale(.6)" } else { "" };
    let (mut path, mut stage) = (String::new(), None);
    for (row, one) in subject.rows.iter().enumerate() {
        let At::Value(exact) = one.cells[column].at else { continue };
        let (x, y) = (at(xs[row]), at(frame.y(exact)));
        let begins = stage != Some(&one.stage);
        path.push_str(&format!("{}{x} {y}", if begins { "M" } else { "L" }));
        stage = Some(&one.stage);
        drawing.points.push(Point {
            spot: Spot { row, column: column + 1 },
            transform: format!("translate({x} {y}){small}"),
            shape: one.cells[column].shape.unwrap_or(shape),
            exact,
        });
    }
    if let Some(class) = trace.class().filter(|_| !path.is_empty()) {
        drawing.traces.push((class, path));
    }
}

fn band(drawing: &mut Drawing, subject: &Subject<'_>, xs: &[f64], frame: &Frame, column: usize) {
    let mut runs: Vec<(&str, Vec<[String; 3]>)> = Vec::new();
    for (row, one) in subject.rows.iter().enumerate() {
        let At::Between(low, high) = one.cells[column].at else { continue };
        let ends = [at(xs[row]), at(frame.y(low)), at(frame.y(high))];
        let path = format!("M{} {}V{}", ends[0], ends[1], ends[2]);
        drawing.spans.push(Span { spot: Spot { row, column: column + 1 }, path, exact: (low, high) });
        match runs.last_mut().filter(|(stage, _)| *stage == one.stage) {
            Some((_, run)) => run.push(ends),
            None => runs.push((&one.stage, vec![ends])),
        }
    }
    for (_, run) in runs.iter().filter(|(_, run)| run.len() > 1) {
        let low = run.iter().map(|[x, low, _]| format!("{x} {low}"));
        let high = run.iter().rev().map(|[x, _, high]| format!("{x} {high}"));
        drawing.areas.push(format!("M{}z", low.chain(high).collect::<Vec<_>>().join("L")));
    }
}

fn bars(drawing: &mut Drawing, subject: &Subject<'_>, xs: &[f64], frame: &Frame, column: usize) {
    let most = subject.rows.chunk_by(|one, other| one.on == other.on).map(<[Row]>::len).max().unwrap_or(1);
    let width = (frame.slot() * 0.8 / most as f64).clamp(1.5, 10.0);
    for (row, one) in subject.rows.iter().enumerate() {
        let At::Value(exact) = one.cells[column].at else { continue };
        let top = frame.y(exact);
        // nothing is drawn as a thin line, so that it can be told from what was not stated
        let edges = [xs[row] - width / 2.0, top, width, BOTTOM - top].map(at);
        drawing.bars.push(Bar { spot: Spot { row, column: column + 1 }, edges, exact });
    }
}

/// What shapes and lines mean.
fn key(subject: &Subject<'_>) -> Vec<Key> {
    let mut key = Vec::new();
    for column in &subject.columns {
        let words = column.head.to_owned();
        match column.style {
            Style::Words => {}
            Style::Points(shape, trace) => {
                key.push(Key { shape: Some(shape), trace: trace.class(), kind: "", words });
            }
            Style::Band => key.push(Key { shape: None, trace: None, kind: "band", words }),
            Style::Bars => key.push(Key { shape: None, trace: None, kind: "bar", words }),
        }
    }
    for (shape, words) in &subject.shapes {
        key.push(Key { shape: Some(*shape), trace: None, kind: "", words: (*words).to_owned() });
    }
    for (_, words) in &subject.rules {
        key.push(Key { shape: None, trace: None, kind: "limit", words: words.clone() });
    }
    if subject.rows.windows(2).any(|pair| pair[0].stage != pair[1].stage) {
        key.push(Key { shape: None, trace: None, kind: "change", words: "Another step begins".to_owned() });
    }
    if key.len() > 1 { key } else { Vec::new() }
}

#[cfg(test)]
mod tests;
