//! Settlebrook from the outside: one binary that speaks HTTP to the whole service over a database of its own for each
//! test. Run it by `tests/run`, which provides PostgreSQL.

mod access;
mod acts;
mod bad_input;
mod bad_requests;
mod cancel;
mod catalogue;
mod contrast;
mod cross_site;
mod demo;
mod encounters;
mod errors;
mod flags;
mod food;
mod forms;
mod guide;
mod heat;
mod history;
mod import;
mod incidents;
mod journey;
mod line;
mod long_lists;
mod measures;
mod messages;
mod numbers;
mod odd_addresses;
#[cfg(feature = "passkeys")]
mod passkeys;
mod people;
mod plans;
mod readiness;
mod rebuild;
mod revisions;
mod routes;
mod set_up;
mod sign_in;
mod slow_form;
mod support;
mod team;
mod tidy;
mod today;
mod walls;
mod welfare_facts;
