//! A small line chart, drawn on the server as SVG.
//!
//! Drawn by hand: the SVG that charting crates write has no title, no description and no classes for our colours, and
//! a screen reader needs the first two as much as dark mode needs the third.

/// Size of the drawing, in its own units; the same on a phone and a desk, so that words stay readable.
const WIDTH: f64 = 360.0;
const HEIGHT: f64 = 168.0;
/// The plot within it: left, right, top, bottom.
const PLOT: (f64, f64, f64, f64) = (44.0, 348.0, 12.0, 136.0);

/// One value, as it was measured.
pub struct Value {
    /// The day, as people read it.
    pub day: String,
    /// The value.
    pub value: f64,
    /// The value in words.
    pub words: String,
    /// A word more for the table: who saw it.
    pub note: &'static str,
}

/// A point of the drawing.
pub struct Point {
    /// Across.
    pub x: String,
    /// Down.
    pub y: String,
    /// Whether it is drawn hollow: seen by a trainer.
    pub hollow: bool,
}

/// A line across, with its words.
pub struct Rule {
    /// Down.
    pub y: String,
    /// What it stands for.
    pub words: String,
}

/// A chart with its sentence and its table.
pub struct Chart {
    /// What tells it from others on the page.
    pub id: usize,
    /// Its title.
    pub title: String,
    /// What it says, in one sentence.
    pub reading: String,
    /// The heading of the values in the table.
    pub unit: &'static str,
    /// The values, oldest first.
    pub values: Vec<Value>,
    /// The points.
    pub points: Vec<Point>,
    /// The line through them, as an SVG path.
    pub path: String,
    /// The lines across.
    pub rules: Vec<Rule>,
}

/// What a chart is made of.
pub struct Subject {
    /// Its title.
    pub title: String,
    /// What it says, in one sentence.
    pub reading: String,
    /// The heading of the values in the table.
    pub unit: &'static str,
    /// The values of the lines across, with their words: the last one is the top.
    pub scale: Vec<(f64, String)>,
    /// The values, oldest first.
    pub values: Vec<Value>,
}

impl Chart {
    /// Draws it. Values stand side by side, a sitting each.
    pub fn draw(id: usize, subject: Subject) -> Self {
        let Subject { title, reading, unit, scale, values } = subject;
        let top = scale.last().map_or(1.0, |(value, _)| *value).max(f64::EPSILON);
        let (left, right, above, below) = PLOT;
        let y = |value: f64| below - (value / top).clamp(0.0, 1.0) * (below - above);
        let gaps = values.len().saturating_sub(1).max(1) as f64;
        let x = |index: usize| left + 8.0 + (right - left - 16.0) * index as f64 / gaps;
        let points: Vec<Point> = values
            .iter()
            .enumerate()
            .map(|(index, value)| Point {
                x: format!("{:.1}", x(index)),
                y: format!("{:.1}", y(value.value)),
                hollow: !value.note.is_empty(),
            })
            .collect();
        let path = points
            .iter()
            .enumerate()
            .map(|(index, point)| format!("{}{} {}", if index == 0 { "M" } else { "L" }, point.x, point.y))
            .collect();
        let rules =
            scale.into_iter().map(|(value, words)| Rule { y: format!("{:.1}", y(value)), words }).collect();
        Self { id, title, reading, unit, values, points, path, rules }
    }

    /// The drawing's `viewBox`.
    pub fn view_box(&self) -> String {
        format!("0 0 {WIDTH} {HEIGHT}")
    }

    /// The first and the last day.
    pub fn ends(&self) -> (&str, &str) {
        (
            self.values.first().map_or("", |value| value.day.as_str()),
            self.values.last().map_or("", |value| value.day.as_str()),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chart(values: &[f64]) -> Chart {
        let values = values
            .iter()
            .map(|value| Value {
                day: "Thu 12 Mar".to_owned(),
                value: *value,
                words: String::new(),
                note: "",
            })
            .collect();
        let scale = vec![(0.0, "0 %".to_owned()), (100.0, "100 %".to_owned())];
        Chart::draw(1, Subject { title: String::new(), reading: String::new(), unit: "", scale, values })
    }

    #[test]
    fn values_lie_between_the_lowest_and_the_highest_line() {
        let drawn = chart(&[0.0, 100.0, 250.0]);
        let heights: Vec<&str> = drawn.points.iter().map(|point| point.y.as_str()).collect();
        assert_eq!(heights, ["136.0", "12.0", "12.0"]);
        assert!(drawn.path.starts_with("M52.0 136.0L"));
    }

    #[test]
    fn one_value_and_none_can_be_drawn() {
        assert_eq!(chart(&[50.0]).points.len(), 1);
        assert_eq!(chart(&[]).path, "");
    }
}
