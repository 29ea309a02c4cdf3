//! An owner's link: uses it up and signs the phone in that opened it, without an address or a password.

use crate::actions::sign_in::{NewlySignedIn, fresh_sign_in};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::vocabulary::Way;
use crate::ids::AccountId;
use crate::store::audit::{self, AuditEvent};
use crate::store::link_token::{self, LinkKind, ShownLink};
use crate::store::token::TokenHash;
use crate::store::{self, Db, Secret, account, membership};

/// Signs a phone in by a device link; `NotFound` when the link is used, old or none of ours. Whoever comes for the
/// first time gets an account without an address.
pub async fn use_device_link(
    db: &Db,
    token: TokenHash,
    device: &str,
    moment: &Moment,
) -> Done<NewlySignedIn> {
    let ShownLink::Open(link) = link_token::open(db, token, moment.at).await? else {
        return Err(Refusal::NotFound);
    };
    let (mut tx, member) = (link.tx, link.member);
    if link.kind != LinkKind::Device || !link_token::use_up(&mut tx, token, moment.at).await? {
        return Err(Refusal::NotFound);
    }
    let account = match member.account {
        Some(account) => account,
        None => {
            let account: AccountId = moment.id();
            tx.show(Secret::Account(account)).await?;
            account::add(&mut tx, account, None, moment.at).await?;
            if !membership::take_up(&mut tx, member.id, account, moment.at).await? {
                return Err(Refusal::NotFound);
            }
            account
        }
    };
    let standing = (tx.practice(), member.id, member.role);
    let (token, new) = fresh_sign_in(account, standing, Way::Link, device, moment);
    store::sign_in::add(&mut tx, &new, moment.at).await?;
    let event = AuditEvent::by_member(member.id, "use_device_link", "membership", member.id.0, moment);
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(NewlySignedIn { token, expires_at: new.expires_at })
}
