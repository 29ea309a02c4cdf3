//! An invented practice to try the service with.

pub mod content;
