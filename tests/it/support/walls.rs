//! The two walls between practices, each taken down in the database of one test: nothing in the service knows of it.

use std::collections::BTreeSet;

use sqlx::AssertSqlSafe;
use uuid::Uuid;

use super::database::TestDatabase;

/// Every table with a practice in it, and the practice itself: its name, and the column that names the practice.
const WALLED: &str = "
  select c.oid, c.relname::text as name, a.attname::text as tenant from pg_class c
  join pg_attribute a on a.attrelid = c.oid and not a.attisdropped
    and a.attname = case when c.relname = 'practice' then 'id' else 'practice_id' end
  where c.relkind in ('r', 'p') and c.relnamespace = 'public'::regnamespace";

/// Takes row-level security down: what is left is `practice_id = $1` in every query.
pub async fn row_level_security_off(database: &TestDatabase) {
    let statement = format!(
        "do $$ declare t record; begin
           for t in {WALLED} loop
             execute format('alter table public.%I disable row level security, no force row level security', t.name);
           end loop;
         end $$"
    );
    run(database, statement).await;
    start_anew(database).await;
}

/// Takes `practice_id = $1` down: the app's role reads every table through a view in which each row says that it
/// belongs to the practice that is open. What is left is row-level security, which the views leave to the table.
pub async fn predicate_dropped(database: &TestDatabase) {
    let statement = format!(
        "create schema unwalled;
         grant usage on schema unwalled to settlebrook_app;
         do $$ declare t record; begin
           for t in
             select w.name, string_agg(case when a.attname = w.tenant
               then format('coalesce(nullif(current_setting(''app.practice_id'', true), '''')::uuid, %1$I) as %1$I', w.tenant)
               else quote_ident(a.attname) end, ', ' order by a.attnum) as columns
             from ({WALLED}) w join pg_attribute a on a.attrelid = w.oid and a.attnum > 0 and not a.attisdropped
             group by w.name
           loop
             execute format('create view unwalled.%I with (security_invoker = true) as select %s from public.%I',
               t.name, t.columns, t.name);
             execute format('grant select, insert, update, delete on unwalled.%I to settlebrook_app', t.name);
           end loop;
         end $$;
         alter role settlebrook_app in database {} set search_path = unwalled, public",
        database.name()
    );
    run(database, statement).await;
    start_anew(database).await;
}

/// Ends the app's connections: the next ones know what was changed.
async fn start_anew(database: &TestDatabase) {
    let of_the_app =
        "from pg_stat_activity where datname = current_database() and usename = 'settlebrook_app'";
    run(database, format!("select pg_terminate_backend(pid) {of_the_app}")).await;
    let mut all = database.as_superuser().await;
    loop {
        let count = format!("select count(*) {of_the_app}");
        let left: i64 = sqlx::query_scalar(AssertSqlSafe(count)).fetch_one(&mut all).await.expect("counts");
        if left == 0 {
            return;
        }
        tokio::task::yield_now().await;
    }
}

/// Every id that is kept in the rows of a practice.
pub async fn ids_of(database: &TestDatabase, practice: Uuid) -> BTreeSet<Uuid> {
    let mut all = database.as_superuser().await;
    let columns = format!(
        "select format('select %I from public.%I where %I = $1 and %I is not null', a.attname, w.name, w.tenant, a.attname)
         from ({WALLED}) w join pg_attribute a on a.attrelid = w.oid and a.attnum > 0 and not a.attisdropped
         where a.atttypid = 'uuid'::regtype"
    );
    let queries: Vec<String> =
        sqlx::query_scalar(AssertSqlSafe(columns)).fetch_all(&mut all).await.expect("lists columns");
    let mut ids = BTreeSet::new();
    for query in queries {
        let found: Vec<Uuid> = sqlx::query_scalar(AssertSqlSafe(query))
            .bind(practice)
            .fetch_all(&mut all)
            .await
            .expect("reads ids");
        ids.extend(found);
    }
    ids
}

async fn run(database: &TestDatabase, statement: String) {
    let mut all = database.as_superuser().await;
    sqlx::raw_sql(AssertSqlSafe(statement)).execute(&mut all).await.expect("changes the database");
}
