//! What people do, one verb a file. Each is one transaction: authorise, load, decide, write. No HTTP here.

pub mod answer_flag;
pub mod decide;
pub mod password;
pub mod raise_flags;
pub mod rebuild_summary;
pub mod record_encounter;
pub mod say_not_coping;
pub mod send_message;
pub mod set_up_practice;
pub mod sign_in;
pub mod submit_practice_log;

use uuid::Uuid;

use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::store::audit::{self, AuditEvent};
use crate::store::{self, Tx};

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

/// Notes who did what, in the transaction that does it.
pub async fn note_audit(
    tx: &mut Tx,
    actor: &Actor,
    action: &str,
    object_kind: &str,
    object: Uuid,
    moment: &Moment,
) -> store::Result<()> {
    let event = AuditEvent {
        id: moment.id(),
        at: moment.at,
        by: Some(actor.membership),
        action,
        object_kind,
        object: Some(object),
        detail: "",
    };
    audit::note(tx, &event).await
}
