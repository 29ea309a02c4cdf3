//! HTTP: one folder a noun. Reads go to `store`, writes go through `actions`.

pub mod assets;
pub mod chart;
pub mod cross_site;
pub mod encounters;
pub mod error;
pub mod form;
pub mod headers;
pub mod health;
pub mod identity;
pub mod messages;
pub mod notice;
pub mod own_dog;
pub mod page;
pub mod path;
pub mod practice_logs;
pub mod progress;
pub mod routes;
pub mod set_up;
pub mod sign_in;
pub mod today;
pub mod watch;
pub mod when;
pub mod zones;

pub use error::WebError;
pub use form::Form;
pub use identity::{AnyMember, LeadOnly, OwnerOnly, TrainerOnly};
pub use page::Page;
pub use path::At;

/// What a handler gives: a page or a redirect, or the error page.
pub type Answer = Result<axum::response::Response, WebError>;
