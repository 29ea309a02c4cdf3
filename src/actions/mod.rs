//! What people do, one verb a file. Each is one transaction: authorise, load, decide, write. No HTTP here.

pub mod add_draft_item;
pub mod edit_draft_item;
pub mod move_draft_item;
pub mod note_on_draft;
pub mod password;
pub mod plan_draft;
pub mod publish_plan;
pub mod remove_draft_item;
pub mod restart_draft;
pub mod set_up_practice;
pub mod sign_in;

use crate::store;

/// Why an action was not done. Nothing was written.
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// There is no such thing, or it is not this person's to see.
    #[error("no such thing")]
    NotFound,
    /// One may see it, but not do this.
    #[error("not allowed")]
    Forbidden,
    /// The same id was used before, for something else.
    #[error("sent before, with other content")]
    Clash,
    /// A field cannot be taken, for a reason that only the database knows.
    #[error("{field}: {message}")]
    Field {
        /// The form's field.
        field: &'static str,
        /// What to do about it.
        message: &'static str,
    },
    /// The database failed.
    #[error(transparent)]
    Database(#[from] store::Error),
}

/// What an action gives.
pub type Done<T> = Result<T, Refusal>;
