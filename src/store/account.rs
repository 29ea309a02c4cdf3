//! Accounts and their credentials. Reached before a practice is known: a row is visible only to whoever
//! shows its address or has just been proven to hold it.

use time::OffsetDateTime;

use crate::ids::AccountId;
use crate::store::{Door, Result, Secret, Tx};

/// An account found by its address, with its password's hash if it has one.
#[derive(Debug)]
pub struct AccountByEmail {
    /// The account.
    pub id: AccountId,
    /// Whether it may not sign in any more.
    pub disabled: bool,
}

/// The account with this address. The door must have been shown the address.
pub async fn by_email(door: &mut Door, email: &str) -> Result<Option<AccountByEmail>> {
    let row = sqlx::query!("select id, disabled_at from account where email = $1", email)
        .fetch_optional(door.conn())
        .await?;
    Ok(row.map(|r| AccountByEmail { id: r.id.into(), disabled: r.disabled_at.is_some() }))
}

/// Whether this account may not sign in any more. It is shown for this question alone.
pub async fn is_disabled(door: &mut Door, account: AccountId) -> Result<bool> {
    door.show(Secret::Account(account)).await?;
    let standing = sqlx::query_scalar!(
        r#"select exists (select 1 from account where id = $1 and disabled_at is null) as "standing!""#,
        account.0
    )
    .fetch_one(door.conn())
    .await?;
    door.hide_account().await?;
    Ok(!standing)
}

/// The account's address, if it has one.
pub async fn email(tx: &mut Tx, account: AccountId) -> Result<Option<String>> {
    let row =
        sqlx::query!("select email from account where id = $1", account.0).fetch_optional(tx.conn()).await?;
    Ok(row.and_then(|r| r.email))
}

/// Makes an account. The transaction must have been shown its id.
pub async fn add(tx: &mut Tx, id: AccountId, email: Option<&str>, now: OffsetDateTime) -> Result<()> {
    sqlx::query!("insert into account (id, email, created_at) values ($1, $2, $3)", id.0, email, now)
        .execute(tx.conn())
        .await
        .map(drop)
}

/// Sets the address of an account that had none.
pub async fn set_email(tx: &mut Tx, id: AccountId, email: &str) -> Result<()> {
    sqlx::query!("update account set email = $2 where id = $1", id.0, email)
        .execute(tx.conn())
        .await
        .map(drop)
}

/// The password's hash, in PHC form. The door must have been shown the account.
pub async fn password(door: &mut Door, account: AccountId) -> Result<Option<String>> {
    sqlx::query_scalar!(
        "select secret from credential where account_id = $1 and kind = 'password'",
        account.0
    )
    .fetch_optional(door.conn())
    .await
}

/// The password's hash, inside a practice. The transaction must have been shown the account.
pub async fn password_inside(tx: &mut Tx, account: AccountId) -> Result<Option<String>> {
    sqlx::query_scalar!(
        "select secret from credential where account_id = $1 and kind = 'password'",
        account.0
    )
    .fetch_optional(tx.conn())
    .await
}

/// Sets or replaces the password's hash. The transaction must have been shown the account.
pub async fn set_password(tx: &mut Tx, account: AccountId, secret: &str, now: OffsetDateTime) -> Result<()> {
    sqlx::query!(
        "insert into credential (account_id, kind, secret, changed_at) values ($1, 'password', $2, $3)
         on conflict (account_id, kind) do update set secret = excluded.secret, changed_at = excluded.changed_at",
        account.0,
        secret,
        now
    )
    .execute(tx.conn())
    .await
    .map(drop)
}
