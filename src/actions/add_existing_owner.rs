//! Makes somebody who is an owner in this practice already an owner of one more household.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{HouseholdId, MembershipId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, household, membership};

/// Adds the owner, who needs no new link: the phones they are signed in on see the household from now on. Sent again, it
/// changes nothing. `NotFound` when there is no such household, or nobody such among the standing owners.
pub async fn add_existing_owner(
    mut tx: Tx,
    actor: &Actor,
    household: HouseholdId,
    owner: MembershipId,
    moment: &Moment,
) -> Done<()> {
    household::find(&mut tx, household).await?.ok_or(Refusal::NotFound)?;
    authorise(actor, Action::KeepHousehold, Some(household))?;
    if !membership::hold_owner(&mut tx, owner).await? {
        return Err(Refusal::NotFound);
    }
    if household::has_member(&mut tx, household, owner).await? {
        return Ok(());
    }
    household::add_member(&mut tx, household, owner, moment.at).await?;
    let event = AuditEvent::by(actor, "add_existing_owner", "membership", owner.0, moment);
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(())
}
