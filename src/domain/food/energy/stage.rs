//! Where a dog stands in its life, as far as food is concerned.

use time::Date;

use crate::domain::dates::whole_months;

/// Where a dog stands in its life, as far as food is concerned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stage {
    /// Growing, under four months.
    YoungPup,
    /// Growing, four months or older.
    OlderPup,
    /// Grown, under three years.
    YoungAdult,
    /// Grown, to seven years.
    Adult,
    /// Over seven years.
    Older,
}

impl Stage {
    /// The stage on a day. Growth ends at 12 months, or at 18 where a dog will weigh over 25 kg (common practice).
    /// `None` where the birth date is not stated or lies ahead.
    pub fn of(born: Option<Date>, expected_adult_kg: Option<f64>, on: Date) -> Option<Self> {
        let months = born.filter(|born| *born <= on).map(|born| whole_months(born, on))?;
        let grown_at = if expected_adult_kg.is_some_and(|kg| kg > 25.0) { 18 } else { 12 };
        Some(match months {
            ..4 => Self::YoungPup,
            4.. if months < grown_at => Self::OlderPup,
            4..36 => Self::YoungAdult,
            36..96 => Self::Adult,
            96.. => Self::Older,
        })
    }
}
