//! The numbers as one practice has them: what the catalogue says, or what the lead has set, never beyond its safe bounds.

use super::catalogue::{CATALOGUE, Parameter};

/// What a practice has set of the catalogue's numbers; what it has not set is as the catalogue says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HouseNumbers {
    set: Vec<(&'static str, f64)>,
}

/// The numbers as the catalogue has them, where no practice has set any.
static AS_CATALOGUED: HouseNumbers = HouseNumbers { set: Vec::new() };

impl HouseNumbers {
    /// The numbers as the catalogue has them.
    pub fn as_catalogued() -> &'static Self {
        &AS_CATALOGUED
    }

    /// The numbers with these ones set: (key, value). Keys that no rule has any more are let pass, and what is no
    /// number is not set.
    pub fn with<'a>(set: impl IntoIterator<Item = (&'a str, f64)>) -> Self {
        let known = set.into_iter().filter(|(_, value)| value.is_finite());
        let known = known.filter_map(|(key, value)| parameter(key).map(|found| (found.key, value)));
        let mut set: Vec<_> = known.collect();
        set.sort_by_key(|(key, _)| *key);
        Self { set }
    }

    /// What the rules use for a number: as set, held within the safe bounds, or as the catalogue says.
    pub fn of(&self, parameter: &Parameter) -> f64 {
        let set = self.set.iter().find(|(key, _)| *key == parameter.key);
        set.map_or(parameter.value, |(_, value)| value.clamp(parameter.low, parameter.high))
    }

    /// A number in per cent, as a share: 0.8 for 80 %.
    pub fn share(&self, parameter: &Parameter) -> f64 {
        self.of(parameter) / 100.0
    }

    /// A number that counts things, as a count.
    pub fn count(&self, parameter: &Parameter) -> usize {
        self.of(parameter).round().max(0.0) as usize
    }

    /// Whether a practice has set this number.
    pub fn is_set(&self, parameter: &Parameter) -> bool {
        self.set.iter().any(|(key, _)| *key == parameter.key)
    }
}

/// Every number of the catalogue once, in the order of its rules.
pub fn parameters() -> Vec<&'static Parameter> {
    let mut all: Vec<&'static Parameter> = Vec::new();
    for parameter in CATALOGUE.iter().flat_map(|rule| rule.parameters) {
        if !all.iter().any(|known| known.key == parameter.key) {
            all.push(parameter);
        }
    }
    all
}

/// The number with this stable name.
pub fn parameter(key: &str) -> Option<&'static Parameter> {
    CATALOGUE.iter().flat_map(|rule| rule.parameters).find(|parameter| parameter.key == key)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn high_arousal() -> &'static Parameter {
        parameter("high_arousal").expect("a number of the catalogue")
    }

    #[test]
    fn what_is_not_set_is_as_the_catalogue_says() {
        let numbers = HouseNumbers::default();
        assert_eq!(numbers.of(high_arousal()), 4.0);
        assert!(!numbers.is_set(high_arousal()));
    }

    #[test]
    fn what_is_set_holds_within_its_bounds() {
        let set = |value| HouseNumbers::with([("high_arousal", value)]).of(high_arousal());
        assert_eq!((set(3.0), set(5.0)), (3.0, 5.0));
        assert_eq!((set(1.0), set(9.0)), (3.0, 5.0), "never beyond the bounds");
        assert_eq!(set(f64::NAN), 4.0);
        assert!(HouseNumbers::with([("high_arousal", 3.0)]).is_set(high_arousal()));
    }

    #[test]
    fn a_key_that_no_rule_has_is_let_pass() {
        assert_eq!(HouseNumbers::with([("gone", 3.0)]), HouseNumbers::default());
    }
}
