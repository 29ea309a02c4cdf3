//! Which rung an item stands on at a time, and how well it should go there.

use time::OffsetDateTime;

use super::PLANS_AT;
use crate::demo::calendar::Calendar;
use crate::demo::content::{DaysAgo, Item};

/// Where an item stands.
#[derive(Debug, Clone, Copy)]
pub struct Standing {
    /// Of attempts, the share that is met.
    pub share: f64,
    /// How far the whole way is gone, 0 to 1.
    pub way: f64,
}

/// The rung that an item stands on from a day's publishing on: its place in the ladder, from 0.
pub fn rung(item: &Item, days_ago: DaysAgo) -> u8 {
    let passed = item.climb.iter().take_while(|(day, _)| *day >= days_ago);
    passed.last().or(item.climb.first()).map_or(0, |(_, rung)| *rung)
}

/// How an item stands at an instant, when its sittings end `last` days ago.
///
/// # Errors
/// When the content asks for a time that does not exist.
pub fn standing(
    calendar: &Calendar,
    item: &Item,
    at: OffsetDateTime,
    last: DaysAgo,
) -> anyhow::Result<Standing> {
    let mut begins = Vec::new();
    for (days_ago, _) in item.climb {
        begins.push(calendar.at(*days_ago, PLANS_AT.0, PLANS_AT.1)?);
    }
    let end = calendar.at(last, 23, 0)?;
    let here = begins.iter().rposition(|begin| *begin <= at).unwrap_or(0);
    let until = begins.get(here + 1).copied().unwrap_or(end);
    let gone = |from: OffsetDateTime, to: OffsetDateTime| {
        let (gone, whole) = ((at - from).as_seconds_f64(), (to - from).as_seconds_f64());
        if whole > 0.0 { (gone / whole).clamp(0.0, 1.0) } else { 1.0 }
    };
    let (from, to) = if here + 1 == begins.len() { item.met_now } else { item.met };
    let (from, to) = (f64::from(from), f64::from(to));
    let first = begins.first().copied().unwrap_or(at);
    Ok(Standing { share: (from + (to - from) * gone(begins[here], until)) / 100.0, way: gone(first, end) })
}
