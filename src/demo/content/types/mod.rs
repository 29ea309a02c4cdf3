//! The shapes the invented practice is written in.
//!
//! Days are counted back from "now": 0 is today, 84 is twelve weeks ago. People are named by `key`, unique across
//! trainers and owners, so that a message or a sitting can say who. Dates of birth are ages in days at "now".

mod dog;
mod people;
mod plan;
mod profile;
mod sitting;

pub use dog::*;
pub use people::*;
pub use plan::*;
pub use profile::*;
pub use sitting::*;
