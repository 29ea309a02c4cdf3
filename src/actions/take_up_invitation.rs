//! A trainer's invitation: a new account, or one they have already, takes up their place in the practice.

use crate::actions::sign_in::{NewlySignedIn, fresh_sign_in};
use crate::actions::{Done, Refusal, address_taken, field_refused};
use crate::clock::Moment;
use crate::domain::vocabulary::Way;
use crate::ids::AccountId;
use crate::store::audit::{self, AuditEvent};
use crate::store::link_token::{self, LinkKind, ShownLink};
use crate::store::token::TokenHash;
use crate::store::{Db, Secret, Tx, account, membership, sign_in};

/// What to do about an address that was given to another account meanwhile.
const TAKEN: &str =
    "This address was given to another account just now. Send the form again, with that account's password.";
/// What to do about an account that has a place here already.
const HERE_ALREADY: &str = "This address already belongs to somebody in this practice. Use another.";

/// Who takes the invitation up.
#[derive(Debug, Clone)]
pub enum Holder {
    /// Somebody without an account: their password, hashed.
    New {
        /// The hash.
        password_hash: String,
    },
    /// Somebody who has just proven this account.
    Known(AccountId),
}

/// What the invitation's form holds, checked.
#[derive(Debug, Clone)]
pub struct TakeUp {
    /// The trainer's name.
    pub name: String,
    /// The trainer's address.
    pub email: String,
    /// The account.
    pub holder: Holder,
    /// What the browser calls itself.
    pub device: String,
}

/// Takes an invitation up and signs the trainer in; `NotFound` when the link is used, old or none of ours.
pub async fn take_up_invitation(
    db: &Db,
    token: TokenHash,
    given: &TakeUp,
    moment: &Moment,
) -> Done<NewlySignedIn> {
    let ShownLink::Open(link) = link_token::open(db, token, moment.at).await? else {
        return Err(Refusal::NotFound);
    };
    let (mut tx, member) = (link.tx, link.member);
    if link.kind != LinkKind::Invitation || !link_token::use_up(&mut tx, token, moment.at).await? {
        return Err(Refusal::NotFound);
    }
    let account = account_of(&mut tx, given, moment).await?;
    if !membership::take_up(&mut tx, member.id, account, moment.at).await.map_err(field_refused(
        "membership_account_once",
        "email",
        HERE_ALREADY,
    ))? {
        return Err(Refusal::NotFound);
    }
    membership::edit(&mut tx, member.id, &given.name, &given.email, &member.phone).await?;
    sign_in::end_all(&mut tx, member.id, None, moment.at).await?;
    let standing = (tx.practice(), member.id, member.role);
    let (token, new) = fresh_sign_in(account, standing, Way::Password, &given.device, moment);
    sign_in::add(&mut tx, &new, moment.at).await?;
    let event = AuditEvent::by_member(member.id, "take_up_invitation", "membership", member.id.0, moment);
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(NewlySignedIn { token, expires_at: new.expires_at })
}

async fn account_of(tx: &mut Tx, given: &TakeUp, moment: &Moment) -> Done<AccountId> {
    match &given.holder {
        Holder::Known(account) => {
            tx.show(Secret::Account(*account)).await?;
            Ok(*account)
        }
        Holder::New { password_hash } => {
            let account: AccountId = moment.id();
            tx.show(Secret::Account(account)).await?;
            account::add(tx, account, Some(&given.email), moment.at).await.map_err(address_taken(TAKEN))?;
            account::set_password(tx, account, password_hash, moment.at).await?;
            Ok(account)
        }
    }
}
