//! HTTP: one folder a noun. Reads go to `store`, writes go through `actions`.

pub mod account;
pub mod assets;
pub mod caseload;
pub mod chart;
pub mod choices;
pub mod conversations;
pub mod cross_site;
pub mod decisions;
pub mod dog_page;
pub mod dogs;
pub mod encounters;
pub mod error;
pub mod field_words;
pub mod flags;
pub mod form;
pub mod form_page;
pub mod headers;
pub mod health;
pub mod household;
pub mod households;
pub mod identity;
pub mod json;
pub mod library;
pub mod link;
pub mod made_link;
pub mod messages;
pub mod notice;
pub mod own_dog;
pub mod page;
pub mod passkeys;
pub mod path;
pub mod people;
pub mod plans;
pub mod practice;
pub mod practice_logs;
pub mod progress;
pub mod revisions;
pub mod routes;
pub mod search;
pub mod set_up;
pub mod sign_in;
pub mod time_limit;
pub mod today;
pub mod watch;
pub mod when;
pub mod whole_body;
pub mod wrong_role;
pub mod zones;

pub use error::WebError;
pub use form::Form;
pub use identity::{AnyMember, LeadOnly, OwnerOnly, TrainerOnly};
pub use page::Page;
pub use path::At;

/// What a handler gives: a page or a redirect, or the error page.
pub type Answer = Result<axum::response::Response, WebError>;
