//! Sittings: the form, the one tap, and the page that says what came of it. Owners and trainers use the same ones.

pub mod ask;
mod edit;
pub(in crate::web) mod fields;
mod figures;
mod filled;
mod heat;
mod measured;
pub(in crate::web) mod new;
pub mod practise;
mod remove;
mod show;
mod submit;
mod well;

pub use edit::{change, edit};
pub use fields::{is_counted, is_line_work};
pub use figures::owner_reading;
pub use measured::advice;
pub use new::new;
pub use remove::{ask as ask_to_remove, remove};
pub use show::{show, told_by, value};
pub use submit::submit;
