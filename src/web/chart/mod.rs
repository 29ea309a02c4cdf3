//! Charts, drawn on the server as SVG: a heading, one sentence, the drawing, a key, and the table that it is drawn from.
//!
//! Drawn by hand: the SVG that charting crates write has no title, no description and no classes for our colours, and
//! a screen reader needs the first two as much as dark mode needs the third. A chart is made of its table: a column says how
//! it is drawn, so that the two cannot say different things. Kinds of points differ in shape and lines in their dashes, never
//! in colour alone. Every mark carries its exact value, its row and its column, so that a test can hold the drawing to them.

mod calendar;
mod draw;
mod frame;
mod scale;
mod shape;

use time::Date;

use crate::domain::charts::Mark;

pub use calendar::Calendar;
pub use draw::{Chart, Drawing};
pub use scale::{Scale, between, per_cent, upto};
pub use shape::{Shape, Trace};

/// How a column of the table is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// Not at all: words.
    Words,
    /// Points, and the line through them.
    Points(Shape, Trace),
    /// A band from a low to a high value.
    Band,
    /// Bars from the bottom.
    Bars,
}

/// A column of the table.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    /// Its heading.
    pub head: &'static str,
    /// How it is drawn.
    pub style: Style,
}

impl Column {
    /// A column of words.
    pub const fn words(head: &'static str) -> Self {
        Self { head, style: Style::Words }
    }

    /// A column that is drawn.
    pub const fn drawn(head: &'static str, style: Style) -> Self {
        Self { head, style }
    }
}

/// Where a cell lies in the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum At {
    /// Nowhere.
    Nowhere,
    /// At a value.
    Value(f64),
    /// From one value to another.
    Between(f64, f64),
}

/// A cell of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// What it says.
    pub words: String,
    /// Where it lies in the drawing.
    pub at: At,
    /// The shape of its point, where it is not the column's.
    pub shape: Option<Shape>,
}

impl Cell {
    /// Words alone.
    pub fn words(words: impl Into<String>) -> Self {
        Self { words: words.into(), at: At::Nowhere, shape: None }
    }

    /// A value with the words for it.
    pub fn value(value: impl Into<f64>, words: impl Into<String>) -> Self {
        Self { words: words.into(), at: At::Value(value.into()), shape: None }
    }

    /// A band with the words for it.
    pub fn between(low: f64, high: f64, words: impl Into<String>) -> Self {
        Self { words: words.into(), at: At::Between(low, high), shape: None }
    }

    /// What was not stated.
    pub fn unstated() -> Self {
        Self::words("not stated")
    }

    /// The same with a point of another shape.
    #[must_use]
    pub fn shaped(self, shape: Shape) -> Self {
        Self { shape: Some(shape), ..self }
    }
}

/// A row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its day.
    pub on: Date,
    /// What it belongs to: lines run within one stage, and a change is marked with its name, such as "step 2". Empty for none.
    pub stage: String,
    /// Its cells, one a column.
    pub cells: Vec<Cell>,
}

impl Row {
    /// A row that belongs to no stage.
    pub fn on(on: Date, cells: Vec<Cell>) -> Self {
        Self { on, stage: String::new(), cells }
    }
}

/// What a chart is made of.
#[derive(Debug, Clone)]
pub struct Subject<'a> {
    /// What tells it from others on the page.
    pub id: String,
    /// Whose or what it is of, where its title alone does not say.
    pub about: &'a str,
    /// Its title.
    pub title: &'a str,
    /// What it says, in one sentence.
    pub reading: String,
    /// What else is to be known of it, a sentence each.
    pub notes: Vec<String>,
    /// The columns beside the day.
    pub columns: Vec<Column>,
    /// The rows, oldest first.
    pub rows: Vec<Row>,
    /// Its scale, upwards.
    pub scale: Scale,
    /// Lines across, with their words.
    pub rules: Vec<(f64, String)>,
    /// The days that it spreads over, both included.
    pub days: (Date, Date),
    /// What happened beside it.
    pub marks: &'a [Mark],
    /// What shapes mean that are not their column's.
    pub shapes: Vec<(Shape, &'static str)>,
    /// The present day.
    pub today: Date,
}
