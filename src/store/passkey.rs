//! Passkeys: public keys that phones and computers hold the secret of. Reached before a practice is known by their
//! credential id, and by their account once that is proven.

use serde_json::Value;
use time::OffsetDateTime;

use crate::ids::{AccountId, PasskeyId};
use crate::store::{Door, Result, Tx};

/// A passkey as its owner sees it.
#[derive(Debug, Clone)]
pub struct Passkey {
    /// Its id.
    pub id: PasskeyId,
    /// What its owner calls it.
    pub name: String,
    /// When it was added.
    pub created_at: OffsetDateTime,
    /// When somebody last signed in with it.
    pub last_used_at: Option<OffsetDateTime>,
}

/// A passkey with what is needed to check its signatures.
#[derive(Debug)]
pub struct Held {
    /// Its id.
    pub id: PasskeyId,
    /// The account that it signs in.
    pub account: AccountId,
    /// The public key, its counter and how it was made.
    pub key: Value,
}

/// A passkey to be added.
#[derive(Debug)]
pub struct NewPasskey<'a> {
    /// Its id.
    pub id: PasskeyId,
    /// The account that it signs in.
    pub account: AccountId,
    /// The id that the authenticator gave it.
    pub credential: &'a [u8],
    /// The public key, its counter and how it was made.
    pub key: &'a Value,
    /// What its owner calls it.
    pub name: &'a str,
}

/// The account's passkeys, newest first. The transaction must have been shown the account.
pub async fn of_account(tx: &mut Tx, account: AccountId) -> Result<Vec<Passkey>> {
    sqlx::query_as!(
        Passkey,
        "select id, name, created_at, last_used_at from passkey where account_id = $1
         order by created_at desc, id desc",
        account.0
    )
    .fetch_all(tx.conn())
    .await
}

/// The credential ids of an account's passkeys. The transaction must have been shown the account.
pub async fn credentials(tx: &mut Tx, account: AccountId) -> Result<Vec<Vec<u8>>> {
    sqlx::query_scalar!("select credential_id from passkey where account_id = $1", account.0)
        .fetch_all(tx.conn())
        .await
}

/// Adds a passkey. The transaction must have been shown the account.
pub async fn add(tx: &mut Tx, new: &NewPasskey<'_>, now: OffsetDateTime) -> Result<()> {
    sqlx::query!(
        "insert into passkey (id, account_id, credential_id, key, name, created_at) values ($1, $2, $3, $4, $5, $6)",
        new.id.0,
        new.account.0,
        new.credential,
        new.key,
        new.name,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}

/// Renames a passkey of this account; false if it has none such. The transaction must have been shown the account.
pub async fn rename(tx: &mut Tx, account: AccountId, id: PasskeyId, name: &str) -> Result<bool> {
    let done =
        sqlx::query!("update passkey set name = $3 where account_id = $1 and id = $2", account.0, id.0, name)
            .execute(tx.conn())
            .await?;
    Ok(done.rows_affected() == 1)
}

/// Removes a passkey of this account; false if it has none such. The transaction must have been shown the account.
pub async fn remove(tx: &mut Tx, account: AccountId, id: PasskeyId) -> Result<bool> {
    let done = sqlx::query!("delete from passkey where account_id = $1 and id = $2", account.0, id.0)
        .execute(tx.conn())
        .await?;
    Ok(done.rows_affected() == 1)
}

/// Removes every passkey of this account. The transaction must have been shown the account.
pub async fn remove_all(tx: &mut Tx, account: AccountId) -> Result<()> {
    sqlx::query!("delete from passkey where account_id = $1", account.0).execute(tx.conn()).await.map(drop)
}

/// The passkey with this credential id, held until the transaction ends, so that two answers cannot both be the next
/// one by its counter. The door must have been shown the credential id.
pub async fn by_credential(door: &mut Door, credential: &[u8]) -> Result<Option<Held>> {
    sqlx::query_as!(
        Held,
        r#"select id, account_id as account, key from passkey where credential_id = $1 for update"#,
        credential
    )
    .fetch_optional(door.conn())
    .await
}

/// Keeps a passkey's counter and when it was used. The door must have been shown the account.
pub async fn used(door: &mut Door, id: PasskeyId, key: &Value, now: OffsetDateTime) -> Result<()> {
    sqlx::query!("update passkey set key = $2, last_used_at = $3 where id = $1", id.0, key, now)
        .execute(door.conn())
        .await
        .map(drop)
}
