//! Takes an owner out of a household.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::ids::{HouseholdId, MembershipId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Tx, household, link_token, membership, sign_in};

/// Takes the owner out; their links and sign-ins end with it. Whoever belongs to another household as well stays an
/// owner there, and signs in by a new link. What they logged stays.
pub async fn remove_owner(
    mut tx: Tx,
    actor: &Actor,
    household: HouseholdId,
    owner: MembershipId,
    moment: &Moment,
) -> Done<()> {
    authorise(actor, Action::RemoveOwner, Some(household))?;
    // links first: whoever is using one at this moment is waited for, and then signed out below
    link_token::revoke_all(&mut tx, owner, moment.at).await?;
    sign_in::end_all(&mut tx, owner, None, moment.at).await?;
    // held before the households are read: whoever is adding or removing them elsewhere comes before or after, not between
    if !membership::hold_owner(&mut tx, owner).await?
        || !household::has_member(&mut tx, household, owner).await?
    {
        return Err(Refusal::NotFound);
    }
    if membership::households(owner).read(&mut tx).await?.len() > 1 {
        household::remove_member(&mut tx, household, owner).await?;
    } else if !membership::remove(&mut tx, owner, moment.at).await? {
        return Err(Refusal::NotFound);
    }
    audit::note(&mut tx, &AuditEvent::by(actor, "remove_owner", "membership", owner.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
