//! The invented practice: Alderlow Dog Training, its people, its dogs and what happened in twelve weeks.
//!
//! Data only, no I/O. Nobody here exists; phone numbers are from the range kept for drama, addresses from the
//! example domains. `Story` names the state a dog must have reached by now; `moments` are sittings to be logged
//! exactly as written, and everything between them is generated from `items`, `rhythm` and `notes`.
//! A generated sitting never falls on the day of a moment of the same item, and none outside `rhythm`. Nothing
//! here names a weekday or a season, since "now" may be any day of the year.

mod build;
mod households;
mod practice;
#[cfg(test)]
mod tests;
mod types;

pub use practice::PRACTICE;
pub use types::*;

/// Every household, in order.
pub fn households() -> impl Iterator<Item = &'static Household> {
    PRACTICE.households.iter()
}

/// Every dog with its household, in order.
pub fn dogs() -> impl Iterator<Item = (&'static Household, &'static Dog)> {
    households().flat_map(|household| household.dogs.iter().map(move |dog| (household, dog)))
}
