//! A calendar of weeks: a row a week, a number in each day.

use time::{Date, Duration, Weekday};

use super::frame::at;
use crate::domain::charts::{Day, Week};
use crate::domain::dates::counted;
use crate::web::zones;

/// Weeks that are shown, at most.
const MOST: usize = 53;
/// Width of a day and height of a week.
const DAY: (f64, f64) = (35.0, 24.0);
/// Where the days begin.
const BEGIN: (f64, f64) = (58.0, 24.0);
/// Width of the whole.
const WIDTH: f64 = 360.0;
const DAYS: [Weekday; 7] = [
    Weekday::Monday,
    Weekday::Tuesday,
    Weekday::Wednesday,
    Weekday::Thursday,
    Weekday::Friday,
    Weekday::Saturday,
    Weekday::Sunday,
];

/// A heading of a column or a row.
pub struct Head {
    /// Across or down.
    pub at: String,
    /// What it says.
    pub words: String,
    /// The number of the weekday from Monday as 1, or the week's Monday.
    pub exact: String,
}

/// A day of the drawing.
pub struct DayCell {
    /// The left edge and the top of its box.
    pub corner: (String, String),
    /// Its middle.
    pub middle: (String, String),
    /// The day.
    pub on: Date,
    /// What it says: minutes, or how many sittings where nobody stated minutes.
    pub words: String,
    /// Whether something was practised.
    pub practised: bool,
}

/// A row of the table.
pub struct WeekRow {
    /// Its first day.
    pub monday: Date,
    /// The same, as people read it.
    pub name: String,
    /// Its days; empty outside the range.
    pub days: Vec<String>,
    /// Minutes.
    pub minutes: i64,
    /// Days practised.
    pub practised: usize,
}

/// The calendar with its sentence and its table.
pub struct Calendar {
    /// What tells it from others on the page.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it says.
    pub reading: String,
    /// What else is to be known of it.
    pub notes: Vec<String>,
    /// The headings of the days.
    pub weekdays: Vec<Head>,
    /// The headings of the weeks.
    pub mondays: Vec<Head>,
    /// The minutes of the weeks, beside them.
    pub sums: Vec<Head>,
    /// The days.
    pub days: Vec<DayCell>,
    /// The rows of the table.
    pub weeks: Vec<WeekRow>,
}

/// What a day says in the drawing: minutes; "2×" for sittings without them; "12+" where some state none.
fn short(day: &Day) -> String {
    match (day.sittings, day.unstated) {
        (0, _) => String::new(),
        (n, unstated) if n == unstated => format!("{n}×"),
        (_, 0) => day.minutes.to_string(),
        _ => format!("{}+", day.minutes),
    }
}

/// The same in words.
fn long(day: &Day) -> String {
    let sittings = counted(day.unstated, "sitting", "sittings");
    match (day.sittings, day.unstated) {
        (0, _) => "–".to_owned(),
        (n, unstated) if n == unstated => format!("{sittings}, minutes not stated"),
        (_, 0) => day.minutes.to_string(),
        _ => format!("{} and {sittings} more", day.minutes),
    }
}

/// A day without its weekday: "2 Mar".
fn of_month(on: Date, today: Date) -> String {
    let whole = zones::day(on, today);
    whole.split_once(' ').map_or(whole.clone(), |(_, rest)| rest.to_owned())
}

impl Calendar {
    /// Draws it.
    pub fn draw(id: &str, title: &str, reading: String, weeks: &[Week], today: Date) -> Self {
        let cut = weeks.len().saturating_sub(MOST);
        let mut notes = vec![
            "The number is minutes; 2× is two sittings whose minutes nobody stated, and + marks minutes with such a sitting beside them."
                .to_owned(),
        ];
        if cut > 0 {
            notes.push(format!("The newest {MOST} of {} weeks are shown.", weeks.len()));
        }
        let weeks = &weeks[cut..];
        let x = |n: usize| BEGIN.0 + (n as f64 + 0.5) * DAY.0;
        let y = |n: usize| BEGIN.1 + (n as f64 + 0.5) * DAY.1;
        let days = weeks.iter().enumerate().flat_map(|(week, one)| {
            one.days.iter().enumerate().filter_map(move |(n, day)| day.as_ref().map(|day| (week, n, day)))
        });
        Self {
            id: id.to_owned(),
            title: title.to_owned(),
            reading,
            notes,
            weekdays: DAYS
                .iter()
                .enumerate()
                .map(|(n, day)| Head {
                    at: at(x(n)),
                    words: day.to_string().chars().take(3).collect(),
                    exact: day.number_from_monday().to_string(),
                })
                .collect(),
            mondays: weeks
                .iter()
                .enumerate()
                .map(|(n, week)| Head {
                    at: at(y(n)),
                    words: of_month(week.monday, today),
                    exact: week.monday.to_string(),
                })
                .collect(),
            sums: weeks
                .iter()
                .enumerate()
                .map(|(n, week)| Head {
                    at: at(y(n)),
                    words: week.minutes().to_string(),
                    exact: String::new(),
                })
                .collect(),
            days: days
                .map(|(week, n, day)| DayCell {
                    corner: (at(x(n) - DAY.0 / 2.0 + 1.5), at(y(week) - DAY.1 / 2.0 + 1.5)),
                    middle: (at(x(n)), at(y(week))),
                    on: day.on,
                    words: short(day),
                    practised: day.sittings > 0,
                })
                .collect(),
            weeks: weeks
                .iter()
                .map(|week| WeekRow {
                    monday: week.monday,
                    name: format!(
                        "{} to {}",
                        of_month(week.monday, today),
                        of_month(week.monday.saturating_add(Duration::days(6)), today)
                    ),
                    days: week.days.iter().map(|day| day.as_ref().map(long).unwrap_or_default()).collect(),
                    minutes: week.minutes(),
                    practised: week.practised(),
                })
                .collect(),
        }
    }

    /// The size of a day's box.
    pub fn size(&self) -> (f64, f64) {
        (DAY.0 - 3.0, DAY.1 - 3.0)
    }

    /// The drawing's `viewBox`.
    pub fn view_box(&self) -> String {
        format!("0 0 {WIDTH} {}", BEGIN.1 + DAY.1 * self.weeks.len() as f64 + 4.0)
    }
}
