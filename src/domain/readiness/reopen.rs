//! Working again with a dog whose work had ended: which lines open again, and at which rung.
//!
//! A line opens again where it relapsed, or where its rung is doubtful. It opens at the last sure rung: the highest one below from which
//! it was moved on, or which was judged likely ready, and where nothing has declined since. Where no rung is sure, one rung down.

use time::{Date, Duration};

/// How long a rung that was never sure may go unpractised before it is doubtful: four weeks. Common practice.
pub const FRESH_FOR: Duration = Duration::weeks(4);

/// What is known of one rung, easiest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Rung {
    /// The last day on which it was judged likely ready, or was moved on from.
    pub sure_on: Option<Date>,
    /// The last day on which it declined, or was made easier.
    pub declined_on: Option<Date>,
}

impl Rung {
    /// Whether it is sure. What declined on the day on which it was judged ready is not.
    fn is_sure(self) -> bool {
        self.sure_on.is_some_and(|sure| self.declined_on.is_none_or(|declined| declined < sure))
    }
}

/// Why a line opens again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// It declined on its rung.
    Relapsed,
    /// It was never sure on its rung, and was not practised there for four weeks.
    Doubtful,
}

/// A line that opens again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reopened {
    /// The rung that it opens at.
    pub at: usize,
    /// Why.
    pub why: Why,
}

/// Whether a line that stands on the rung `at` opens again, and where; `None` where it stays. `practised` is the last day on which it
/// was practised on that rung.
pub fn reopens(at: usize, rungs: &[Rung], practised: Option<Date>, today: Date) -> Option<Reopened> {
    let here = *rungs.get(at)?;
    let below = at.checked_sub(1)?;
    let why = if here.declined_on.is_some_and(|declined| here.sure_on.is_none_or(|sure| sure <= declined)) {
        Why::Relapsed
    } else if !here.is_sure() && practised.is_none_or(|day| today - day > FRESH_FOR) {
        Why::Doubtful
    } else {
        return None;
    };
    let at = rungs[..=below].iter().rposition(|rung| rung.is_sure()).unwrap_or(below);
    Some(Reopened { at, why })
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    const TODAY: Date = date!(2026 - 06 - 30);

    fn ago(days: i64) -> Option<Date> {
        Some(TODAY - Duration::days(days))
    }

    fn sure(days: i64) -> Rung {
        Rung { sure_on: ago(days), declined_on: None }
    }

    fn declined(days: i64) -> Rung {
        Rung { sure_on: None, declined_on: ago(days) }
    }

    const OPEN: Rung = Rung { sure_on: None, declined_on: None };

    #[test]
    fn a_line_opens_at_the_last_sure_rung() {
        let wobbled = Rung { sure_on: ago(80), declined_on: ago(60) };
        let recovered = Rung { sure_on: ago(60), declined_on: ago(80) };
        let same_day = Rung { sure_on: ago(60), declined_on: ago(60) };
        let relapsed = |at| Some(Reopened { at, why: Why::Relapsed });
        let doubtful = |at| Some(Reopened { at, why: Why::Doubtful });
        for (what, at, rungs, practised, wanted) in [
            (
                "relapsed, the rung below is sure",
                2,
                vec![sure(90), sure(60), declined(5)],
                ago(5),
                relapsed(1),
            ),
            (
                "relapsed, the rung below declined too",
                2,
                vec![sure(90), wobbled, declined(5)],
                ago(5),
                relapsed(0),
            ),
            (
                "the rung below had declined and came back",
                2,
                vec![sure(90), recovered, declined(5)],
                ago(5),
                relapsed(1),
            ),
            (
                "sure and declined on one day is not sure",
                2,
                vec![sure(90), same_day, declined(5)],
                ago(5),
                relapsed(0),
            ),
            ("relapsed on a rung that was sure once", 1, vec![sure(90), wobbled], ago(60), relapsed(0)),
            ("relapsed and sure again since", 1, vec![sure(90), recovered], ago(60), None),
            ("no rung is sure: one down", 3, vec![OPEN, OPEN, OPEN, declined(5)], ago(5), relapsed(2)),
            ("on the lowest rung there is nowhere to go", 0, vec![declined(5), OPEN], ago(5), None),
            ("sure where it stands, however long ago", 1, vec![sure(300), sure(200)], ago(200), None),
            (
                "never sure here, and long unpractised",
                2,
                vec![sure(90), sure(60), OPEN],
                ago(29),
                doubtful(1),
            ),
            ("never sure here, and never practised", 2, vec![sure(90), sure(60), OPEN], None, doubtful(1)),
            ("never sure here, and practised of late", 2, vec![sure(90), sure(60), OPEN], ago(28), None),
            ("a rung above that was sure says nothing", 1, vec![sure(90), OPEN, sure(20)], None, doubtful(0)),
            ("a ladder that was shortened", 7, vec![sure(90), OPEN], None, None),
            ("no ladder", 0, vec![], None, None),
        ] {
            assert_eq!(reopens(at, &rungs, practised, TODAY), wanted, "{what}");
        }
    }
}
