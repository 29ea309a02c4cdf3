//! HTTP: one folder a noun. Reads go to `store`, writes go through `actions`.

pub mod assets;
pub mod cross_site;
pub mod error;
pub mod form;
pub mod headers;
pub mod health;
pub mod identity;
pub mod notice;
pub mod page;
pub mod plans;
pub mod routes;
pub mod set_up;
pub mod sign_in;
pub mod zones;

pub use error::WebError;
pub use form::Form;
pub use identity::{AnyMember, LeadOnly, OwnerOnly, TrainerOnly};
pub use page::Page;

/// What a handler gives: a page or a redirect, or the error page.
pub type Answer = Result<axum::response::Response, WebError>;
