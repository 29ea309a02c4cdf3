//! First-run set-up: a practice, its lead trainer and its starter library, for whoever holds the printed link.

use time::OffsetDateTime;

use crate::actions::copy_starter_library::copy_starter_library;
use crate::actions::{Done, Refusal, address_taken, sign_in::fresh_sign_in};
use crate::clock::Moment;
use crate::domain::vocabulary::{Role, Way};
use crate::ids::{AccountId, MembershipId, PracticeId};
use crate::store::audit::{self, AuditEvent};
use crate::store::membership::{self, NewMembership};
use crate::store::token::{Token, TokenHash};
use crate::store::{self, Db, Secret, account, practice, setup_token};

/// What to do about an address that another account has.
const TAKEN: &str = "This address already belongs to an account. Use another, or sign in with it.";

/// What the set-up form holds, checked.
#[derive(Debug, Clone)]
pub struct NewPractice {
    /// The practice's name.
    pub practice: String,
    /// Its IANA zone.
    pub zone: String,
    /// The lead trainer's name.
    pub name: String,
    /// The lead trainer's address.
    pub email: String,
    /// The lead trainer's password, hashed.
    pub password_hash: String,
    /// What the browser calls itself.
    pub device: String,
}

/// A practice that was set up, and its lead signed in.
#[derive(Debug)]
pub struct SetUp {
    /// The practice.
    pub practice: PracticeId,
    /// Its lead.
    pub lead: MembershipId,
    /// The token for the lead's cookie.
    pub token: Token,
    /// When the sign-in ends.
    pub expires_at: OffsetDateTime,
}

/// Sets a practice up; `NotFound` when the token is used, old or none of ours.
pub async fn set_up_practice(db: &Db, token: TokenHash, new: &NewPractice, moment: &Moment) -> Done<SetUp> {
    let mut door = db.door(Secret::Token(token)).await?;
    if !setup_token::use_up(&mut door, token, moment.at).await? {
        return Err(Refusal::NotFound);
    }
    let (practice, lead, account): (PracticeId, MembershipId, AccountId) =
        (moment.id(), moment.id(), moment.id());
    door.show(Secret::Account(account)).await?;
    let mut tx = practice::found(door, practice, &new.practice, &new.zone, moment.at).await?;
    account::add(&mut tx, account, Some(&new.email), moment.at).await.map_err(address_taken(TAKEN))?;
    account::set_password(&mut tx, account, &new.password_hash, moment.at).await?;
    let membership = NewMembership {
        id: lead,
        account: Some(account),
        role: Role::Lead,
        name: new.name.clone(),
        email: new.email.clone(),
        phone: String::new(),
    };
    membership::add(&mut tx, &membership, moment.at).await?;
    let standing = (practice, lead, Role::Lead);
    let (token, sign_in) = fresh_sign_in(account, standing, Way::Password, &new.device, moment);
    store::sign_in::add(&mut tx, &sign_in, moment.at).await?;
    copy_starter_library(&mut tx, moment).await?;
    let event = AuditEvent::by_member(lead, "set_up_practice", "practice", practice.0, moment);
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(SetUp { practice, lead, token, expires_at: sign_in.expires_at })
}
