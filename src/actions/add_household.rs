//! Takes a household in.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::household::{self, Household};

/// Adds the household. Sent again, it changes nothing; the same id with other content is refused.
pub async fn add_household(mut tx: Tx, actor: &Actor, household: &Household, moment: &Moment) -> Done<()> {
    authorise(actor, Action::AddHousehold, None)?;
    if let Some(first) = household::find(&mut tx, household.id).await? {
        return if first == *household { Ok(()) } else { Err(Refusal::Clash) };
    }
    household::add(&mut tx, household, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "add_household", "household", household.id.0, moment))
        .await?;
    tx.commit().await?;
    Ok(())
}
