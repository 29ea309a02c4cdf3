//! What people do, one verb a file. Each is one transaction: authorise, load, decide, write. No HTTP here.

pub mod add_household;
pub mod add_owner;
pub mod change_password;
pub mod edit_household;
pub mod edit_owner;
pub mod edit_practice;
pub mod end_sign_ins;
pub mod invite_trainer;
pub mod make_link;
pub mod password;
pub mod remove_owner;
pub mod remove_trainer;
pub mod reset_password;
pub mod set_up_practice;
pub mod sign_in;
pub mod take_up_invitation;
pub mod use_device_link;

use crate::domain::access::{Access, Action, Actor, Resource, decide};
use crate::ids::HouseholdId;
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

/// Goes on only where this actor may do this, on the practice as a whole or on a household's things.
fn authorise(actor: &Actor, action: Action, household: Option<HouseholdId>) -> Done<()> {
    match decide(actor, action, &Resource { practice: actor.practice, household }) {
        Access::Allow => Ok(()),
        Access::Hide => Err(Refusal::NotFound),
        Access::Refuse => Err(Refusal::Forbidden),
    }
}
