//! Scales: round numbers that hold the values, few enough to be read.

/// The labelled values of an axis, rising; the first is its bottom and the last its top.
pub type Scale = Vec<(f64, String)>;

/// Steps between labels, at most.
const MOST: f64 = 4.0;

/// From 0 to 100 per cent.
pub fn per_cent() -> Scale {
    [0.0, 50.0, 100.0].map(|value| (value, format!("{value} %"))).into()
}

/// From nothing to a round number that is no less than the highest value.
pub fn upto(highest: f64, unit: &str) -> Scale {
    between(0.0, highest, unit)
}

/// Between round numbers that hold the lowest and the highest value.
pub fn between(lowest: f64, highest: f64, unit: &str) -> Scale {
    let (lowest, highest) = if highest > lowest { (lowest, highest) } else { (lowest, lowest + 1.0) };
    let step = step((highest - lowest) / MOST);
    let (first, last) = ((lowest / step).floor() as i64, (highest / step).ceil() as i64);
    (first..=last)
        .map(|n| {
            // steps of a tenth or a hundredth must not end in 0.30000000000000004
            let value = (n as f64 * step * 1000.0).round() / 1000.0;
            (value, if unit.is_empty() { format!("{value}") } else { format!("{value} {unit}") })
        })
        .collect()
}

/// The round number that is no less: 1, 2 or 5 with noughts.
fn step(least: f64) -> f64 {
    let ten = 10_f64.powf(least.log10().floor());
    let found = [1.0, 2.0, 5.0].into_iter().map(|n| n * ten).find(|step| *step >= least - 1e-9);
    found.unwrap_or(10.0 * ten).max(0.01)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(scale: &Scale) -> Vec<&str> {
        scale.iter().map(|(_, words)| words.as_str()).collect()
    }

    #[test]
    fn scales_hold_their_values_between_round_numbers() {
        assert_eq!(words(&upto(13.0, "min")), ["0 min", "5 min", "10 min", "15 min"]);
        assert_eq!(words(&upto(4.0, "")), ["0", "1", "2", "3", "4"]);
        assert_eq!(words(&between(17.9, 18.6, "kg")), ["17.8 kg", "18 kg", "18.2 kg", "18.4 kg", "18.6 kg"]);
        assert_eq!(words(&upto(0.0, "m")), ["0 m", "0.5 m", "1 m"]);
        for highest in [0.3, 1.0, 7.0, 99.0, 101.0, 2000.0] {
            let scale = upto(highest, "");
            assert!(scale.last().is_some_and(|(top, _)| *top >= highest), "{highest}: {scale:?}");
            assert!((2..=6).contains(&scale.len()), "{highest}: {scale:?}");
        }
    }
}
