//! How the practice itself goes: adherence, reinforcement rate, markers paid, coming down. For trainers; owners never read them.
//!
//! Latency, from cue to response, belongs here as well; it waits until attempts are logged with their times.

mod adherence;
mod came_down;
mod markers_paid;
mod reinforcement_rate;

pub use adherence::{Adherence, adherence};
pub use came_down::{CameDown, came_down};
pub use markers_paid::{MarkersPaid, markers_paid};
pub use reinforcement_rate::{ReinforcementRate, reinforcement_rate};

/// A rate with what it says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// What it is.
    pub what: &'static str,
    /// Its value with its unit.
    pub value: String,
    /// One sentence.
    pub says: String,
    /// Where it comes from, and how sure we are.
    pub source: &'static str,
}

/// A share in whole percent.
fn percent(part: i64, whole: i64) -> i64 {
    (part * 100 + whole / 2) / whole.max(1)
}
