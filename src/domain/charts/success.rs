//! Success by sitting, and whether it has changed.
//!
//! Only like is compared with like: the same step, the same criterion, a place of the same rating, as busy. The last few
//! such sittings are held against as many before them, and "up" is said only where the interval of the difference leaves no
//! change out (Newcombe 1998, Stat Med 17:873–890, method 10). Attempts within a sitting hang together, so even that is
//! somewhat surer than it ought to be; readiness decides, not this.

use super::{Charted, last};
use crate::domain::readiness::{Interval, wilson};

/// Sittings on each side of a comparison, at most.
const MOST: usize = 5;
/// Sittings on each side of a comparison, at the fewest.
const FEWEST: usize = 2;

/// A counted sitting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Success<'a> {
    /// The sitting.
    pub of: &'a Charted,
    /// Attempts.
    pub attempts: i16,
    /// How many met the criterion.
    pub met: i16,
    /// The 95 % interval of their share.
    pub likely: Interval,
}

impl Success<'_> {
    /// The share in per cent.
    pub fn share(&self) -> f64 {
        f64::from(self.met) * 100.0 / f64::from(self.attempts)
    }

    /// Whether two sittings may be compared.
    fn is_like(&self, other: &Self) -> bool {
        let terms = |one: &Charted| (one.sitting.step, one.sitting.place_distraction, one.sitting.busy);
        terms(self.of) == terms(other.of) && self.of.criterion == other.of.criterion
    }
}

/// The counted sittings among some.
pub fn successes<'a>(sittings: &[&'a Charted]) -> Vec<Success<'a>> {
    let counted = sittings.iter().filter_map(|of| {
        let (attempts, met) = of.sitting.counted()?;
        let likely = wilson(met.into(), attempts.into())?;
        Some(Success { of, attempts, met, likely })
    });
    counted.collect()
}

/// Met and attempts of some sittings together.
fn pooled(some: &[&Success<'_>]) -> (i32, i32) {
    some.iter()
        .fold((0, 0), |(met, attempts), one| (met + i32::from(one.met), attempts + i32::from(one.attempts)))
}

/// The 95 % interval of how much the share rose from one count to another.
pub(super) fn rise(before: (i32, i32), after: (i32, i32)) -> Option<Interval> {
    let ends = |(met, attempts): (i32, i32)| {
        wilson(met, attempts).map(|likely| (f64::from(met) / f64::from(attempts), likely))
    };
    let ((was, was_likely), (is, is_likely)) = (ends(before)?, ends(after)?);
    let away = |a: f64, b: f64| (a * a + b * b).sqrt();
    Some(Interval {
        low: is - was - away(is - is_likely.low, was_likely.high - was),
        high: is - was + away(is_likely.high - is, was - was_likely.low),
    })
}

/// What the counted sittings say, oldest first.
pub fn successes_say(all: &[Success<'_>]) -> String {
    let Some(newest) = all.last() else { return String::new() };
    let alike: Vec<&Success<'_>> = all.iter().filter(|one| one.is_like(newest)).collect();
    let where_to = match newest.of.sitting.place_distraction {
        Some(_) => "in places alike",
        None => "where was not stated",
    };
    let side = (alike.len() / 2).min(MOST);
    if side < FEWEST {
        let (met, attempts) = pooled(&alike);
        let so_far = match alike.len() {
            1 => format!("{met} of {attempts} met in the only sitting so far at this step, {where_to}"),
            n => format!("{met} of {attempts} met in {n} sittings so far at this step, {where_to}"),
        };
        return format!("{so_far}: too few to compare.");
    }
    let (before, after) = last(&alike, 2 * side).split_at(side);
    let (was, is) = (pooled(before), pooled(after));
    let compared = format!("the last {side} sittings at this step against the {side} before, {where_to}");
    let counts = format!("{} of {} to {} of {} met", was.0, was.1, is.0, is.1);
    match rise(was, is) {
        Some(rise) if rise.low > 0.0 => format!("Up from {counts}: {compared}."),
        Some(rise) if rise.high < 0.0 => format!("Down from {counts}: {compared}."),
        _ => format!("No clear change, from {counts}: {compared}."),
    }
}
