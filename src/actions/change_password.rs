//! Changes one's own password, or sets a first one with an address.

use crate::actions::{Done, Refusal, address_taken};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::{AccountId, SignInId};
use crate::store::audit::{self, AuditEvent};
use crate::store::{Secret, Tx, account, membership, sign_in};

/// What to do about an address that another account has.
const TAKEN: &str = "This address already belongs to an account. Use another.";

/// Whose password is set, and the device that stays signed in.
#[derive(Debug, Clone, Copy)]
pub struct Own {
    /// The account.
    pub account: AccountId,
    /// The sign-in in use.
    pub sign_in: SignInId,
}

/// Replaces the password whose hash is `current`, which the person has just shown, or for which they have just come in
/// by a link or a passkey; every other sign-in ends.
/// `Clash` when the password was changed in the meantime.
pub async fn change_password(
    mut tx: Tx,
    actor: &Actor,
    own: Own,
    current: &str,
    new_hash: &str,
    moment: &Moment,
) -> Done<()> {
    tx.show(Secret::Account(own.account)).await?;
    if account::password_inside(&mut tx, own.account).await?.as_deref() != Some(current) {
        return Err(Refusal::Clash);
    }
    account::set_password(&mut tx, own.account, new_hash, moment.at).await?;
    finish(tx, actor, own, "change_password", moment).await
}

/// Gives an account its first address and password. `Clash` when it has one already.
pub async fn set_first_password(
    mut tx: Tx,
    actor: &Actor,
    own: Own,
    email: &str,
    new_hash: &str,
    moment: &Moment,
) -> Done<()> {
    tx.show(Secret::Account(own.account)).await?;
    if account::password_inside(&mut tx, own.account).await?.is_some() {
        return Err(Refusal::Clash);
    }
    account::set_email(&mut tx, own.account, email).await.map_err(address_taken(TAKEN))?;
    account::set_password(&mut tx, own.account, new_hash, moment.at).await?;
    if let Some(me) = membership::find(actor.membership).read(&mut tx).await?.filter(|me| me.email.is_empty())
    {
        membership::edit(&mut tx, me.id, &me.name, email, &me.phone).await?;
    }
    finish(tx, actor, own, "set_first_password", moment).await
}

async fn finish(mut tx: Tx, actor: &Actor, own: Own, action: &'static str, moment: &Moment) -> Done<()> {
    sign_in::end_all_of_account(&mut tx, own.account, Some(own.sign_in), moment.at).await?;
    audit::note(&mut tx, &AuditEvent::by(actor, action, "membership", actor.membership.0, moment)).await?;
    tx.commit().await?;
    Ok(())
}
