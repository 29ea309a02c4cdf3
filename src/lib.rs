//! Settlebrook.

pub mod demo;
pub mod domain;
