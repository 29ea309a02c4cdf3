//! What the trade knows: pure values and rules. No I/O, no clock, no async, no SQL.

pub mod vocabulary;
