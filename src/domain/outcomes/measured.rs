//! What the advice reads of one measured sitting.

use time::Date;

use super::ease::Ease;
use crate::domain::sitting::Sitting;

/// One measured sitting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// The day, where the dog was.
    pub on: Date,
    /// Metres, minutes or events, as the exercise's outcome says.
    pub value: f64,
    /// How the dog was.
    pub ease: Ease,
}

impl Measured {
    /// What is read of a sitting and the value that was stated with it; `None` without a value that can be measured.
    pub fn from_sitting(sitting: &Sitting, value: Option<f64>) -> Option<Self> {
        let value = value.filter(|value| value.is_finite() && *value >= 0.0)?;
        Some(Self { on: sitting.local_date, value, ease: Ease::of(sitting) })
    }
}

/// A number as people say it: whole where it is whole, else with one decimal.
pub(super) fn said(value: f64) -> String {
    let tenths = (value * 10.0).round() / 10.0;
    if tenths.fract() == 0.0 { format!("{tenths:.0}") } else { format!("{tenths:.1}") }
}

/// How many different days some sittings are on; they are in order.
pub(super) fn days<'a>(sittings: impl IntoIterator<Item = &'a Measured>) -> usize {
    let mut days: Vec<Date> = sittings.into_iter().map(|sitting| sitting.on).collect();
    days.dedup();
    days.len()
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn only_a_stated_value_is_measured() {
        let sitting = Sitting::on(date!(2025 - 05 - 01));
        assert_eq!(Measured::from_sitting(&sitting, None), None);
        assert_eq!(Measured::from_sitting(&sitting, Some(f64::NAN)), None);
        assert_eq!(Measured::from_sitting(&sitting, Some(-1.0)), None);
        let found = Measured::from_sitting(&sitting, Some(4.0)).expect("a value");
        assert_eq!((found.value, found.ease), (4.0, Ease::NotStated));
    }

    #[test]
    fn numbers_are_said_shortly() {
        assert_eq!([said(4.0), said(4.25), said(-0.75), said(9.96)], ["4", "4.3", "-0.8", "10"]);
    }
}
