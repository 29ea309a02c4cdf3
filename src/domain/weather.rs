//! The weather of a sitting, as far as somebody stated it.

use super::sitting::FieldError;
use super::vocabulary::Felt;

/// What was stated of the weather. `None` means not stated.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Weather {
    /// Air temperature in the shade, °C.
    pub air_c: Option<f64>,
    /// Relative humidity, per cent.
    pub humidity: Option<i16>,
    /// How warm it felt, where nothing was measured.
    pub felt: Option<Felt>,
    /// Whether the work was in full sun.
    pub in_sun: Option<bool>,
    /// Whether the ground was too hot to keep a hand on.
    pub hot_ground: Option<bool>,
}

impl Weather {
    /// Everything that cannot be right, all at once.
    pub fn check(&self) -> Vec<FieldError> {
        let mut errors = Vec::new();
        if self.air_c.is_some_and(|c| !(-40.0..=60.0).contains(&c)) {
            errors.push(FieldError { field: "air_c", says: "Give the degrees Celsius, from −40 to 60." });
        }
        if self.humidity.is_some_and(|rh| !(0..=100).contains(&rh)) {
            errors.push(FieldError { field: "humidity", says: "Give the per cent, from 0 to 100." });
        }
        errors
    }

    /// Whether anything at all was stated.
    pub fn is_stated(&self) -> bool {
        *self != Self::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fields(weather: Weather) -> Vec<&'static str> {
        weather.check().iter().map(|error| error.field).collect()
    }

    #[test]
    fn ranges_hold_at_both_ends() {
        let weather = |air_c, humidity| {
            fields(Weather { air_c: Some(air_c), humidity: Some(humidity), ..Weather::default() })
        };
        assert!(weather(-40.0, 0).is_empty() && weather(60.0, 100).is_empty());
        assert_eq!(weather(-40.1, -1), ["air_c", "humidity"]);
        assert_eq!(weather(60.1, 101), ["air_c", "humidity"]);
        assert_eq!(weather(f64::NAN, 50), ["air_c"]);
    }

    #[test]
    fn one_word_is_enough_to_be_stated() {
        assert!(!Weather::default().is_stated());
        assert!(Weather { felt: Some(Felt::Hot), ..Weather::default() }.is_stated());
    }
}
