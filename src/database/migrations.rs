//! Bringing the schema up to date.

use std::collections::HashSet;

use anyhow::Context;
use sqlx::{PgConnection, PgPool, migrate::Migrator};

use crate::refusal::Refusal;

/// Two programs starting at once take turns: the second waits here for as long as the first needs, and only then do
/// the short limits below apply. The number is `settleb` in ASCII.
const TURN: &str = "select pg_advisory_lock(x'736574746c6562'::bigint)";

/// A migration that would have to wait for a long transaction gives up rather than let everybody queue behind it;
/// starting again tries again.
const LIMITS: &str = "set lock_timeout = '5s'";

/// Lets the service's own role see which migrations were applied, so that it can refuse an old schema.
const SHOW: &str = "grant select on _sqlx_migrations to public";

fn migrator() -> Migrator {
    let mut migrator = sqlx::migrate!();
    // While a new release is rolled out, the old one may start again on the new schema.
    migrator.set_ignore_missing(true);
    migrator
}

/// Applies what is missing, as the role that owns the schema.
///
/// # Errors
/// When a migration fails, or was changed after it had been applied.
pub(super) async fn run(owner: &mut PgConnection) -> anyhow::Result<()> {
    for statement in ["set lock_timeout = 0", TURN, LIMITS] {
        sqlx::raw_sql(statement).execute(&mut *owner).await.context("waiting for a turn to migrate")?;
    }
    migrator().run(&mut *owner).await.context("migrating the database")?;
    sqlx::raw_sql(SHOW).execute(&mut *owner).await.context("showing which migrations were applied")?;
    Ok(())
}

/// Refuses a schema that lacks a migration this program needs. Needs no rights beyond reading.
///
/// # Errors
/// A [`Refusal`] that says how to migrate.
pub(super) async fn refuse_pending(pool: &PgPool) -> anyhow::Result<()> {
    let applied: Result<Vec<i64>, _> =
        sqlx::query_scalar("select version from _sqlx_migrations where success").fetch_all(pool).await;
    let applied: HashSet<i64> = match applied {
        Ok(versions) => versions.into_iter().collect(),
        Err(sqlx::Error::Database(_)) => HashSet::new(),
        Err(error) => return Err(error).context("looking at which migrations were applied"),
    };
    let missing = migrator().iter().filter(|migration| !applied.contains(&migration.version)).count();
    if missing == 0 {
        return Ok(());
    }
    Err(Refusal::new(format!(
        "The database lacks {missing} of the changes this release needs: run `settlebrook migrate` with SETTLEBROOK_OWNER_URL set to the role that owns the schema."
    ))
    .into())
}
