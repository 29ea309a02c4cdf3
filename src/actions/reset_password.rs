//! A trainer who lost their password sets a new one by a link from their lead trainer.

use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::store::audit::{self, AuditEvent};
use crate::store::link_token::{self, LinkKind, ShownLink};
use crate::store::token::TokenHash;
use crate::store::{Db, Secret, account, membership, passkey, sign_in};

/// Sets the password, removes the account's passkeys and ends every sign-in of it: whoever took the account over has no
/// way back in. Nobody is signed in by it: the new password does that.
///
/// `NotFound` when the link is used, old or none of ours. `Forbidden` when the account stands in another practice as
/// well: one practice's link must not open another's door.
pub async fn reset_password(db: &Db, token: TokenHash, password_hash: &str, moment: &Moment) -> Done<()> {
    let ShownLink::Open(link) = link_token::open(db, token, moment.at).await? else {
        return Err(Refusal::NotFound);
    };
    let (mut tx, member) = (link.tx, link.member);
    let Some(account) = member.account.filter(|_| link.kind == LinkKind::Invitation) else {
        return Err(Refusal::NotFound);
    };
    tx.show(Secret::Account(account)).await?;
    if membership::stands_elsewhere(&mut tx, account).await? {
        return Err(Refusal::Forbidden);
    }
    if !link_token::use_up(&mut tx, token, moment.at).await? {
        return Err(Refusal::NotFound);
    }
    account::set_password(&mut tx, account, password_hash, moment.at).await?;
    passkey::remove_all(&mut tx, account).await?;
    sign_in::end_all_of_account(&mut tx, account, None, moment.at).await?;
    let event = AuditEvent::by_member(member.id, "reset_password", "membership", member.id.0, moment);
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(())
}
