//! How far back the charts look.

use time::{Date, Duration};

/// A stretch of days up to today.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Range {
    /// Thirty days.
    Month,
    /// Thirteen weeks.
    #[default]
    Quarter,
    /// Since the first thing that was told.
    All,
}

/// The fewest days that a chart spreads over, so that a first day is no whole chart.
const FEWEST: i64 = 14;

impl Range {
    /// All of them, with how an address says them and what people read.
    pub const ALL: [(Self, &'static str, &'static str); 3] = [
        (Self::Month, "month", "30 days"),
        (Self::Quarter, "quarter", "13 weeks"),
        (Self::All, "all", "Everything"),
    ];

    /// The one that an address says; the usual one for anything else.
    pub fn said(text: &str) -> Self {
        Self::ALL.iter().find(|(_, said, _)| *said == text).map_or_else(Self::default, |(range, ..)| *range)
    }

    /// Its first day, where the first thing that was told of the dog is of a day.
    pub fn first_day(self, today: Date, first_told: Option<Date>) -> Date {
        let back = |days: i64| today.saturating_sub(Duration::days(days - 1));
        match self {
            Self::Month => back(30),
            Self::Quarter => back(91),
            Self::All => first_told.map_or(today, |on| on.min(today)).min(back(FEWEST)),
        }
    }

    /// The days in words, at the end of a sentence.
    pub fn words(self) -> &'static str {
        match self {
            Self::Month => "in these 30 days",
            Self::Quarter => "in these 13 weeks",
            Self::All => "since the beginning",
        }
    }
}
