//! How many statements a page takes: the same for ten dogs and for three hundred, for few logs and for many, and few.

use sqlx::AssertSqlSafe;
use uuid::Uuid;

use crate::support::{Browser, Practice, World, statements};

async fn say(world: &World, statement: &str) {
    let mut all = world.database.as_superuser().await;
    sqlx::raw_sql(AssertSqlSafe(statement.to_owned())).execute(&mut all).await.expect("is done");
}

/// A practice with one dog that has a plan, a sitting, an encounter, a message and a flag; and its owner's phone.
async fn beginning(world: &World) -> (Practice, Uuid, Browser) {
    let (mut practice, moss, mut ada) = crate::incidents::beginning(world).await;
    crate::incidents::log(&mut ada, moss, &[("note", "Ten small ones.")]).await;
    crate::incidents::tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    let page = ada.get("/messages").await;
    ada.submit(&page, "main form.form", &[("body", "May she rest on Sunday?")]).await.expect(303);
    practice.lead.get("/caseload").await;
    (practice, moss, ada)
}

/// Fills the practice up to so many dogs, and the first dog up to so many sittings.
async fn grow(world: &World, dogs: i64, logs: i64) {
    let id = "('00000000-0000-4000-8000-' || lpad(to_hex(n), 12, '0'))::uuid";
    say(
        world,
        &format!(
            "insert into dog select (jsonb_populate_record(d.dog, jsonb_build_object('id', {id}, 'name', 'Dog ' || n))).*
               from (select dog from dog order by id limit 1) d,
                    generate_series((select count(*) from dog) + 1, {dogs}) n on conflict do nothing;
             insert into dog_summary select (jsonb_populate_record(s.dog_summary, jsonb_build_object('dog_id', d.id, 'top_flag_id', null,
                 'open_stops', n % 2, 'stop_since', case when n % 2 = 1 then now() end))).*
               from (select dog_summary from dog_summary order by dog_id limit 1) s,
                    (select id, row_number() over () as n from dog) d on conflict do nothing;
             insert into dog_day select d.practice_id, d.id, date '2026-03-12' - n, 1, null
               from dog d, generate_series(0, 13) n on conflict do nothing;
             insert into practice_log select (jsonb_populate_record(l.practice_log, jsonb_build_object(
                 'id', gen_random_uuid(), 'started_at', (l.practice_log).started_at - n * interval '1 minute'))).*
               from (select practice_log from practice_log order by started_at desc limit 1) l,
                    generate_series((select count(*) from practice_log) + 1, {logs}) n;"
        ),
    )
    .await;
}

#[tokio::test]
async fn prints() {
    statements::listen();
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    grow(&world, 10, 10).await;
    for path in [
        "/caseload",
        "/dogs/D",
        "/dogs/D/log",
        "/dogs/D/welfare",
        "/dogs/D/messages",
        "/dogs/D/plan",
        "/dogs/D/plan/edit",
        "/dogs/D/profile",
        "/dogs/D/lessons",
        "/households",
        "/library",
        "/practice",
        "/dogs/D/food",
        "/dogs/D/line",
        "/dogs/D/weights",
    ] {
        let path = path.replace('D', &moss.to_string());
        statements::since_last();
        practice.lead.get(&path).await;
        let sent = statements::since_last();
        eprintln!("{path}: {}", sent.len());
        if std::env::var("ALL").is_ok() {
            for s in sent {
                eprintln!("    {}", s.chars().take(140).collect::<String>());
            }
        }
    }
    for path in ["/today", "/plan", "/progress", "/messages", "/dogs/D/log/new", "/household"] {
        let path = path.replace('D', &moss.to_string());
        statements::since_last();
        ada.get(&path).await;
        let sent = statements::since_last();
        eprintln!("{path}: {}", sent.len());
        if std::env::var("ALL").is_ok() {
            for s in sent {
                eprintln!("    {}", s.chars().take(140).collect::<String>());
            }
        }
    }
}
