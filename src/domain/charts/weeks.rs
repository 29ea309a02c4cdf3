//! Minutes and days practised, week by week.

use std::collections::BTreeMap;

use time::{Date, Duration};

use super::Charted;
use crate::domain::dates::counted;

/// What was practised on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Day {
    /// The day.
    pub on: Date,
    /// Sittings.
    pub sittings: i64,
    /// Their minutes, where stated.
    pub minutes: i64,
    /// Sittings whose minutes nobody stated.
    pub unstated: i64,
}

/// A week from its Monday; days outside the range are `None`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Week {
    /// Its Monday.
    pub monday: Date,
    /// Its days.
    pub days: [Option<Day>; 7],
}

impl Week {
    /// The minutes of the week, where stated.
    pub fn minutes(&self) -> i64 {
        self.days.iter().flatten().map(|day| day.minutes).sum()
    }

    /// Days on which something was practised.
    pub fn practised(&self) -> usize {
        self.days.iter().flatten().filter(|day| day.sittings > 0).count()
    }
}

/// The weeks from one day to another, both included, oldest first.
pub fn weeks(sittings: &[&Charted], from: Date, to: Date) -> Vec<Week> {
    let mut by_day: BTreeMap<Date, Day> = BTreeMap::new();
    for one in sittings {
        let on = one.sitting.local_date;
        let day = by_day.entry(on).or_insert(Day { on, sittings: 0, minutes: 0, unstated: 0 });
        day.sittings += 1;
        match one.sitting.minutes {
            Some(minutes) => day.minutes += i64::from(minutes),
            None => day.unstated += 1,
        }
    }
    let day = |on: Date| {
        let empty = Day { on, sittings: 0, minutes: 0, unstated: 0 };
        (from..=to).contains(&on).then(|| by_day.get(&on).copied().unwrap_or(empty))
    };
    let mut monday = from.saturating_sub(Duration::days(from.weekday().number_days_from_monday().into()));
    let mut weeks = Vec::new();
    while monday <= to {
        let days = std::array::from_fn(|n| day(monday.saturating_add(Duration::days(n as i64))));
        weeks.push(Week { monday, days });
        monday = monday.saturating_add(Duration::days(7));
    }
    weeks
}

/// What the weeks say.
pub fn weeks_say(weeks: &[Week]) -> String {
    let days: Vec<&Day> = weeks.iter().flat_map(|week| week.days.iter().flatten()).collect();
    let practised = days.iter().filter(|day| day.sittings > 0).count();
    let minutes: i64 = days.iter().map(|day| day.minutes).sum();
    let sittings: i64 = days.iter().map(|day| day.sittings).sum();
    let unstated: i64 = days.iter().map(|day| day.unstated).sum();
    let said = format!("Practised on {practised} of {} days", days.len());
    match (sittings - unstated, unstated) {
        (0, n) => format!("{said}; minutes were stated for none of {}.", counted(n, "sitting", "sittings")),
        (n, 0) => format!(
            "{said}: {} in {}.",
            counted(minutes, "minute", "minutes"),
            counted(n, "sitting", "sittings")
        ),
        (n, left) => format!(
            "{said}: {} in {}, and {left} more that do not state theirs.",
            counted(minutes, "minute", "minutes"),
            counted(n, "sitting", "sittings")
        ),
    }
}
