//! The opener that `store::scope` must never become: it leaks rows when a request is dropped.
//!
//! In sqlx 0.9.0 `begin_with` counts the transaction only once `BEGIN` has been answered. A future that is dropped before
//! that gives its connection back to the pool as if nothing were open, and the practice that was set stays set for whoever
//! gets the connection next. It is kept here, out of the service, so that the experiment that finds it can be seen to find it.

use sqlx::{AssertSqlSafe, PgPool, Postgres, Transaction};
use uuid::Uuid;

/// Opens a transaction inside `practice`, in the future that the caller may drop.
#[expect(clippy::disallowed_methods, reason = "this is the way that the service bans")]
pub async fn open(pool: &PgPool, practice: Uuid) -> sqlx::Result<Transaction<'static, Postgres>> {
    let begin = format!("begin; select set_config('app.practice_id', '{practice}', true)");
    pool.begin_with(AssertSqlSafe(begin)).await
}
