//! What happened in life: two taps to say it, a page that says what to do first, and "I am not coping".

mod edit;
pub(in crate::web) mod fields;
mod new;
mod not_coping;
pub mod pasted;
mod remove;
mod show;

pub use edit::{change, edit};
pub use fields::{kind_words, reaction_words};
pub use new::{new, submit};
pub use not_coping::{not_coping, say_not_coping};
pub use remove::{ask as ask_to_remove, remove};
pub use show::show;

/// The most characters of what somebody writes who is not coping.
pub(in crate::web) const LONGEST_CALL: usize = 2000;
