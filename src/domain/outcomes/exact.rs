//! Counts of events: the exact interval of a share, and of how one rate compares with another.

/// Half of what a 95 % interval leaves out.
const TAIL: f64 = 0.025;
/// Halvings of an interval of shares until it is as narrow as numbers are.
const HALVINGS: u32 = 60;

/// How a rate compares with an earlier one: 1 is the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ratio {
    /// Lower limit of the 95 % interval.
    pub low: f64,
    /// Upper limit of the 95 % interval; infinite where there was none before.
    pub high: f64,
}

/// The exact 95 % interval of a share (Clopper & Pearson 1934, Biometrika 26:404–413); `None` for more than all, or of none.
pub fn clopper_pearson(found: u32, of: u32) -> Option<(f64, f64)> {
    if of == 0 || found > of {
        return None;
    }
    let low = if found == 0 { 0.0 } else { solve(|share| 1.0 - at_most(found - 1, of, share) < TAIL) };
    let high = if found == of { 1.0 } else { solve(|share| at_most(found, of, share) > TAIL) };
    Some((low, high))
}

/// How the rate of `now` events in some weeks compares with that of `before` events in as many earlier ones: given their sum,
/// the newer are a binomial share (Przyborowski & Wilenski 1940, Biometrika 31:313–323). `None` where nothing happened.
pub fn rate_ratio(now: u32, before: u32) -> Option<Ratio> {
    let (low, high) = clopper_pearson(now, now.checked_add(before)?)?;
    Some(Ratio { low: low / (1.0 - low), high: high / (1.0 - high) })
}

/// The share up to which something holds.
fn solve(holds: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(low, high);
        if holds(middle) { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}

/// The chance of at most `k` of `n` at a share strictly between 0 and 1; by logarithms, so that large counts do not vanish.
fn at_most(k: u32, n: u32, share: f64) -> f64 {
    let odds = (share / (1.0 - share)).ln();
    let mut log = f64::from(n) * (1.0 - share).ln();
    let mut sum = log.exp();
    for i in 1..=k {
        log += odds + (f64::from(n - i + 1) / f64::from(i)).ln();
        sum += log.exp();
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first four are Newcombe 1998, table I, method 5 (from memory); all agree with scipy 1.17.1,
    /// `binomtest(…).proportion_ci(method="exact")` (tests/reference/trends.txt).
    #[test]
    fn shares_agree_with_scipy() {
        for (found, of, low, high) in [
            (81, 263, 0.252737, 0.367622),
            (15, 148, 0.057844, 0.161650),
            (0, 20, 0.0, 0.168433),
            (1, 29, 0.000873, 0.177644),
            (5, 18, 0.096949, 0.534802),
            (9, 10, 0.554984, 0.997471),
            (20, 20, 0.831567, 1.0),
            (300, 1200, 0.225721, 0.275511),
        ] {
            let (l, h) = clopper_pearson(found, of).expect("an interval");
            assert!((l - low).abs() < 1e-6 && (h - high).abs() < 1e-6, "{found}/{of}: {l} {h}");
        }
    }

    #[test]
    fn nothing_has_no_interval() {
        assert_eq!(clopper_pearson(0, 0), None);
        assert_eq!(clopper_pearson(3, 2), None);
        assert_eq!(rate_ratio(0, 0), None);
        assert_eq!(rate_ratio(u32::MAX, 1), None);
    }

    #[test]
    fn a_ratio_is_the_odds_of_the_share() {
        let found = rate_ratio(5, 13).expect("a ratio");
        assert!((found.low - 0.096949 / (1.0 - 0.096949)).abs() < 1e-5, "{found:?}");
        assert!((found.high - 0.534802 / (1.0 - 0.534802)).abs() < 1e-5, "{found:?}");
        assert!(rate_ratio(4, 0).expect("a ratio").high.is_infinite());
    }
}
