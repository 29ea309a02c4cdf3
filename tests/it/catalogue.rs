//! The walls between practices, asked of the database's own catalogue: every check is a query that finds what is
//! wrong, and must find nothing.

use sqlx::{AssertSqlSafe, PgConnection, Row};

use crate::support::database::tables;
use crate::support::{Practice, World};

/// How every policy reads the practice that is open.
const TENANT: &str =
    "( SELECT (NULLIF(current_setting(''app.practice_id''::text, true), ''''::text))::uuid AS \"nullif\")";

/// Tables with a practice in them.
const TENANT_TABLES: &str = "
  select c.oid, c.relname::text as name, c.relrowsecurity, c.relforcerowsecurity from pg_class c
  where c.relkind in ('r', 'p') and c.relnamespace = 'public'::regnamespace
    and exists (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'practice_id' and not a.attisdropped)";

/// Reached before a practice is known: rows are held by a secret as well as by the practice.
const HELD_BY_A_SECRET: [&str; 2] = ["sign_in", "link_token"];

/// Every table without a practice: the tenant itself, and what is found by a secret.
const WITHOUT_PRACTICE: [&str; 6] =
    ["account", "credential", "passkey", "passkey_challenge", "practice", "setup_token"];

/// Unique keys that do not start with the practice: hashes of 256 random bits, found before a practice is known, and
/// an id that is only ever looked up inside a practice.
const KEYS_WITHOUT_PRACTICE: [&str; 3] = ["link_token_pkey", "sign_in_id_key", "sign_in_pkey"];

/// Written once, never changed: what was published, decided, said, done.
const INSERT_ONLY: [&str; 16] = [
    "attempt",
    "audit_event",
    "check_in",
    "consent",
    "consent_tick",
    "decision",
    "encounter_revision",
    "hand_over",
    "intake_triage",
    "lesson",
    "log_revision",
    "message",
    "plan_item",
    "plan_version",
    "report_issued",
    "report_opening",
];
/// Changed, but never deleted.
const NEVER_DELETED: [&str; 21] = [
    "installation",
    "account",
    "appointment",
    "arrangement_week",
    "dog_summary",
    "encounter",
    "goal_reading",
    "intake",
    "lesson_package",
    "life_event",
    "link_token",
    "lost_sheet",
    "membership",
    "message_read",
    "practice",
    "practice_log",
    "report_link",
    "setup_token",
    "sign_in",
    "welfare_flag",
    "_sqlx_migrations",
];

/// Policies beside the tenant's own: a row is seen by whoever holds its secret.
const OTHER_POLICIES: [&str; 10] = [
    "account.held for * using ((id = $account_id) OR (email = $email)) checking (id = $account_id)",
    "credential.held for * using (account_id = $account_id) checking (account_id = $account_id)",
    "link_token.held for * using ((token_hash = $token_hash) OR (practice_id = $practice_id)) \
     checking (practice_id = $practice_id)",
    "membership.mine for r using (account_id = $account_id) checking nothing",
    "passkey.held for * using ((credential_id = $passkey) OR (account_id = $account_id)) \
     checking (account_id = $account_id)",
    "passkey_challenge.held for * using (token_hash = $token_hash) checking (token_hash = $token_hash)",
    "passkey_challenge.left_behind for d using (kept_since < (now() - '01:00:00'::interval)) checking nothing",
    "practice.tenant for * using (id = $practice_id) checking (id = $practice_id)",
    "setup_token.held for * using (token_hash = $token_hash) checking (token_hash = $token_hash)",
    "sign_in.held for * using ((token_hash = $token_hash) OR (account_id = $account_id) OR (practice_id = $practice_id)) \
     checking ((account_id = $account_id) OR (practice_id = $practice_id))",
];

/// Roles that serve requests and jobs.
const SERVING: &str = "'settlebrook_app', 'settlebrook_worker'";

fn list(names: &[&str]) -> String {
    names.iter().map(|name| format!("'{name}'")).collect::<Vec<_>>().join(", ")
}

/// Fails with every row that `query` finds, each one text.
async fn finds_nothing(catalogue: &mut PgConnection, what: &str, query: String) {
    let found = sqlx::query(AssertSqlSafe(query)).fetch_all(catalogue).await.expect(what);
    let found: Vec<String> = found.iter().map(|row| row.get::<String, _>(0)).collect();
    assert!(found.is_empty(), "{what}: {found:?}");
}

#[tokio::test]
async fn every_table_is_walled() {
    let world = World::new().await;
    let mut catalogue = world.database.as_superuser().await;
    finds_nothing(
        &mut catalogue,
        "row-level security is on and forced on every table",
        "select relname::text from pg_class where relkind in ('r', 'p') and relnamespace = 'public'::regnamespace
         and relname not in ('_sqlx_migrations', 'installation') and not (relrowsecurity and relforcerowsecurity)"
            .into(),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "every table has a practice, or is listed here",
        format!(
            "select relname::text from pg_class c where relkind in ('r', 'p') and relnamespace = 'public'::regnamespace
             and relname not in ({}, '_sqlx_migrations', 'installation') and oid not in (select oid from ({TENANT_TABLES}) t)",
            list(&WITHOUT_PRACTICE)
        ),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "practice_id is never null",
        format!(
            "select t.name from ({TENANT_TABLES}) t join pg_attribute a on a.attrelid = t.oid
             where a.attname = 'practice_id' and not a.attnotnull"
        ),
    )
    .await;
}

#[tokio::test]
async fn every_policy_compares_with_the_open_practice() {
    let world = World::new().await;
    let mut catalogue = world.database.as_superuser().await;
    finds_nothing(
        &mut catalogue,
        "every table with a practice has the tenant policy, for every role and every command, both ways",
        format!(
            "select t.name from ({TENANT_TABLES}) t where t.name not in ({}) and not exists (
               select from pg_policy p where p.polrelid = t.oid and p.polcmd = '*' and p.polpermissive and p.polroles = '{{0}}'
               and pg_get_expr(p.polqual, p.polrelid) = '(practice_id = {TENANT})'
               and pg_get_expr(p.polwithcheck, p.polrelid) = '(practice_id = {TENANT})')",
            list(&HELD_BY_A_SECRET)
        ),
    )
    .await;
    let others = format!(
        "select polrelid::regclass || '.' || polname || ' for ' || polcmd::text
           || case when polroles = '{{0}}' then '' else ' to ' || polroles::regrole[]::text end
           || ' using ' || {using} || ' checking ' || {checking}
         from pg_policy where polname <> 'tenant'
         or polrelid not in (select oid from ({TENANT_TABLES}) t where t.name not in ({held}))
         order by 1",
        using = in_short("polqual"),
        checking = in_short("polwithcheck"),
        held = list(&HELD_BY_A_SECRET)
    );
    let others: Vec<String> =
        sqlx::query_scalar(AssertSqlSafe(others)).fetch_all(&mut catalogue).await.expect("lists policies");
    assert_eq!(others, OTHER_POLICIES);
}

/// An expression of a policy, in which `$x` stands for reading the setting `app.x` once a statement, empty as null.
fn in_short(expression: &str) -> String {
    let setting = r"NULLIF\(current_setting\('app\.([a-z_]+)'::text, true\), ''::text\)";
    let read = format!(r#"\( SELECT \(?{setting}(\)::uuid)? AS "nullif"\)"#).replace('\'', "''");
    let decoded = format!(r"\( SELECT decode\({setting}, 'hex'::text\) AS decode\)").replace('\'', "''");
    let text = format!("coalesce(pg_get_expr({expression}, polrelid), 'nothing')");
    format!(r"regexp_replace(regexp_replace({text}, '{read}', '$\1', 'g'), '{decoded}', '$\1', 'g')")
}

#[tokio::test]
async fn keys_carry_the_practice() {
    let world = World::new().await;
    let mut catalogue = world.database.as_superuser().await;
    finds_nothing(
        &mut catalogue,
        "a foreign key between tables with a practice pairs their practices",
        format!(
            "with tenant as ({TENANT_TABLES})
             select con.conrelid::regclass || '.' || con.conname from pg_constraint con
             where con.contype = 'f' and con.conrelid in (select oid from tenant) and con.confrelid in (select oid from tenant)
             and not exists (
               select from unnest(con.conkey, con.confkey) pair (here, there)
               join pg_attribute a on a.attrelid = con.conrelid and a.attnum = here and a.attname = 'practice_id'
               join pg_attribute b on b.attrelid = con.confrelid and b.attnum = there and b.attname = 'practice_id')"
        ),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "no foreign key deletes or changes rows by itself, but credentials and passkeys go with their account",
        "select conrelid::regclass || '.' || conname from pg_constraint
         where contype = 'f' and (confdeltype <> 'a' or confupdtype <> 'a') and conrelid not in ('credential'::regclass, 'passkey'::regclass)"
            .into(),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "unique keys start with the practice, so that they tell nothing of others",
        format!(
            "select i.indexrelid::regclass::text from pg_index i join ({TENANT_TABLES}) t on t.oid = i.indrelid
             join pg_attribute a on a.attrelid = i.indrelid and a.attnum = i.indkey[0]
             where i.indisunique and a.attname <> 'practice_id' and i.indexrelid::regclass::text not in ({})",
            list(&KEYS_WITHOUT_PRACTICE)
        ),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "every foreign key has an index whose first columns are its own",
        "select con.conrelid::regclass || '.' || con.conname from pg_constraint con
         where con.contype = 'f' and con.connamespace = 'public'::regnamespace and not exists (
           select from pg_index i where i.indrelid = con.conrelid and i.indpred is null
           and (i.indkey::int2[])[0:cardinality(con.conkey) - 1] @> con.conkey)"
            .into(),
    )
    .await;
}

#[tokio::test]
async fn nothing_runs_around_the_walls() {
    let world = World::new().await;
    let mut catalogue = world.database.as_superuser().await;
    let ours = "relnamespace = 'public'::regnamespace";
    finds_nothing(
        &mut catalogue,
        "views run as whoever asks",
        format!(
            "select relname::text from pg_class where relkind = 'v' and {ours}
             and not coalesce('security_invoker=true' = any (reloptions) or 'security_invoker=on' = any (reloptions), false)"
        ),
    )
    .await;
    let matviews = format!("select relname::text from pg_class where relkind in ('m', 'f') and {ours}");
    finds_nothing(&mut catalogue, "no materialised views, no foreign tables", matviews).await;
    finds_nothing(
        &mut catalogue,
        "no function runs as its owner",
        "select proname::text from pg_proc where pronamespace = 'public'::regnamespace and prosecdef".into(),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "no rules and no triggers of ours",
        "select tgname::text from pg_trigger where not tgisinternal
         union all select rulename::text from pg_rewrite where rulename <> '_RETURN'
           and ev_class in (select oid from pg_class where relnamespace = 'public'::regnamespace)"
            .into(),
    )
    .await;
}

#[tokio::test]
async fn roles_may_do_what_they_need_and_no_more() {
    let world = World::new().await;
    let mut catalogue = world.database.as_superuser().await;
    finds_nothing(
        &mut catalogue,
        "the serving roles have no powers",
        format!(
            "select rolname::text from pg_roles where rolname in ({SERVING}) and (rolsuper or rolbypassrls or rolcreatedb
               or rolcreaterole or rolreplication or exists (select from pg_auth_members where member = pg_roles.oid)
               or has_schema_privilege(rolname, 'public', 'create') or has_database_privilege(rolname, current_database(), 'create')
               or exists (select from pg_class where relowner = pg_roles.oid) or exists (select from pg_proc where proowner = pg_roles.oid))"
        ),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "the owner of the schema is bound by forced row-level security",
        "select rolname::text from pg_roles where rolname = 'settlebrook_owner' and (rolsuper or rolbypassrls)".into(),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "everything belongs to the schema's owner",
        "select relname::text from pg_class where relnamespace = 'public'::regnamespace
         and relowner <> 'settlebrook_owner'::regrole"
            .into(),
    )
    .await;
    finds_nothing(
        &mut catalogue,
        "nothing is granted to everybody, but which migrations were applied",
        "select relname::text from pg_class, lateral aclexplode(relacl) g
         where relnamespace = 'public'::regnamespace and g.grantee = 0
         and not (relname = '_sqlx_migrations' and g.privilege_type = 'SELECT')
         union all select proname::text from pg_proc, lateral aclexplode(coalesce(proacl, acldefault('f', proowner))) g
         where pronamespace = 'public'::regnamespace and g.grantee = 0
         union all select 'create on schema public' from pg_namespace, lateral aclexplode(nspacl) g
         where nspname = 'public' and g.grantee = 0 and g.privilege_type = 'CREATE'"
            .into(),
    )
    .await;
}

#[tokio::test]
async fn what_is_published_said_or_done_cannot_be_changed() {
    let world = World::new().await;
    let mut catalogue = world.database.as_superuser().await;
    for (privileges, tables) in [
        ("'UPDATE', 'DELETE', 'TRUNCATE'", list(&INSERT_ONLY)),
        ("'DELETE', 'TRUNCATE'", list(&NEVER_DELETED)),
    ] {
        finds_nothing(
            &mut catalogue,
            "the serving roles may not change what stands",
            format!(
                "select relname || ' ' || g.privilege_type || ' ' || g.grantee::regrole
                 from pg_class, lateral aclexplode(relacl) g where relnamespace = 'public'::regnamespace
                 and g.grantee::regrole::text in ({SERVING}) and g.privilege_type in ({privileges}) and relname in ({tables})"
            ),
        )
        .await;
    }
    finds_nothing(
        &mut catalogue,
        "nobody who serves may truncate, reference or add triggers",
        format!(
            "select relname || ' ' || g.privilege_type from pg_class, lateral aclexplode(relacl) g
             where relnamespace = 'public'::regnamespace and g.grantee::regrole::text in ({SERVING})
             and g.privilege_type in ('TRUNCATE', 'REFERENCES', 'TRIGGER')"
        ),
    )
    .await;
}

/// What the app's role sees of every table, with these settings.
async fn seen(app: &mut PgConnection, settings: &[(&str, String)]) -> Vec<(String, i64)> {
    let tables = tables(app).await;
    let mut seen = Vec::new();
    sqlx::raw_sql("begin").execute(&mut *app).await.expect("begins");
    for (name, value) in settings {
        let set = sqlx::query("select set_config($1, $2, true)").bind(*name).bind(value);
        set.execute(&mut *app).await.expect("sets");
    }
    // The one row of `installation` says whether anybody was ever here, and nothing of whom.
    for table in tables.into_iter().filter(|table| table != "installation") {
        let query = format!("select count(*) from \"{table}\"");
        let rows = sqlx::query_scalar(AssertSqlSafe(query)).fetch_one(&mut *app).await.expect(&table);
        seen.push((table, rows));
    }
    sqlx::raw_sql("rollback").execute(&mut *app).await.expect("ends");
    seen
}

#[tokio::test]
async fn without_a_practice_nothing_is_seen() {
    let world = World::new().await;
    world.practice("Heath and Hollow").await;
    world.set_up_link().await;
    let mut app = world.database.as_app().await;
    // A connection on which a practice was open before reads '' rather than null.
    for settings in [vec![], vec![("app.practice_id", String::new())]] {
        let all = seen(&mut app, &settings).await;
        assert!(all.len() >= 30, "{all:?}");
        assert!(all.iter().all(|(_, rows)| *rows == 0), "{all:?}");
    }
}

/// Every row of a table with a practice that belongs to another one, seen as the app's role.
async fn seen_of_others(app: &mut PgConnection, practice: &Practice) -> Vec<String> {
    let tenant: Vec<String> =
        sqlx::query_scalar(AssertSqlSafe(format!("select name from ({TENANT_TABLES}) t")))
            .fetch_all(&mut *app)
            .await
            .expect("lists tables");
    sqlx::raw_sql("begin").execute(&mut *app).await.expect("begins");
    let set = sqlx::query("select set_config('app.practice_id', $1, true)").bind(practice.id.to_string());
    set.execute(&mut *app).await.expect("sets");
    let mut others = Vec::new();
    for table in tenant {
        let query = format!("select count(*) from \"{table}\" where practice_id <> $1");
        let rows: i64 = sqlx::query_scalar(AssertSqlSafe(query))
            .bind(practice.id.0)
            .fetch_one(&mut *app)
            .await
            .expect(&table);
        others.extend((rows > 0).then(|| format!("{table}: {rows}")));
    }
    sqlx::raw_sql("rollback").execute(&mut *app).await.expect("ends");
    others
}

#[tokio::test]
async fn inside_one_practice_nothing_of_another_is_seen() {
    let world = World::new().await;
    let (here, there) = (world.practice("Heath and Hollow").await, world.practice("Moss and Mire").await);
    let mut app = world.database.as_app().await;
    for practice in [&here, &there] {
        assert_eq!(seen_of_others(&mut app, practice).await, Vec::<String>::new());
        let open = [("app.practice_id", practice.id.to_string())];
        let own = seen(&mut app, &open).await;
        for table in ["practice", "membership", "sign_in", "audit_event"] {
            assert!(own.contains(&(table.to_owned(), 1)), "{table}: {own:?}");
        }
    }
}

#[tokio::test]
async fn the_app_cannot_reach_into_another_practice_or_past_the_walls() {
    let world = World::new().await;
    let (here, there) = (world.practice("Heath and Hollow").await, world.practice("Moss and Mire").await);
    let mut app = world.database.as_app().await;
    let refused = [
        format!(
            "insert into household (practice_id, id, name, zone, created_at) values ('{}', gen_random_uuid(), 'x', 'UTC', now())",
            there.id
        ),
        format!("update membership set practice_id = '{}'", there.id),
        "alter table membership disable row level security".to_owned(),
        "set role settlebrook_owner".to_owned(),
        "set local row_security = off; select * from membership".to_owned(),
        "create table mine (id int)".to_owned(),
        "truncate household".to_owned(),
    ];
    for statement in refused {
        let tried = format!("begin; select set_config('app.practice_id', '{}', true); {statement}", here.id);
        let error = sqlx::raw_sql(AssertSqlSafe(tried)).execute(&mut app).await.expect_err(&statement);
        let code = error.as_database_error().and_then(|e| e.code()).unwrap_or_default().into_owned();
        assert_eq!(code, "42501", "{statement}: {error}");
        sqlx::raw_sql("rollback").execute(&mut app).await.expect("ends");
    }
    let untouched = format!(
        "begin; select set_config('app.practice_id', '{}', true); update membership set name = 'x' where practice_id = '{}'",
        here.id, there.id
    );
    let done = sqlx::raw_sql(AssertSqlSafe(untouched)).execute(&mut app).await.expect("updates nothing");
    assert_eq!(done.rows_affected(), 1, "only the setting was read back");
}
