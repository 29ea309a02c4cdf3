//! Lessons used and left of the packages that were bought for a dog.
//!
//! Every lesson that was held draws on the oldest package that had begun by its day and has something left. One for which there was
//! none is beyond what was bought; one before the first package is counted by nobody.

use time::Date;

/// A package: the day from which lessons draw on it, and how many were bought.
pub type Bought = (Date, u16);

/// What became of the packages.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Drawn {
    /// How many of each package are used, in the order in which they were given.
    pub used: Vec<u16>,
    /// Lessons beyond what was bought.
    pub beyond: u16,
    /// All that was bought.
    pub bought: u16,
}

impl Drawn {
    /// "3 of 6 used, 3 left"; with what lies beyond. Empty where nothing was bought.
    pub fn in_words(&self) -> String {
        let used: u16 = self.used.iter().sum();
        let (bought, left) = (self.bought, self.bought.saturating_sub(used));
        match (bought, self.beyond) {
            (0, _) => String::new(),
            (_, 0) => format!("{used} of {bought} used, {left} left"),
            (_, beyond) => format!("{used} of {bought} used, {left} left; {beyond} beyond what was bought"),
        }
    }
}

/// Counts lessons against packages. Packages of one day are drawn on in the order in which they are given.
pub fn drawn(packages: &[Bought], held: &[Date]) -> Drawn {
    let mut order: Vec<usize> = (0..packages.len()).collect();
    order.sort_by_key(|at| packages[*at].0);
    let mut days = held.to_vec();
    days.sort_unstable();
    let mut drawn = Drawn {
        used: vec![0; packages.len()],
        bought: packages.iter().map(|(_, bought)| bought).sum(),
        ..Drawn::default()
    };
    for day in days {
        let begun = || order.iter().copied().filter(|at| packages[*at].0 <= day);
        match begun().find(|at| drawn.used[*at] < packages[*at].1) {
            Some(at) => drawn.used[at] += 1,
            None if begun().next().is_some() => drawn.beyond += 1,
            None => {}
        }
    }
    drawn
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use time::macros::date;

    const FIRST: Date = date!(2026 - 03 - 01);

    fn days(after: &[i64]) -> Vec<Date> {
        after.iter().map(|days| FIRST + time::Duration::days(*days)).collect()
    }

    #[test]
    fn the_oldest_with_something_left_is_drawn_on() {
        for (packages, held, used, beyond) in [
            (vec![(0, 6)], vec![0, 7, 14], vec![3], 0),
            (vec![(0, 2)], vec![0, 7, 14], vec![2], 1),
            (vec![(0, 2), (10, 3)], vec![0, 7, 14], vec![2, 1], 0),
            // given in another order
            (vec![(10, 3), (0, 2)], vec![14, 0, 7], vec![1, 2], 0),
            // the second begins after a lesson that the first could not cover
            (vec![(0, 1), (10, 3)], vec![0, 5, 14], vec![1, 1], 1),
            // before anything was bought
            (vec![(10, 3)], vec![0, 5], vec![0], 0),
            (vec![], vec![0, 5], vec![], 0),
            // two of one day: in the order given
            (vec![(0, 1), (0, 1)], vec![3], vec![1, 0], 0),
        ] {
            let packages: Vec<Bought> =
                packages.iter().map(|(day, bought)| (days(&[*day])[0], *bought)).collect();
            let found = drawn(&packages, &days(&held));
            assert_eq!((found.used, found.beyond), (used, beyond), "{packages:?} {held:?}");
        }
    }

    #[test]
    fn it_is_said_in_words() {
        assert_eq!(drawn(&[(FIRST, 6)], &days(&[0, 1, 2])).in_words(), "3 of 6 used, 3 left");
        let beyond = drawn(&[(FIRST, 1)], &days(&[0, 1])).in_words();
        assert_eq!(beyond, "1 of 1 used, 0 left; 1 beyond what was bought");
        assert_eq!(drawn(&[], &days(&[0])).in_words(), "");
    }

    proptest! {
        #[test]
        fn every_lesson_since_the_first_package_is_counted_once(
            packages in proptest::collection::vec((0i64..40, 1u16..6), 0..5),
            held in proptest::collection::vec(0i64..60, 0..30),
        ) {
            let packages: Vec<Bought> = packages.into_iter().map(|(d, n)| (days(&[d])[0], n)).collect();
            let held = days(&held);
            let found = drawn(&packages, &held);
            let first = packages.iter().map(|(day, _)| *day).min();
            let counted = held.iter().filter(|day| first.is_some_and(|first| first <= **day)).count();
            let used: u16 = found.used.iter().sum();
            prop_assert_eq!(usize::from(used + found.beyond), counted);
            prop_assert!(found.used.iter().zip(&packages).all(|(used, (_, bought))| used <= bought));
        }
    }
}
