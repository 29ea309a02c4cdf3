//! Proves an account by one of its passkeys: a challenge first, then the browser's answer to it. What follows is the
//! same start of a sign-in as after a password.

use crate::actions::Done;
use crate::actions::add_passkey::Asked;
use crate::actions::passkey::{ANSWER_WITHIN, PublicKeyCredential, RelyingParty, TOO_LATE, unknown};
use crate::actions::sign_in::Standings;
use crate::clock::Moment;
use crate::ids::AccountId;
use crate::store::passkey_challenge::{self, NewChallenge};
use crate::store::token::{Token, TokenHash};
use crate::store::{Db, Secret, account, membership, passkey};

/// Makes a challenge for whoever holds a passkey; it does not tell whose.
pub async fn begin_proof(
    db: &Db,
    party: &RelyingParty,
    moment: &Moment,
) -> Done<Asked<impl serde::Serialize + use<>>> {
    let (challenge, state) = party.begin_sign_in()?;
    let token = Token::fresh();
    let expires_at = moment.at + ANSWER_WITHIN;
    let new = NewChallenge { hash: token.hash(), sign_in: None, state: &state, expires_at };
    passkey_challenge::keep(db, &new).await?;
    Ok(Asked { challenge, token })
}

/// The account whose passkey answered, and its practices. Refused in the same words when the passkey is unknown,
/// removed, does not fit, its account may not sign in, or stands nowhere any more.
pub async fn prove_by_passkey(
    db: &Db,
    party: &RelyingParty,
    token: TokenHash,
    answer: &PublicKeyCredential,
    moment: &Moment,
) -> Done<(AccountId, Standings)> {
    let state = passkey_challenge::use_up(db, token, None, moment.at).await?.ok_or(TOO_LATE)?;
    let credential = answer.get_credential_id();
    let mut door = db.door(Secret::Passkey(credential)).await?;
    let held = passkey::by_credential(&mut door, credential).await?.ok_or_else(unknown)?;
    let key = party.finish_sign_in(answer, state, held.account, held.key)?;
    if account::is_disabled(&mut door, held.account).await? {
        return Err(unknown());
    }
    door.show(Secret::Account(held.account)).await?;
    passkey::used(&mut door, held.id, &key, moment.at).await?;
    let standings = membership::of_account(&mut door, held.account).await?;
    door.commit().await?;
    if standings.is_empty() { Err(unknown()) } else { Ok((held.account, standings)) }
}
