//! Adds an owner to a household, with the link that signs their phone in.

use crate::actions::make_link::{self, MadeLink};
use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::domain::vocabulary::Role;
use crate::ids::{HouseholdId, MembershipId};
use crate::store::audit::{self, AuditEvent};
use crate::store::membership::{self, NewMembership};
use crate::store::{Tx, household};

/// Who is added.
#[derive(Debug, Clone)]
pub struct NewOwner {
    /// The id that the form was given.
    pub id: MembershipId,
    /// The person's name.
    pub name: String,
    /// A telephone number, or empty.
    pub phone: String,
    /// An address to write to, or empty.
    pub email: String,
}

/// Adds the owner and makes their link. Sent again, it makes a new link for the same person; the same id for anybody else
/// is refused.
pub async fn add_owner(
    mut tx: Tx,
    actor: &Actor,
    household: HouseholdId,
    new: NewOwner,
    moment: &Moment,
) -> Done<MadeLink> {
    household::find(&mut tx, household).await?.ok_or(Refusal::NotFound)?;
    authorise(actor, Action::InviteOwner, Some(household))?;
    if let Some(first) = membership::find(new.id).read(&mut tx).await? {
        let same = (&first.name, &first.phone, &first.email) == (&new.name, &new.phone, &new.email);
        if !same || !household::has_member(&mut tx, household, new.id).await? {
            return Err(Refusal::Clash);
        }
        return make_link::make_link(tx, actor, new.id, false, moment).await;
    }
    let owner = NewMembership {
        id: new.id,
        account: None,
        role: Role::Owner,
        name: new.name,
        email: new.email,
        phone: new.phone,
    };
    membership::add(&mut tx, &owner, moment.at).await?;
    household::add_member(&mut tx, household, owner.id, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "add_owner", "membership", owner.id.0, moment)).await?;
    let owner = membership::find(owner.id).read(&mut tx).await?.ok_or(Refusal::NotFound)?;
    let made = make_link::add(&mut tx, actor, owner, moment).await?;
    tx.commit().await?;
    Ok(made)
}
