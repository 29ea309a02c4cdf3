//! Settlebrook: homework between lessons, for reward-based dog trainers and the owners they teach.
//!
//! In reading order: what the trade knows ([`domain`]), where facts are kept ([`store`]), what people do
//! ([`actions`]), how they meet it ([`web`]), and how it is put together ([`app`]).

pub mod actions;
pub mod app;
pub mod clock;
pub mod config;
pub mod database;
pub mod demo;
pub mod domain;
pub mod ids;
pub mod refusal;
pub mod store;
pub mod web;
