//! Sittings: the form, the one tap, and the page that says what came of it. Owners and trainers use the same ones.

pub mod ask;
mod fields;
mod figures;
mod heat;
mod measured;
mod new;
mod show;
mod submit;
mod well;

pub use fields::{is_counted, is_line_work};
pub use figures::owner_reading;
pub use measured::advice;
pub use new::new;
pub use show::{show, value};
pub use submit::submit;
