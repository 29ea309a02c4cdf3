//! What the trade knows, as pure code and data: no I/O, no clock, no async, no SQL.

pub mod starter_library;
pub mod vocabulary;
