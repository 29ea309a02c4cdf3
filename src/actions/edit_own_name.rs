//! Changes what one is called oneself.

use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, membership};

/// Changes one's own name in this practice; the rest of the membership stays.
pub async fn edit_own_name(mut tx: Tx, actor: &Actor, name: &str, moment: &Moment) -> Done<()> {
    let me = membership::find(&mut tx, actor.membership).await?.ok_or(Refusal::NotFound)?;
    membership::edit(&mut tx, me.id, name, &me.email, &me.phone).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_own_name", "membership", me.id.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
