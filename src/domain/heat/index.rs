//! The heat index of the National Weather Service, for people at rest in the shade.

use super::air::{AirTemperature, Humidity, to_celsius};

/// A heat index: how warm air of this humidity is for a person, expressed as a temperature.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct HeatIndex {
    fahrenheit: f64,
}

impl HeatIndex {
    /// The index of air of this temperature and humidity, as the service computes it: the simple formula below 80 °F, else
    /// the regression with its two adjustments. Stated error of the regression: ±1.3 °F. NWS Weather Prediction Center,
    /// after Rothfusz 1990 (NWS SR 90-23) and Steadman 1979 (J Appl Meteorol 18:861–873).
    ///
    /// The printed chart follows the regression without adjustments, so above 85 % humidity and up to 87 °F it is
    /// lower than this by up to 2.3 °F.
    pub fn of(air: AirTemperature, humidity: Humidity) -> Self {
        Self { fahrenheit: index(air.fahrenheit(), f64::from(humidity.percent())) }
    }

    /// The temperature itself, where the humidity is not known.
    pub(super) fn unadjusted(air: AirTemperature) -> Self {
        Self { fahrenheit: air.fahrenheit() }
    }

    /// An index of so many °F.
    pub(super) fn at(fahrenheit: f64) -> Self {
        Self { fahrenheit }
    }

    /// Degrees Celsius.
    pub fn celsius(self) -> f64 {
        to_celsius(self.fahrenheit)
    }

    /// Degrees Fahrenheit.
    pub fn fahrenheit(self) -> f64 {
        self.fahrenheit
    }
}

/// The index from °F and percent.
fn index(t: f64, rh: f64) -> f64 {
    // The half already averages Steadman's simple formula with the temperature; it is not averaged again.
    let simple = 0.5 * (t + 61.0 + (t - 68.0) * 1.2 + rh * 0.094);
    if simple < 80.0 { simple } else { regression(t, rh) - dry(t, rh) + humid(t, rh) }
}

fn regression(t: f64, rh: f64) -> f64 {
    -42.379 + 2.04901523 * t + 10.14333127 * rh
        - 0.22475541 * t * rh
        - 0.00683783 * t * t
        - 0.05481717 * rh * rh
        + 0.00122874 * t * t * rh
        + 0.00085282 * t * rh * rh
        - 0.00000199 * t * t * rh * rh
}

/// What is taken off in dry air.
fn dry(t: f64, rh: f64) -> f64 {
    if rh >= 13.0 || !(80.0..=112.0).contains(&t) {
        return 0.0;
    }
    // No root of a negative number: from 80 to 112 °F the distance from 95 is 17 at most.
    (13.0 - rh) / 4.0 * ((17.0 - (t - 95.0).abs()) / 17.0).sqrt()
}

/// What is added in damp air.
fn humid(t: f64, rh: f64) -> f64 {
    if rh <= 85.0 || !(80.0..=87.0).contains(&t) {
        return 0.0;
    }
    (rh - 85.0) / 10.0 * ((87.0 - t) / 5.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn close(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() <= within, "{found} is not {expected}");
    }

    /// The printed chart (NWS Tulsa, weather.gov): °F, then the index at 40, 45, 50 … % humidity.
    const CHART: [(f64, &[i16]); 16] = [
        (110.0, &[136]),
        (108.0, &[130, 137]),
        (106.0, &[124, 130, 137]),
        (104.0, &[119, 124, 131, 137]),
        (102.0, &[114, 119, 124, 130, 137]),
        (100.0, &[109, 114, 118, 124, 129, 136]),
        (98.0, &[105, 109, 113, 117, 123, 128, 134]),
        (96.0, &[101, 104, 108, 112, 116, 121, 126, 132]),
        (94.0, &[97, 100, 103, 106, 110, 114, 119, 124, 129, 135]),
        (92.0, &[94, 96, 99, 101, 105, 108, 112, 116, 121, 126, 131]),
        (90.0, &[91, 93, 95, 97, 100, 103, 106, 109, 113, 117, 122, 127, 132]),
        (88.0, &[88, 89, 91, 93, 95, 98, 100, 103, 106, 110, 113, 117, 121]),
        (86.0, &[85, 87, 88, 89, 91, 93, 95, 97, 100, 102, 105, 108, 112]),
        (84.0, &[83, 84, 85, 86, 88, 89, 90, 92, 94, 96, 98, 100, 103]),
        (82.0, &[81, 82, 83, 84, 84, 85, 86, 88, 89, 90, 91, 93, 95]),
        (80.0, &[80, 80, 81, 81, 82, 82, 83, 84, 84, 85, 86, 86, 87]),
    ];

    /// Every printed cell where chart and procedure agree: at least 88 °F, or at most 85 % humidity. Elsewhere the chart
    /// leaves the adjustment for damp air out.
    #[test]
    fn cells_of_the_printed_chart() {
        let mut cells = 0;
        for (t, row) in CHART {
            for (rh, chart) in (40..=100).step_by(5).zip(row) {
                if t >= 88.0 || rh <= 85 {
                    close(index(t, f64::from(rh)), f64::from(*chart), 0.9);
                    cells += 1;
                } else {
                    close(regression(t, f64::from(rh)), f64::from(*chart), 0.9);
                }
            }
        }
        assert_eq!(cells, 123);
        for (t, rh, chart) in
            [(90.0, 60.0, 100.0), (94.0, 65.0, 114.0), (96.0, 50.0, 108.0), (100.0, 40.0, 109.0)]
        {
            close(index(t, rh).round(), chart, 0.0);
        }
    }

    /// The same formula computed independently, to two places.
    #[test]
    fn the_regression_to_two_places() {
        for (t, rh, expected) in [
            (84.0, 70.0, 90.47),
            (86.0, 60.0, 91.10),
            (88.0, 60.0, 95.15),
            (90.0, 80.0, 113.33),
            (94.0, 65.0, 114.39),
            (96.0, 50.0, 107.64),
            (104.0, 40.0, 118.88),
            (110.0, 40.0, 135.66),
        ] {
            close(index(t, rh), expected, 0.005);
        }
    }

    /// Each adjustment by itself, computed independently from the published formula.
    #[test]
    fn adjustments_of_dry_and_of_damp_air() {
        close(index(95.0, 5.0), 88.177, 5e-4);
        close(dry(95.0, 5.0), 2.0, 1e-12);
        close(regression(95.0, 5.0), 90.177, 5e-4);
        close(index(80.0, 100.0), 89.29, 5e-3);
        close(regression(80.0, 100.0), 87.19, 5e-3);
        close(humid(80.0, 100.0), 2.1, 1e-12);
    }

    #[test]
    fn adjustments_hold_within_their_ranges_alone() {
        for (t, rh) in [(79.9, 5.0), (112.1, 5.0), (95.0, 13.0), (95.0, 50.0)] {
            close(dry(t, rh), 0.0, 0.0);
        }
        for (t, rh) in [(79.9, 95.0), (87.1, 95.0), (85.0, 85.0), (85.0, 50.0)] {
            close(humid(t, rh), 0.0, 0.0);
        }
        assert!(dry(80.0, 12.9) > 0.0 && dry(95.0, 0.0) > 3.2 && humid(86.9, 86.0) > 0.0);
        close(dry(112.0, 0.0), 0.0, 1e-12);
    }

    /// One average, not two: with two these would be 79.79 and 69.53.
    #[test]
    fn below_eighty_the_simple_formula_is_averaged_once() {
        close(index(80.0, 40.0), 79.58, 1e-9);
        close(index(70.0, 50.0), 69.05, 1e-9);
    }

    /// Computed independently.
    #[test]
    fn degrees_celsius_in_and_out() {
        for (celsius, percent, expected) in [(30.0, 50, 31.05), (30.0, 70, 35.04), (35.0, 40, 37.22)] {
            let air = AirTemperature::from_celsius(celsius).expect("within range");
            let humidity = Humidity::from_percent(percent).expect("within range");
            close(HeatIndex::of(air, humidity).celsius(), expected, 0.005);
        }
        let air = AirTemperature::from_celsius(20.0).expect("within range");
        let index = HeatIndex::of(air, Humidity::from_percent(50).expect("within range"));
        close(index.fahrenheit(), 66.85, 1e-9);
        close(index.celsius(), 19.36, 0.005);
    }

    proptest! {
        #[test]
        fn every_air_has_a_finite_index(celsius in -40.0_f64..=60.0, percent in 0_i16..=100) {
            let air = AirTemperature::from_celsius(celsius).expect("within range");
            let humidity = Humidity::from_percent(percent).expect("within range");
            prop_assert!(HeatIndex::of(air, humidity).celsius().is_finite());
        }
    }
}
