//! The trend of a measure over days: Theil–Sen slope and its interval (Theil 1950, Proc. Kon. Ned. Akad. Wet. 53; Sen 1968,
//! J Am Stat Assoc 63:1379–1389). The median of the slopes between all pairs, so that one wild day does not carry it. The
//! interval rests on Kendall's S and the normal distribution; it is approximate for fewer than ten sittings.

use time::Date;

/// The fewest sittings that have a trend.
const FEWEST: usize = 5;
/// The most recent sittings that are looked at.
const MOST: usize = 60;
/// The 97.5 % point of the normal distribution.
const Z: f64 = 1.959963984540054;

/// A trend, in units a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trend {
    /// The slope.
    pub slope: f64,
    /// Lower limit of the 95 % interval.
    pub low: f64,
    /// Upper limit of the 95 % interval.
    pub high: f64,
}

/// The trend of values by day, oldest first; `None` for fewer than five, or all on one day.
pub fn theil_sen(values: &[(Date, f64)]) -> Option<Trend> {
    if values.len() < FEWEST {
        return None;
    }
    let values = &values[values.len().saturating_sub(MOST)..];
    let mut slopes = Vec::with_capacity(values.len() * (values.len() - 1) / 2);
    for (index, (to, later)) in values.iter().enumerate() {
        for (from, earlier) in &values[..index] {
            let days = (*to - *from).whole_days();
            if days != 0 {
                slopes.push((later - earlier) / days as f64);
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    let last = slopes.len().checked_sub(1)?;
    let middle = slopes.len() / 2;
    let slope = if slopes.len() % 2 == 1 {
        slopes[middle]
    } else {
        f64::midpoint(slopes[middle - 1], slopes[middle])
    };
    let half = Z * variance(values).sqrt();
    let pairs = slopes.len() as f64;
    let low = (((pairs - half) / 2.0).round() - 1.0).max(0.0) as usize;
    let high = (((pairs + half) / 2.0).round() as usize).min(last);
    Some(Trend { slope, low: slopes[low.min(last)], high: slopes[high] })
}

/// The variance of Kendall's S with its corrections for ties (Sen 1968, equation 2.6).
fn variance(values: &[(Date, f64)]) -> f64 {
    let term = |n: f64| n * (n - 1.0) * (2.0 * n + 5.0);
    let mut days: Vec<f64> = values.iter().map(|(day, _)| f64::from(day.to_julian_day())).collect();
    let mut sizes: Vec<f64> = values.iter().map(|(_, value)| *value).collect();
    let ties: f64 = [&mut days, &mut sizes].into_iter().flat_map(|all| repeats(all)).map(term).sum();
    (term(values.len() as f64) - ties) / 18.0
}

/// How often each value that is there more than once is there.
fn repeats(values: &mut [f64]) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    let groups = values.chunk_by(|one, other| one == other);
    groups.map(|group| group.len() as f64).filter(|times| *times > 1.0).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::Duration;
    use time::macros::date;

    fn trend(days: &[i64], values: &[f64]) -> Option<Trend> {
        let day = |n: &i64| date!(2025 - 03 - 01) + Duration::days(*n);
        let values: Vec<_> = days.iter().map(day).zip(values.iter().copied()).collect();
        theil_sen(&values)
    }

    /// As scipy 1.17.1, `stats.theilslopes`, says (tests/reference/trends.txt).
    #[test]
    fn slopes_and_intervals_agree_with_scipy() {
        let cases: [(&[i64], &[f64], [f64; 3]); 6] = [
            (
                &[0, 2, 4, 7, 9, 12, 14, 17],
                &[18.0, 15.0, 16.0, 12.0, 11.0, 9.0, 10.0, 6.0],
                [-0.6, -0.857143, -0.5],
            ),
            (
                &[0, 1, 3, 4, 6, 8, 9, 11],
                &[10.0, 12.0, 9.0, 11.0, 10.0, 12.0, 9.0, 11.0],
                [0.0, -0.375, 0.333333],
            ),
            (&[0, 3, 5, 8, 10, 13, 15], &[4.0, 4.0, 5.0, 7.0, 7.0, 9.0, 12.0], [0.5, 0.3, 0.7]),
            (&[0, 0, 2, 4, 4, 6, 9], &[12.0, 10.0, 11.0, 8.0, 9.0, 7.0, 5.0], [-0.75, -1.0, -0.5]),
            (
                &[0, 1, 2, 3, 4, 5, 6, 7, 8, 9],
                &[6.0, 4.0, 6.0, 6.0, 6.0, 4.0, 5.0, 6.0, 4.0, 6.0],
                [0.0, -0.25, 0.0],
            ),
            (&[0, 1, 2, 3, 4], &[9.0, 7.0, 8.0, 5.0, 4.0], [-1.125, -3.0, 1.0]),
        ];
        for (days, values, expected) in cases {
            let found = trend(days, values).expect("a trend");
            for (found, expected) in [found.slope, found.low, found.high].into_iter().zip(expected) {
                assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
            }
        }
    }

    #[test]
    fn four_sittings_or_one_day_have_no_trend() {
        assert_eq!(trend(&[0, 1, 2, 3], &[4.0, 3.0, 2.0, 1.0]), None);
        assert_eq!(trend(&[2; 6], &[4.0, 3.0, 2.0, 1.0, 5.0, 6.0]), None);
    }

    #[test]
    fn one_wild_day_does_not_carry_the_trend() {
        let found = trend(&[0, 1, 2, 3, 4, 5, 6], &[7.0, 6.0, 5.0, 400.0, 3.0, 2.0, 1.0]).expect("a trend");
        assert!((found.slope + 1.0).abs() < 1e-12, "{found:?}");
    }
}
