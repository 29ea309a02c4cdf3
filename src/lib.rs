//! Settlebrook.
