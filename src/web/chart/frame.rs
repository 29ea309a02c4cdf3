//! Where a day and a value lie in the drawing.

use time::Date;

use super::Scale;
use crate::domain::dates::days_between;

/// Size of the drawing, in its own units; the same on a phone and a desk, so that words stay readable.
pub const WIDTH: f64 = 360.0;
/// The same, downwards.
pub const HEIGHT: f64 = 208.0;
/// The right edge of the plot within it.
pub const RIGHT: f64 = 352.0;
/// Its top, below the numbers of what happened and the names of what changed.
pub const TOP: f64 = 40.0;
/// Its bottom, above the days.
pub const BOTTOM: f64 = 180.0;
/// Room for one letter of a label.
const LETTER: f64 = 7.6;

/// The plot.
#[derive(Debug, Clone, Copy)]
pub struct Frame {
    /// Its left edge.
    pub left: f64,
    from: Date,
    slot: f64,
    low: f64,
    high: f64,
}

impl Frame {
    /// A plot of these days and this scale.
    pub fn new((from, to): (Date, Date), scale: &Scale) -> Self {
        let widest = scale.iter().map(|(_, words)| words.chars().count()).max().unwrap_or(0);
        let left = (12.0 + LETTER * widest as f64).clamp(34.0, 112.0);
        let days = (days_between(from, to) + 1).max(1) as f64;
        let (low, high) = (scale.first().map_or(0.0, |s| s.0), scale.last().map_or(1.0, |s| s.0));
        Self { left, from, slot: (RIGHT - left) / days, low, high: if high > low { high } else { low + 1.0 } }
    }

    /// The width of a day.
    pub fn slot(&self) -> f64 {
        self.slot
    }

    /// Across, for the `nth` of `of` things of a day, side by side.
    pub fn x(&self, on: Date, nth: usize, of: usize) -> f64 {
        let within = (nth as f64 + 0.5) / of.max(1) as f64;
        self.left + (days_between(self.from, on) as f64 + within) * self.slot
    }

    /// Down.
    pub fn y(&self, value: f64) -> f64 {
        BOTTOM - (value - self.low) / (self.high - self.low) * (BOTTOM - TOP)
    }
}

/// A coordinate as the drawing says it.
pub fn at(coordinate: f64) -> String {
    format!("{coordinate:.2}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn days_and_values_lie_evenly() {
        let scale = vec![(0.0, "0 %".to_owned()), (100.0, "100 %".to_owned())];
        let frame = Frame::new((date!(2026 - 03 - 01), date!(2026 - 03 - 10)), &scale);
        assert_eq!([frame.y(0.0), frame.y(50.0), frame.y(100.0)], [BOTTOM, f64::midpoint(BOTTOM, TOP), TOP]);
        let day = |n: u8| frame.x(date!(2026 - 03 - 01).replace_day(n).expect("a day"), 0, 1);
        assert!((day(2) - day(1) - frame.slot()).abs() < 1e-9);
        assert!((day(10) + frame.slot() / 2.0 - RIGHT).abs() < 1e-9, "the last day ends at the edge");
        let two = [0, 1].map(|nth| frame.x(date!(2026 - 03 - 01), nth, 2));
        assert!(frame.left < two[0] && two[0] < two[1] && two[1] < frame.left + frame.slot());
    }
}
