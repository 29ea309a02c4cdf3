//! What a line does when a running dog comes to its end.
//!
//! Textbook mechanics with generous assumptions, so a pull is on the high side for most dogs, though no bound: a handler who gives way, a dog that
//! brakes or an elastic piece in the line lower it. It says why a long line belongs on a harness and how little slack
//! is enough. A harness on its back ring spares the neck; it does not make a dog pull less.

mod mechanics;
#[cfg(test)]
mod tests;
mod tight;
mod words;

pub use mechanics::{GRAVITY, energy, mean_pull, peak_pull, stiffness, stop_time, stretch};
pub use tight::{ACCELERATION, LINE_MODULUS, SPRINT, Tight, come_tight, longest_slack, speed_in_slack};
pub use words::{ASSUMPTIONS, Assumption, HARNESS, HARNESS_SOURCE, PRACTICE, PULLS, PublishedPull};
