//! Takes a household in.

use crate::actions::{Done, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::household::{self, Household};

/// Adds the household. The same id sent again changes nothing: a form that was sent twice makes one household.
pub async fn add_household(mut tx: Tx, actor: &Actor, household: &Household, moment: &Moment) -> Done<()> {
    authorise(actor, Action::AddHousehold, None)?;
    if household::find(&mut tx, household.id).await?.is_some() {
        return Ok(());
    }
    household::add(&mut tx, household, moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "add_household", "household", household.id.0, moment))
        .await?;
    tx.commit().await?;
    Ok(())
}
