//! Days since the last bolt or bite.

use time::Date;

use crate::domain::dates::{counted, days_between};

/// A bolt or a bite.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Incident {
    /// The day.
    pub on: Date,
    /// "Bolted" or "Bit".
    pub what: &'static str,
    /// Where it can be read.
    pub href: String,
    /// Whether it was told with a sitting or by itself.
    pub told: &'static str,
}

/// What is on record, newest first; `on_record` is a bite of before, without a day.
pub fn incidents_say(all: &[Incident], on_record: bool, today: Date) -> String {
    let Some(newest) = all.first() else {
        return match on_record {
            true => {
                "A bite of before is on record, without its day; none was told here, and no bolt.".to_owned()
            }
            false => "No bolt and no bite was told here.".to_owned(),
        };
    };
    match days_between(newest.on, today) {
        ..=0 => "A bolt or bite was told today.".to_owned(),
        days => format!("{} since the last bolt or bite that was told.", counted(days, "day", "days")),
    }
}
