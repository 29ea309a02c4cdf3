//! What the trade knows: pure values and rules. No I/O, no clock, no async, no SQL.

pub mod access;
pub mod caseload;
pub mod certainty;
pub mod dates;
pub mod dog;
pub mod encounter;
pub mod figure;
pub mod food;
pub mod heat;
pub mod line;
pub mod lists;
pub mod outcomes;
pub mod owner_words;
pub mod place;
pub mod plan;
pub mod plan_order;
pub mod rates;
pub mod readiness;
pub mod scales;
pub mod sitting;
pub mod starter_library;
pub mod today;
pub mod vocabulary;
pub mod weather;
pub mod week;
pub mod welfare;
