//! The roles of the private database, and the database they share.

use anyhow::Context;
use sqlx::{Connection, PgConnection};

use super::private::PrivateCluster;

/// The database everything is in.
pub(super) const DATABASE: &str = "settlebrook";
/// Owns the schema and migrates it.
pub(super) const OWNER: &str = "settlebrook_owner";
/// Serves requests: bound by every row-level policy, owns nothing.
pub(super) const APP: &str = "settlebrook_app";

/// Roles, made once and brought back to these attributes at every start. The limits keep one slow statement, or one
/// transaction whose client has gone, from holding up everybody else: five seconds for a page, a minute for a job.
const ROLES: &str = "
do $$
declare
    needed text;
begin
    foreach needed in array array['settlebrook_owner', 'settlebrook_app', 'settlebrook_worker', 'settlebrook_backup']
    loop
        if not exists (select from pg_roles where rolname = needed) then
            execute format('create role %I login', needed);
        end if;
    end loop;
end $$;

alter role settlebrook_owner nosuperuser nobypassrls nocreatedb nocreaterole noreplication;
alter role settlebrook_app nosuperuser nobypassrls nocreatedb nocreaterole noreplication noinherit;
alter role settlebrook_worker nosuperuser nobypassrls nocreatedb nocreaterole noreplication noinherit;
alter role settlebrook_backup nosuperuser bypassrls nocreatedb nocreaterole noreplication;
grant pg_read_all_data to settlebrook_backup;

alter role settlebrook_app set statement_timeout = '5s';
alter role settlebrook_worker set statement_timeout = '60s';
alter role settlebrook_app set lock_timeout = '2s';
alter role settlebrook_worker set lock_timeout = '2s';
alter role settlebrook_app set idle_in_transaction_session_timeout = '10s';
alter role settlebrook_worker set idle_in_transaction_session_timeout = '60s';
alter role settlebrook_app set client_connection_check_interval = '500ms';
alter role settlebrook_worker set client_connection_check_interval = '500ms';
";

/// Who may connect to the database, and make things in it. (The schema `public` belongs to the database's owner.)
const ACCESS: &str = "
revoke all on database settlebrook from public;
grant connect on database settlebrook to settlebrook_app, settlebrook_worker, settlebrook_backup;
revoke create on schema public from public;
revoke all on database postgres from public;
";

/// Makes the roles and the database, or brings existing ones back to what they should be. Settings a host has changed
/// on these roles are changed back: the private database is the program's own.
///
/// # Errors
/// When the server refuses, or cannot be reached.
pub(super) async fn create(cluster: &PrivateCluster) -> anyhow::Result<()> {
    let mut server = PgConnection::connect_with(&cluster.superuser_options("postgres"))
        .await
        .context("connecting to the private database")?;
    sqlx::raw_sql(ROLES).execute(&mut server).await.context("making the database's roles")?;
    let exists: bool = sqlx::query_scalar("select exists (select from pg_database where datname = $1)")
        .bind(DATABASE)
        .fetch_one(&mut server)
        .await?;
    if !exists {
        sqlx::raw_sql("create database settlebrook owner settlebrook_owner template template0")
            .execute(&mut server)
            .await
            .context("making the database")?;
    }
    server.close().await?;

    let mut database = PgConnection::connect_with(&cluster.superuser_options(DATABASE)).await?;
    sqlx::raw_sql(ACCESS).execute(&mut database).await.context("restricting the database")?;
    database.close().await?;
    Ok(())
}
