//! Challenges that a passkey must answer: bound to a cookie, used once, good for a few minutes.

use serde_json::Value;
use time::OffsetDateTime;

use crate::ids::SignInId;
use crate::store::token::TokenHash;
use crate::store::{Db, Result, Secret};

/// A challenge to be kept.
#[derive(Debug)]
pub struct NewChallenge<'a> {
    /// The hash of the token in the cookie.
    pub hash: TokenHash,
    /// The sign-in that adds a passkey; `None` where somebody is signing in with one.
    pub sign_in: Option<SignInId>,
    /// What the answer is checked against.
    pub state: &'a Value,
    /// When it is no longer taken.
    pub expires_at: OffsetDateTime,
}

/// Keeps a challenge, and clears away those that were left behind long ago.
pub async fn keep(db: &Db, new: &NewChallenge<'_>) -> Result<()> {
    let mut door = db.door(Secret::Token(new.hash)).await?;
    // without a condition: the policy alone says which may go, and none but one's own can be seen
    sqlx::query!("delete from passkey_challenge").execute(door.conn()).await?;
    sqlx::query!(
        "insert into passkey_challenge (token_hash, sign_in_id, state, expires_at) values ($1, $2, $3, $4)",
        new.hash.bytes(),
        new.sign_in.map(|id| id.0),
        new.state,
        new.expires_at
    )
    .execute(door.conn())
    .await?;
    door.commit().await
}

/// Uses a challenge up and gives its state: whatever becomes of the answer, it cannot be tried again. `None` when there
/// is none under this token, it has run out, or it was for another purpose or another sign-in.
pub async fn use_up(
    db: &Db,
    hash: TokenHash,
    sign_in: Option<SignInId>,
    now: OffsetDateTime,
) -> Result<Option<Value>> {
    let mut door = db.door(Secret::Token(hash)).await?;
    let row = sqlx::query!(
        "delete from passkey_challenge where token_hash = $1 returning sign_in_id, state, expires_at",
        hash.bytes()
    )
    .fetch_optional(door.conn())
    .await?;
    door.commit().await?;
    Ok(row
        .filter(|row| row.expires_at > now && row.sign_in_id == sign_in.map(|id| id.0))
        .map(|row| row.state))
}
