//! The formulas: any mechanics text.

/// Standard gravity as these figures use it, m/s².
pub const GRAVITY: f64 = 9.81;

/// Kinetic energy in joules of a mass in kg at a speed in m/s: ½ m v².
pub fn energy(kg: f64, speed: f64) -> f64 {
    0.5 * kg * speed * speed
}

/// Stiffness in N/m of a line from its modulus, the force in newtons for a strain of one, and its length in m: M / L. A
/// longer line is softer.
pub fn stiffness(modulus: f64, length: f64) -> f64 {
    modulus / length
}

/// Peak pull in newtons when a line, as a linear spring of a stiffness in N/m held fast at the other end, stops a mass in
/// kg on level ground from a speed in m/s: v √(k m).
pub fn peak_pull(kg: f64, speed: f64, stiffness: f64) -> f64 {
    speed * (stiffness * kg).sqrt()
}

/// How far the line has stretched by then, in m: v √(m / k).
pub fn stretch(kg: f64, speed: f64, stiffness: f64) -> f64 {
    speed * (kg / stiffness).sqrt()
}

/// Seconds from the line coming tight to the stop: a quarter of the spring's period, (π / 2) √(m / k).
pub fn stop_time(kg: f64, stiffness: f64) -> f64 {
    std::f64::consts::FRAC_PI_2 * (kg / stiffness).sqrt()
}

/// Mean pull in newtons over a stopping distance in m, where the handler gives way by it: m v² / (2 s).
pub fn mean_pull(kg: f64, speed: f64, distance: f64) -> f64 {
    kg * speed * speed / (2.0 * distance)
}
