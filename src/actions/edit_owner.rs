//! Changes what an owner is called and where they are reached.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{HouseholdId, MembershipId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, household, membership};

/// What may be changed.
#[derive(Debug, Clone)]
pub struct OwnerFacts {
    /// The person's name.
    pub name: String,
    /// A telephone number, or empty.
    pub phone: String,
    /// An address to write to, or empty.
    pub email: String,
}

/// Changes an owner of a household.
pub async fn edit_owner(
    mut tx: Tx,
    actor: &Actor,
    household: HouseholdId,
    owner: MembershipId,
    facts: &OwnerFacts,
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::KeepHousehold, Some(household))?;
    if !household::has_member(&mut tx, household, owner).await? {
        return Err(Refusal::NotFound);
    }
    membership::edit(&mut tx, owner, &facts.name, &facts.email, &facts.phone).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_owner", "membership", owner.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
