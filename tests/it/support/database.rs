//! A database for one test, copied from the migrated template that `tests/run` made, and dropped at the end.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::time::Duration;

use sqlx::postgres::{PgConnectOptions, PgPoolOptions};
use sqlx::{AssertSqlSafe, Connection, PgConnection, PgPool};

use super::settings;

/// Migrated once by `tests/run`; nobody connects to it while tests run.
const TEMPLATE: &str = "settlebrook_template";
const OWNER: &str = "settlebrook_owner";
const APP: &str = "settlebrook_app";

/// The database of one test.
#[derive(Debug)]
pub struct TestDatabase {
    name: String,
    server: PathBuf,
}

/// For every table, how many rows it has and when it was last written: equal before and after means that nothing was
/// written in between.
pub type Fingerprint = BTreeMap<String, (i64, i64)>;

impl TestDatabase {
    /// Copies the template.
    pub async fn create() -> Self {
        let database =
            Self { name: format!("test_{}", uuid::Uuid::new_v4().simple()), server: settings::server() };
        let Self { name, .. } = &database;
        database.on_server(&format!("create database {name} template {TEMPLATE} owner {OWNER}")).await;
        database
    }

    /// Another database with all that is in this one, which nobody may be connected to.
    pub async fn copied(&self) -> Self {
        let copy =
            Self { name: format!("test_{}", uuid::Uuid::new_v4().simple()), server: self.server.clone() };
        copy.on_server(&format!("create database {} template {} owner {OWNER}", copy.name, self.name)).await;
        copy
    }

    /// What the server calls it.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Does something as the server's superuser, outside this database.
    pub async fn on_server(&self, statement: &str) {
        let options = PgConnectOptions::new_without_pgpass().socket(&self.server).username("postgres");
        let mut server = PgConnection::connect_with(&options.database("postgres"))
            .await
            .expect("the test server answers: run tests/run");
        sqlx::raw_sql(AssertSqlSafe(statement.to_owned())).execute(&mut server).await.expect(statement);
    }

    fn options(&self, role: &str) -> PgConnectOptions {
        PgConnectOptions::new_without_pgpass().socket(&self.server).username(role).database(&self.name)
    }

    async fn connect(&self, role: &str) -> PgConnection {
        PgConnection::connect_with(&self.options(role)).await.expect("connects to the test's database")
    }

    /// Connections of the role that serves requests: bound by row-level security.
    pub async fn app_pool(&self, connections: u32) -> PgPool {
        PgPoolOptions::new()
            .max_connections(connections)
            .acquire_timeout(Duration::from_secs(3))
            .connect_with(self.options(APP))
            .await
            .expect("connects as the app's role")
    }

    /// One connection of the role that serves requests.
    pub async fn as_app(&self) -> PgConnection {
        self.connect(APP).await
    }

    /// One connection that sees everything, to look at what was really written.
    pub async fn as_superuser(&self) -> PgConnection {
        self.connect("postgres").await
    }

    /// What every table holds just now.
    pub async fn fingerprint(&self) -> Fingerprint {
        let mut all = self.as_superuser().await;
        let mut found = Fingerprint::new();
        for table in tables(&mut all).await {
            let query = format!("select count(*), coalesce(max(xmin::text::bigint), 0) from \"{table}\"");
            let held = sqlx::query_as(AssertSqlSafe(query)).fetch_one(&mut all).await.expect("counts rows");
            found.insert(table, held);
        }
        found
    }

    /// How many rows a query of the superuser's counts.
    pub async fn count(&self, query: &'static str) -> i64 {
        sqlx::query_scalar(query).fetch_one(&mut self.as_superuser().await).await.expect("counts rows")
    }
}

impl Drop for TestDatabase {
    fn drop(&mut self) {
        // A thread of its own, since a test that failed may be unwinding inside its runtime.
        let database = Self { name: std::mem::take(&mut self.name), server: self.server.clone() };
        if database.name.is_empty() {
            return;
        }
        let dropped = std::thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
            let statement = format!("drop database {} with (force)", database.name);
            runtime.expect("a runtime").block_on(database.on_server(&statement));
            std::mem::forget(database);
        });
        let _ = dropped.join();
    }
}

/// The tables of the service, by name, without the migrations' own.
pub async fn tables(connection: &mut PgConnection) -> Vec<String> {
    sqlx::query_scalar(
        "select relname::text from pg_class
         where relkind in ('r', 'p') and relnamespace = 'public'::regnamespace and relname not like '\\_sqlx%'
         order by 1",
    )
    .fetch_all(connection)
    .await
    .expect("lists tables")
}
