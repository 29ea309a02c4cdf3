//! What is known of the air: measured, or felt.

use crate::domain::vocabulary::Felt;

/// An air temperature that can be, −40 to 60 °C, in the shade.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct AirTemperature(f64);

impl AirTemperature {
    /// The lowest that is taken, °C.
    pub const LOWEST: f64 = -40.0;
    /// The highest that is taken, °C.
    pub const HIGHEST: f64 = 60.0;

    /// From degrees Celsius; `None` outside the range, and for what is no number.
    pub fn from_celsius(celsius: f64) -> Option<Self> {
        (Self::LOWEST..=Self::HIGHEST).contains(&celsius).then_some(Self(celsius))
    }

    /// From degrees Fahrenheit; `None` outside the range, and for what is no number.
    pub fn from_fahrenheit(fahrenheit: f64) -> Option<Self> {
        Self::from_celsius(to_celsius(fahrenheit))
    }

    /// Degrees Celsius.
    pub fn celsius(self) -> f64 {
        self.0
    }

    /// Degrees Fahrenheit.
    pub fn fahrenheit(self) -> f64 {
        to_fahrenheit(self.0)
    }
}

/// Relative humidity in whole percent, 0 to 100.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Humidity(i16);

impl Humidity {
    /// From whole percent; `None` outside 0–100.
    pub fn from_percent(percent: i16) -> Option<Self> {
        (0..=100).contains(&percent).then_some(Self(percent))
    }

    /// Whole percent.
    pub fn percent(self) -> i16 {
        self.0
    }
}

/// What is known of the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Air {
    /// Temperature and humidity.
    Measured(AirTemperature, Humidity),
    /// Temperature alone.
    TemperatureAlone(AirTemperature),
    /// How it felt; nothing was measured.
    Felt(Felt),
}

impl Air {
    /// What is known of the air from what was stated. What was measured goes before what was felt; a figure that
    /// cannot be counts as not stated, and humidity without a temperature says nothing. `None` when heat was not
    /// checked.
    pub fn stated(air_c: Option<f64>, humidity: Option<i16>, felt: Option<Felt>) -> Option<Self> {
        let temperature = air_c.and_then(AirTemperature::from_celsius);
        match (temperature, humidity.and_then(Humidity::from_percent)) {
            (Some(temperature), Some(humidity)) => Some(Self::Measured(temperature, humidity)),
            (Some(temperature), None) => Some(Self::TemperatureAlone(temperature)),
            (None, _) => felt.map(Self::Felt),
        }
    }
}

/// Degrees Fahrenheit as degrees Celsius.
pub(super) fn to_celsius(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}

/// Degrees Celsius as degrees Fahrenheit.
pub(super) fn to_fahrenheit(celsius: f64) -> f64 {
    celsius * 1.8 + 32.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn degrees_agree_where_everybody_knows_them() {
        for (celsius, fahrenheit) in [(-40.0, -40.0), (0.0, 32.0), (37.0, 98.6), (60.0, 140.0)] {
            let air = AirTemperature::from_celsius(celsius).expect("within range");
            assert!((air.fahrenheit() - fahrenheit).abs() < 1e-9);
            assert!((to_celsius(fahrenheit) - celsius).abs() < 1e-9);
        }
    }

    #[test]
    fn what_cannot_be_is_not_taken() {
        for celsius in [-40.1, 60.1, f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(AirTemperature::from_celsius(celsius), None, "{celsius}");
        }
        assert!(
            AirTemperature::from_celsius(-40.0).is_some() && AirTemperature::from_celsius(60.0).is_some()
        );
        assert!(AirTemperature::from_fahrenheit(50.0).is_some_and(|air| (air.celsius() - 10.0).abs() < 1e-9));
        assert_eq!((Humidity::from_percent(-1), Humidity::from_percent(101)), (None, None));
        assert!(Humidity::from_percent(0).is_some());
        assert_eq!(Humidity::from_percent(100).map(Humidity::percent), Some(100));
    }

    #[test]
    fn what_was_measured_goes_before_what_was_felt() {
        let hot = Some(Felt::Hot);
        let at = |c| AirTemperature::from_celsius(c).expect("within range");
        let damp = Humidity::from_percent(80).expect("within range");
        assert_eq!(Air::stated(Some(12.0), Some(80), hot), Some(Air::Measured(at(12.0), damp)));
        assert_eq!(Air::stated(Some(12.0), None, hot), Some(Air::TemperatureAlone(at(12.0))));
        assert_eq!(Air::stated(None, Some(80), hot), Some(Air::Felt(Felt::Hot)));
        assert_eq!(Air::stated(None, Some(80), None), None);
        assert_eq!(Air::stated(None, None, None), None);
    }

    #[test]
    fn a_figure_that_cannot_be_counts_as_not_stated() {
        assert_eq!(Air::stated(Some(f64::NAN), Some(50), Some(Felt::Warm)), Some(Air::Felt(Felt::Warm)));
        assert_eq!(Air::stated(Some(200.0), Some(50), None), None);
        let alone = AirTemperature::from_celsius(20.0).map(Air::TemperatureAlone);
        assert_eq!(Air::stated(Some(20.0), Some(101), None), alone);
    }

    proptest! {
        #[test]
        fn degrees_there_and_back_are_the_same(celsius in -40.0_f64..=60.0) {
            prop_assert!((to_celsius(to_fahrenheit(celsius)) - celsius).abs() < 1e-9);
        }

        #[test]
        fn nothing_typed_panics(air in any::<f64>(), humidity in any::<i16>()) {
            let _ = Air::stated(Some(air), Some(humidity), None);
            let _ = AirTemperature::from_fahrenheit(air);
        }
    }
}
