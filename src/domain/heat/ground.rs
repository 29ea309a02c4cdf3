//! Hot ground: what paving does in the sun.

use super::air::to_celsius;

/// Asphalt in the sun beside the air above it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    air_f: f64,
    asphalt_f: f64,
}

impl Ground {
    /// The air, °C.
    pub fn air_c(self) -> f64 {
        to_celsius(self.air_f)
    }

    /// The asphalt, °C.
    pub fn asphalt_c(self) -> f64 {
        to_celsius(self.asphalt_f)
    }
}

/// Three readings, coolest first.
pub const PAVEMENT: [Ground; 3] = [
    Ground { air_f: 77.0, asphalt_f: 125.0 },
    Ground { air_f: 86.0, asphalt_f: 135.0 },
    Ground { air_f: 87.0, asphalt_f: 143.0 },
];

/// Where they come from.
pub const PAVEMENT_SOURCE: &str = "Berens 1970, JAMA 214(11):2025–2027, second-hand.";

/// How to tell with a hand.
pub const HAND_TEST: &str = "Lay the back of your hand on the ground for five seconds. What you cannot bear, paws should \
    not have to: choose grass, shade or another hour.";

/// Where the hand test comes from.
pub const HAND_TEST_SOURCE: &str = "Common practice.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn asphalt_in_degrees_celsius() {
        let rounded =
            PAVEMENT.map(|ground| (ground.air_c().round() as i32, ground.asphalt_c().round() as i32));
        assert_eq!(rounded, [(25, 52), (30, 57), (31, 62)]);
    }
}
