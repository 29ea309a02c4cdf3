//! Signing in with an address and a password.

use time::{Duration, OffsetDateTime};

use crate::actions::password::{Hasher, HashingFailed};
use crate::actions::{Done, Refusal};
use crate::clock::Moment;
use crate::domain::vocabulary::{Role, Way};
use crate::ids::{AccountId, MembershipId, PracticeId};
use crate::store::audit::{self, AuditEvent};
use crate::store::sign_in::NewSignIn;
use crate::store::token::Token;
use crate::store::{self, Db, Secret, account, membership};

/// How long an owner's phone stays signed in: through a course of homework without a password in a field.
pub const OWNER_STAYS: Duration = Duration::days(180);
/// How long a trainer stays signed in: a working day.
pub const TRAINER_STAYS: Duration = Duration::hours(24);

/// Somebody who was signed in.
#[derive(Debug)]
pub struct NewlySignedIn {
    /// The token for the cookie.
    pub token: Token,
    /// When the sign-in ends.
    pub expires_at: OffsetDateTime,
}

/// Where an account stands: a practice, its membership there, and what that may do.
pub type Standing = (PracticeId, MembershipId, Role);
/// Everywhere that a proven account may sign in to.
pub type Standings = Vec<Standing>;

/// What an address and a password turned out to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proof {
    /// No account has this address.
    Unknown,
    /// The account with this address has another password, or may not sign in.
    Wrong,
    /// They belong together.
    Right(AccountId),
}

/// Checks an address with its password. An unknown address costs the same work.
pub async fn check(db: &Db, hasher: &Hasher, email: &str, password: String) -> Result<Proof, ProofFailed> {
    let mut door = db.door(Secret::Email(email)).await?;
    let found = account::by_email(&mut door, email).await?;
    let kept = match &found {
        Some(account) => {
            door.show(Secret::Account(account.id)).await?;
            account::password(&mut door, account.id).await?
        }
        None => None,
    };
    drop(door); // no connection is held while hashing
    let right = hasher.verify(password, kept).await?;
    Ok(match found {
        None => Proof::Unknown,
        Some(account) if right && !account.disabled => Proof::Right(account.id),
        Some(_) => Proof::Wrong,
    })
}

/// The account and its practices, if address and password belong together.
pub async fn prove(
    db: &Db,
    hasher: &Hasher,
    email: &str,
    password: String,
) -> Result<Option<(AccountId, Standings)>, ProofFailed> {
    let Proof::Right(account) = check(db, hasher, email, password).await? else { return Ok(None) };
    let mut door = db.door(Secret::Account(account)).await?;
    let standings = membership::of_account(&mut door, account).await?;
    Ok((!standings.is_empty()).then_some((account, standings)))
}

/// Why an address and password could not be checked.
#[derive(Debug, thiserror::Error)]
pub enum ProofFailed {
    /// The hash could not be computed.
    #[error(transparent)]
    Hashing(#[from] HashingFailed),
    /// The database failed.
    #[error(transparent)]
    Database(#[from] store::Error),
}

/// Signs a proven account in to one of its practices; `NotFound` when its membership there has just ended.
pub async fn sign_in(
    db: &Db,
    account: AccountId,
    standing: Standing,
    way: Way,
    device: &str,
    moment: &Moment,
) -> Done<NewlySignedIn> {
    let (practice, member, _) = standing;
    let mut tx = db.for_member(practice, member).await?.ok_or(Refusal::NotFound)?;
    let (token, new) = fresh_sign_in(account, standing, way, device, moment);
    store::sign_in::add(&mut tx, &new, moment.at).await?;
    let said = if way == Way::Passkey { "sign_in_by_passkey" } else { "sign_in" };
    audit::note(&mut tx, &AuditEvent::by_member(member, said, "membership", member.0, moment)).await?;
    tx.commit().await?;
    Ok(NewlySignedIn { token, expires_at: new.expires_at })
}

/// A sign-in to be added, and the token for its cookie.
pub fn fresh_sign_in(
    account: AccountId,
    (practice, membership, role): Standing,
    way: Way,
    device: &str,
    moment: &Moment,
) -> (Token, NewSignIn) {
    let token = Token::fresh();
    let stays = if role == Role::Owner { OWNER_STAYS } else { TRAINER_STAYS };
    let sign_in = NewSignIn {
        id: moment.id(),
        hash: token.hash(),
        account,
        practice,
        membership,
        way,
        device: device.chars().take(120).collect(),
        expires_at: moment.at + stays,
    };
    (token, sign_in)
}
