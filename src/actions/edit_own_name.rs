//! Changes what one is called oneself, and one's number.

use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, membership};

/// Changes one's own name and number in this practice; `phone` is none where it was left as it was; what others may be changing of the membership just now stays theirs.
/// `NotFound` when it has just ended.
pub async fn edit_own_name(
    mut tx: Tx,
    actor: &Actor,
    (name, phone): (&str, Option<&str>),
    moment: &Moment,
) -> Done<()> {
    let me = actor.membership;
    if !membership::rename(&mut tx, me, name, phone).await? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_own_name", "membership", me.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
