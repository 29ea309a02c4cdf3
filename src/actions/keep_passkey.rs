//! Renames or removes a passkey of one's own account.

use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::{AccountId, PasskeyId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Secret, Tx, passkey};

/// Renames a passkey; `NotFound` when this account has none such.
pub async fn rename_passkey(
    mut tx: Tx,
    actor: &Actor,
    account: AccountId,
    id: PasskeyId,
    name: &str,
    moment: &Moment,
) -> Done<()> {
    tx.show(Secret::Account(account)).await?;
    if !passkey::rename(&mut tx, account, id, name).await? {
        return Err(Refusal::NotFound);
    }
    noted(tx, actor, "rename_passkey", moment).await
}

/// Removes a passkey, which signs nobody in from now on; `NotFound` when this account has none such.
pub async fn remove_passkey(
    mut tx: Tx,
    actor: &Actor,
    account: AccountId,
    id: PasskeyId,
    moment: &Moment,
) -> Done<()> {
    tx.show(Secret::Account(account)).await?;
    if !passkey::remove(&mut tx, account, id).await? {
        return Err(Refusal::NotFound);
    }
    noted(tx, actor, "remove_passkey", moment).await
}

async fn noted(mut tx: Tx, actor: &Actor, action: &'static str, moment: &Moment) -> Done<()> {
    audit::note(&mut tx, &AuditEvent::by(actor, action, "membership", actor.membership.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
