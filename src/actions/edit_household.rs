//! Changes a household's name, zone and private note.

use crate::actions::{Done, Refusal, authorise};
use crate::clock::Moment;
use crate::domain::access::{Action, Actor};
use crate::store::Tx;
use crate::store::audit::{self, AuditEvent};
use crate::store::household::{self, Household};

/// Changes the household with this id.
pub async fn edit_household(mut tx: Tx, actor: &Actor, household: &Household, moment: &Moment) -> Done<()> {
    authorise(actor, Action::KeepHousehold, Some(household.id))?;
    household::find(&mut tx, household.id).await?.ok_or(Refusal::NotFound)?;
    household::edit(&mut tx, household).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, "edit_household", "household", household.id.0, moment))
        .await?;
    tx.commit().await?;
    Ok(())
}
