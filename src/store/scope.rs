//! The one safe door to the database.
//!
//! Every transaction is opened here, inside a task of its own: in sqlx 0.9.0 a request that is dropped while
//! `BEGIN` is in flight gives its connection back to the pool inside an open transaction, and a tenant's rows
//! could be read by the next request (`tests/it/cancel.rs` holds the experiment). A task cannot be dropped half-way.
//!
//! The order in one transaction is: the secret that was shown, the practice it belongs to, the membership, the work.

use sqlx::{PgConnection, PgPool, Postgres, Transaction};

use crate::ids::{AccountId, MembershipId, PracticeId};
use crate::store::token::TokenHash;

/// The database, as the app's role sees it.
#[derive(Clone, Debug)]
pub struct Db {
    pool: PgPool,
}

/// What somebody showed before a practice is known; rows that are held by it become visible, and no others.
#[derive(Debug, Clone)]
pub enum Secret<'a> {
    /// A cookie's or link's token.
    Token(TokenHash),
    /// An e-mail address typed to sign in: shows the one account that has it.
    Email(&'a str),
    /// A passkey's credential id: shows that one passkey.
    Passkey(&'a [u8]),
    /// An account that was just proven or is being made.
    Account(AccountId),
}

/// A transaction in which a secret was shown, and no practice is open yet.
#[derive(Debug)]
pub struct Door {
    inner: Transaction<'static, Postgres>,
}

/// A transaction inside one practice.
#[derive(Debug)]
pub struct Tx {
    inner: Transaction<'static, Postgres>,
    practice: PracticeId,
}

impl Db {
    /// A database over this pool, which must be the app role's.
    pub fn new(pool: PgPool) -> Self {
        Self { pool }
    }

    /// Whether the database answers.
    pub async fn answers(&self) -> bool {
        sqlx::query("select 1").execute(&self.pool).await.is_ok()
    }

    /// Opens a transaction in which `secret` was shown.
    pub async fn door(&self, secret: Secret<'_>) -> sqlx::Result<Door> {
        let (setting, value) = secret.setting();
        Ok(Door { inner: self.open(setting, value).await? })
    }

    /// Opens a transaction inside the practice for one of its standing members; `None` if there is no such member.
    ///
    /// For work that no request carries: the demo, jobs and tests.
    pub async fn for_member(&self, practice: PracticeId, member: MembershipId) -> sqlx::Result<Option<Tx>> {
        let inner = self.open("app.practice_id", practice.to_string()).await?;
        let mut tx = Tx { inner, practice };
        let found = sqlx::query_scalar!(
            r#"select exists (select 1 from membership where practice_id = $1 and id = $2 and removed_at is null) as "found!""#,
            practice.0,
            member.0
        )
        .fetch_one(tx.conn())
        .await?;
        Ok(found.then_some(tx))
    }

    async fn open(
        &self,
        setting: &'static str,
        value: String,
    ) -> sqlx::Result<Transaction<'static, Postgres>> {
        let pool = self.pool.clone();
        let opening = tokio::spawn(async move {
            #[expect(
                clippy::disallowed_methods,
                reason = "the one place: inside a task that nobody can drop"
            )]
            let mut inner = pool.begin().await?;
            set(&mut inner, setting, &value).await?;
            Ok(inner)
        });
        opening.await.map_err(|gone| sqlx::Error::Io(std::io::Error::other(gone)))?
    }
}

impl Secret<'_> {
    fn setting(&self) -> (&'static str, String) {
        match self {
            Self::Token(hash) => ("app.token_hash", hash.hex()),
            Self::Email(email) => ("app.email", (*email).to_owned()),
            Self::Passkey(credential) => ("app.passkey", hex(credential)),
            Self::Account(account) => ("app.account_id", account.to_string()),
        }
    }
}

/// Bytes as hexadecimal digits.
fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

impl Door {
    /// Shows one more secret in the same transaction.
    pub async fn show(&mut self, secret: Secret<'_>) -> sqlx::Result<()> {
        let (setting, value) = secret.setting();
        set(&mut self.inner, setting, &value).await
    }

    /// Hides an account that was shown, so that nothing of it stays visible in what follows.
    pub(in crate::store) async fn hide_account(&mut self) -> sqlx::Result<()> {
        set(&mut self.inner, "app.account_id", "").await
    }

    /// Goes on inside `practice`. Only `store` can: it has read the practice from a row that the secret holds.
    pub(in crate::store) async fn enter(mut self, practice: PracticeId) -> sqlx::Result<Tx> {
        set(&mut self.inner, "app.practice_id", &practice.to_string()).await?;
        Ok(Tx { inner: self.inner, practice })
    }

    pub(in crate::store) fn conn(&mut self) -> &mut PgConnection {
        &mut self.inner
    }

    /// Makes what was done stand.
    pub async fn commit(self) -> sqlx::Result<()> {
        self.inner.commit().await
    }
}

impl Tx {
    /// The practice that this transaction is inside.
    pub fn practice(&self) -> PracticeId {
        self.practice
    }

    /// Shows one more secret in the same transaction.
    pub async fn show(&mut self, secret: Secret<'_>) -> sqlx::Result<()> {
        let (setting, value) = secret.setting();
        set(&mut self.inner, setting, &value).await
    }

    pub(in crate::store) fn conn(&mut self) -> &mut PgConnection {
        &mut self.inner
    }

    /// Makes what was done stand. A transaction that is dropped instead leaves nothing behind.
    pub async fn commit(self) -> sqlx::Result<()> {
        self.inner.commit().await
    }
}

async fn set(conn: &mut PgConnection, setting: &str, value: &str) -> sqlx::Result<()> {
    sqlx::query("select set_config($1, $2, true)").bind(setting).bind(value).execute(conn).await.map(drop)
}
