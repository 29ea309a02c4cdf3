//! One-time tokens that let somebody set up a practice: printed where the service is started.

use time::OffsetDateTime;

use crate::store::token::TokenHash;
use crate::store::{Door, Result};

/// Whether this token may still be used. The door must have been shown it.
pub async fn is_good(door: &mut Door, hash: TokenHash, now: OffsetDateTime) -> Result<bool> {
    sqlx::query_scalar!(
        r#"select exists (select 1 from setup_token where token_hash = $1 and used_at is null and expires_at > $2) as "good!""#,
        hash.bytes(),
        now
    )
    .fetch_one(door.conn())
    .await
}

/// Uses the token up; false if somebody else just did.
pub async fn use_up(door: &mut Door, hash: TokenHash, now: OffsetDateTime) -> Result<bool> {
    let done = sqlx::query!(
        "update setup_token set used_at = $2 where token_hash = $1 and used_at is null and expires_at > $2",
        hash.bytes(),
        now
    )
    .execute(door.conn())
    .await?;
    if done.rows_affected() == 0 {
        return Ok(false);
    }
    sqlx::query!("update installation set first_set_up_at = coalesce(first_set_up_at, $1)", now)
        .execute(door.conn())
        .await?;
    Ok(true)
}

/// Whether a practice was ever set up here.
pub async fn any_used(door: &mut Door) -> Result<bool> {
    sqlx::query_scalar!(r#"select first_set_up_at is not null as "used!" from installation"#)
        .fetch_one(door.conn())
        .await
}

/// Adds a token that may be used until `expires_at`.
pub async fn add(
    door: &mut Door,
    hash: TokenHash,
    now: OffsetDateTime,
    expires_at: OffsetDateTime,
) -> Result<()> {
    sqlx::query!(
        "insert into setup_token (token_hash, created_at, expires_at) values ($1, $2, $3)",
        hash.bytes(),
        now,
        expires_at
    )
    .execute(door.conn())
    .await
    .map(drop)
}
