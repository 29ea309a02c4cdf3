//! Invites somebody into the team, with the link by which they take their place up.

use crate::actions::make_link::{self, MadeLink};
use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Role;
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::membership::{self, NewMembership};

/// Adds the trainer and makes their link. Sent again, it makes a new link for the same person; the same id for anybody
/// else is refused.
pub async fn invite_trainer(
    mut tx: Tx,
    actor: &Actor,
    new: NewMembership,
    moment: &Moment,
) -> Done<MadeLink> {
    authorise(actor, Action::KeepTeam, None)?;
    if new.role == Role::Owner {
        return Err(Refusal::Forbidden);
    }
    if let Some(known) = membership::find(new.id).read(&mut tx).await? {
        if (known.role, &known.name, &known.email) != (new.role, &new.name, &new.email) {
            return Err(Refusal::Clash);
        }
        return make_link::make_link(tx, actor, new.id, false, moment).await;
    }
    membership::add(&mut tx, &new, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "invite_trainer", "membership", new.id.0, moment)).await?;
    let trainer = membership::find(new.id).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    let made = make_link::add(&mut tx, actor, trainer, moment).await?;
    tx.commit().await?;
    Ok(made)
}
