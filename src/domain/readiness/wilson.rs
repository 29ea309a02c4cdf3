//! The Wilson score interval of a share (Wilson 1927, JASA 22:209–212; Newcombe 1998, Stat Med 17:857–872,
//! method 3).

/// The 97.5 % point of the normal distribution, for a 95 % interval.
const Z: f64 = 1.959963984540054;

/// A 95 % interval of a share, within 0–1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Lower limit.
    pub low: f64,
    /// Upper limit.
    pub high: f64,
}

/// The 95 % interval of `met` in `attempts`. Nothing counted, or more met than attempted, has no interval.
pub fn wilson(met: i32, attempts: i32) -> Option<Interval> {
    if attempts <= 0 || !(0..=attempts).contains(&met) {
        return None;
    }
    let (x, n) = (f64::from(met), f64::from(attempts));
    let share = x / n;
    let z2 = Z * Z;
    let centre = (share + z2 / (2.0 * n)) / (1.0 + z2 / n);
    let half = Z * (share * (1.0 - share) / n + z2 / (4.0 * n * n)).sqrt() / (1.0 + z2 / n);
    // Rounding must not leave a limit a hair outside 0–1, nor off the end of a perfect run.
    let low = if met == 0 { 0.0 } else { (centre - half).max(0.0) };
    let high = if met == attempts { 1.0 } else { (centre + half).min(1.0) };
    Some(Interval { low, high })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// 81/263, 0/20 and 1/29 are Newcombe 1998, table I; 56/395 is the deaths of Hall, Carter & O'Neill
    /// 2020 (count inferred from 14.18 %); the rest agree with statsmodels.
    #[test]
    fn published_intervals() {
        for (met, attempts, low, high) in [
            (81, 263, 0.2553, 0.3662),
            (0, 20, 0.0, 0.1611),
            (1, 29, 0.0061, 0.1718),
            (0, 10, 0.0, 0.277533),
            (10, 10, 0.722467, 1.0),
            (56, 395, 0.1108, 0.1796),
            (8, 10, 0.490162, 0.943318),
            (12, 15, 0.548146, 0.929525),
            (4, 5, 0.375535, 0.963776),
            (5, 5, 0.565518, 1.0),
            (1, 1, 0.206549, 1.0),
            (0, 1, 0.0, 0.793451),
        ] {
            let found = wilson(met, attempts).expect("an interval");
            assert!((found.low - low).abs() < 5e-5, "{met}/{attempts} low {}", found.low);
            assert!((found.high - high).abs() < 5e-5, "{met}/{attempts} high {}", found.high);
        }
    }

    #[test]
    fn a_perfect_run_reaches_four_fifths_at_sixteen() {
        assert!(wilson(15, 15).is_some_and(|found| found.low < 0.8));
        assert!(wilson(16, 16).is_some_and(|found| found.low > 0.8));
    }

    #[test]
    fn nothing_counted_has_no_interval() {
        assert_eq!(wilson(0, 0), None);
        assert_eq!(wilson(3, 2), None);
        assert_eq!(wilson(-1, 2), None);
    }

    proptest! {
        #[test]
        fn the_interval_holds_the_share_and_mirrors(attempts in 1_i32..500, part in 0.0_f64..=1.0) {
            let met = (f64::from(attempts) * part) as i32;
            let found = wilson(met, attempts).expect("an interval");
            let share = f64::from(met) / f64::from(attempts);
            prop_assert!(0.0 <= found.low && found.low <= share + 1e-12);
            prop_assert!(share - 1e-12 <= found.high && found.high <= 1.0);
            let mirrored = wilson(attempts - met, attempts).expect("an interval");
            prop_assert!((found.low - (1.0 - mirrored.high)).abs() < 1e-12);
        }

        #[test]
        fn a_perfect_run_has_the_closed_form(attempts in 1_i32..500) {
            let n = f64::from(attempts);
            let found = wilson(attempts, attempts).expect("an interval");
            prop_assert!((found.low - n / (n + Z * Z)).abs() < 1e-12);
        }
    }
}
