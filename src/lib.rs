//! Settlebrook.
pub mod domain;
pub mod ids;
