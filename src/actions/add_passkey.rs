//! Adds a passkey to one's own account: a challenge first, then the browser's answer to it.

use crate::actions::passkey::{ANSWER_WITHIN, RegisterPublicKeyCredential, RelyingParty, TOO_LATE};
use crate::actions::proof::Came;
use crate::actions::{Done, Refusal, field_refused};
use crate::clock::Moment;
use crate::domain::access::Actor;
use crate::ids::{AccountId, PasskeyId, SignInId};
use crate::store::audit::{self, AuditEvent};
use crate::store::passkey::{self, NewPasskey};
use crate::store::passkey_challenge::{self, NewChallenge};
use crate::store::token::{Token, TokenHash};
use crate::store::{Db, Secret, Tx, account};

/// The most that one account may have: more than anybody has devices.
const MOST: usize = 20;
/// What to do about one more.
const ENOUGH: Refusal =
    Refusal::Field { field: "passkey", message: "You have 20 passkeys. Remove one that you no longer use." };
/// What to do on a phone that was signed in long ago and has other ways in.
const SIGN_IN_AGAIN: Refusal = Refusal::Field {
    field: "passkey",
    message: "A passkey can be added within an hour of signing in. Sign out, sign in again, then add it.",
};
/// What to do about a passkey that is here already.
const HERE_ALREADY: &str = "This passkey is in use already. Make a new one.";

/// Whose passkey is added, and on which sign-in.
#[derive(Debug, Clone, Copy)]
pub struct Own {
    /// The account.
    pub account: AccountId,
    /// The sign-in in use.
    pub sign_in: SignInId,
    /// How it came about.
    pub came: Came,
}

/// A challenge for the browser, and the token of the cookie that the answer must come with.
#[derive(Debug)]
pub struct Asked<T> {
    /// The challenge.
    pub challenge: T,
    /// The token.
    pub token: Token,
}

/// Makes a challenge for a new passkey, for somebody who has just signed in or has no other way in yet; `name` is what the device will call the account beside the address.
pub async fn begin_adding(
    db: &Db,
    party: &RelyingParty,
    mut tx: Tx,
    own: Own,
    name: &str,
    moment: &Moment,
) -> Done<Asked<impl serde::Serialize + use<>>> {
    tx.show(Secret::Account(own.account)).await?;
    let email = account::email(&mut tx, own.account).await?;
    let held = passkey::credentials(&mut tx, own.account).await?;
    let is_first = held.is_empty() && account::password_inside(&mut tx, own.account).await?.is_none();
    let proven = if is_first {
        own.came.is_for_the_account(&mut tx, own.account).await?
    } else {
        own.came.fresh(&mut tx, own.account, moment.at).await?
    };
    drop(tx);
    if !proven {
        return Err(SIGN_IN_AGAIN);
    }
    if held.len() >= MOST {
        return Err(ENOUGH);
    }
    let (challenge, state) = party.begin_adding(own.account, email.as_deref().unwrap_or(name), held)?;
    let token = Token::fresh();
    let new = NewChallenge {
        hash: token.hash(),
        sign_in: Some(own.sign_in),
        state: &state,
        expires_at: moment.at + ANSWER_WITHIN,
    };
    passkey_challenge::keep(db, &new).await?;
    Ok(Asked { challenge, token })
}

/// An answer, with the cookie that it came with and the name for the passkey.
#[derive(Debug)]
pub struct Answered<'a> {
    /// The cookie's token.
    pub token: TokenHash,
    /// What the browser answered.
    pub answer: &'a RegisterPublicKeyCredential,
    /// What the passkey is called at first: the device.
    pub name: &'a str,
}

/// Adds the passkey that answers the challenge of this sign-in.
pub async fn add_passkey(
    db: &Db,
    party: &RelyingParty,
    actor: &Actor,
    own: Own,
    answered: Answered<'_>,
    moment: &Moment,
) -> Done<PasskeyId> {
    let state = passkey_challenge::use_up(db, answered.token, Some(own.sign_in), moment.at).await?;
    let made = party.finish_adding(answered.answer, state.ok_or(TOO_LATE)?)?;
    let mut tx = db.for_member(actor.practice, actor.membership).await?.ok_or(Refusal::NotFound)?;
    tx.show(Secret::Account(own.account)).await?;
    if passkey::credentials(&mut tx, own.account).await?.len() >= MOST {
        return Err(ENOUGH);
    }
    let id = moment.id();
    let name: String = answered.name.chars().take(60).collect();
    let new =
        NewPasskey { id, account: own.account, credential: &made.credential, key: &made.key, name: &name };
    passkey::add(&mut tx, &new, moment.at).await.map_err(field_refused(
        "passkey_credential_id_key",
        "passkey",
        HERE_ALREADY,
    ))?;
    let event = AuditEvent::by(actor, "add_passkey", "membership", actor.membership.0, moment);
    audit::note(&mut tx, &event).await?;
    tx.commit().await?;
    Ok(id)
}
