//! A dog that runs out the slack of its line.

use super::mechanics::{GRAVITY, energy, peak_pull, stiffness, stop_time, stretch};

/// How hard a dog speeds up from standing, m/s², held until it sprints. A round figure, about one g, from memory: near
/// the limit that the shape of the body sets to racing greyhounds (Williams, Tan, Usherwood & Wilson 2009, Biol Lett
/// 5:610–613). Most dogs reach less.
pub const ACCELERATION: f64 = 10.0;
/// The speed at which a dog stops speeding up, m/s: 20 mph, the upper end given for most pet dogs (OMSI hand-out, a weak
/// source). Greyhounds reach 17: Usherwood & Wilson 2005 via Hudson, Corr & Wilson 2012, J Exp Biol 215:2425–2434.
pub const SPRINT: f64 = 8.9;
/// Newtons for a line to stretch to twice its length, if it could. A round figure: no measured one was found for
/// training lines.
pub const LINE_MODULUS: f64 = 10_000.0;

/// What happens when the line comes tight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tight {
    /// Slack that the dog had, m.
    pub slack: f64,
    /// Speed at its end, m/s.
    pub speed: f64,
    /// Kinetic energy, J.
    pub energy: f64,
    /// Peak pull, N: an estimate on the high side for most dogs, not a bound.
    pub peak: f64,
    /// The same in weights of the dog.
    pub body_weights: f64,
    /// How far the line stretches, m.
    pub stretch: f64,
    /// How soon the dog stands, s.
    pub stop: f64,
}

/// Speed in m/s that a dog reaches in so much slack in m: √(2 a s) from standing, up to [`SPRINT`].
pub fn speed_in_slack(slack: f64) -> f64 {
    (2.0 * ACCELERATION * slack).sqrt().min(SPRINT)
}

/// What happens when a dog of so many kg has run out so much slack of a line of so many m. `None` for what cannot be:
/// a weight outside 0.1–150 kg, a line outside 0.5–100 m, more slack than line, or what is no number.
pub fn come_tight(kg: f64, line: f64, slack: f64) -> Option<Tight> {
    let stiffness = stiffness_of(kg, line)?;
    if !(0.0..=line).contains(&slack) {
        return None;
    }
    let speed = speed_in_slack(slack);
    let peak = peak_pull(kg, speed, stiffness);
    Some(Tight {
        slack,
        speed,
        energy: energy(kg, speed),
        peak,
        body_weights: peak / (kg * GRAVITY),
        stretch: stretch(kg, speed, stiffness),
        stop: stop_time(kg, stiffness),
    })
}

/// The longest slack in m of a line of so many m at which a dog of so many kg pulls at most so many newtons; the whole
/// line where no slack of it reaches that. `None` for what cannot be, as in [`come_tight`], or a pull below 0.
pub fn longest_slack(kg: f64, line: f64, most: f64) -> Option<f64> {
    let stiffness = stiffness_of(kg, line)?;
    if most.is_nan() || most < 0.0 {
        return None;
    }
    if peak_pull(kg, speed_in_slack(line), stiffness) <= most {
        return Some(line);
    }
    // From F = v √(k m) and v = √(2 a s); below the sprint, or the whole line would have been enough.
    Some(most * most / (2.0 * ACCELERATION * stiffness * kg))
}

/// The stiffness of a line, where dog and line can be.
fn stiffness_of(kg: f64, line: f64) -> Option<f64> {
    ((0.1..=150.0).contains(&kg) && (0.5..=100.0).contains(&line)).then(|| stiffness(LINE_MODULUS, line))
}
