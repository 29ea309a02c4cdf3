//! Settlebrook.
pub mod app;
pub mod config;
pub mod database;
pub mod refusal;
