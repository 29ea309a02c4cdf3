//! Food: what a dog needs in a day, what it earned in training, what fits, and what it must not eat.
//!
//! Every figure is a starting point taken from populations of dogs; needs at one weight differ up to threefold
//! (Merck Veterinary Manual, second-hand). Nothing here says that a food or an amount is harmless.

pub mod allergens;
pub mod earned;
pub mod energy;
pub mod fits;
pub mod label;
pub mod listed;
pub mod picture;
pub mod poisons;
pub mod share;
mod words;
