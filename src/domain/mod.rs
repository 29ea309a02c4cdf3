//! What the trade knows: pure values and rules. No I/O, no clock, no async, no SQL.

pub mod access;
pub mod caseload;
pub mod dates;
pub mod dog;
pub mod encounter;
pub mod lists;
pub mod owner_words;
pub mod plan;
pub mod plan_order;
pub mod readiness;
pub mod revision;
pub mod scales;
pub mod sitting;
pub mod starter_library;
pub mod today;
pub mod vocabulary;
pub mod welfare;
