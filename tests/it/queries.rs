//! How many statements a page takes: the same for ten dogs, for a hundred and for three hundred, for few logs and for many; and few.
//! The opening of a transaction, who asks and COMMIT are not among them.

use sqlx::{AssertSqlSafe, Row};
use uuid::Uuid;

use crate::support::{Browser, Practice, World, statements};

/// What a page may take.
const MOST: usize = 6;

/// Pages that take more, and how many: less is welcome, more is not.
const MORE: &[(&str, usize)] = &[
    ("/dogs/{dog}", 20),
    ("/dogs/{dog}/log", 9),
    ("/dogs/{dog}/charts", 9),
    ("/dogs/{dog}/lessons", 15),
    ("/dogs/{dog}/plan/edit", 16),
    ("/dogs/{dog}/plan/publish", 11),
    ("/dogs/{dog}/profile", 12),
    ("/today?dog={dog}", 22),
    ("/progress?dog={dog}", 11),
    ("/dogs/{dog}/health", 8),
];

/// What households tell: none of it is read for the caseload.
const LOGS: [&str; 5] = ["practice_log", "attempt", "encounter", "message", "log_revision"];

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
    ada.submit(&page, "main form[action='/messages']", &[("body", "May she rest on Sunday?")])
        .await
        .expect(303);
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
               from (select dog from dog where name = 'Moss') d,
                    generate_series((select count(*) from dog) + 1, {dogs}) n on conflict do nothing;
             insert into dog_summary select (jsonb_populate_record(s.dog_summary, jsonb_build_object('dog_id', d.id, 'top_flag_id', null,
                 'open_stops', n % 2, 'stop_since', case when n % 2 = 1 then now() end))).*
               from (select s as dog_summary from dog_summary s join dog d on d.id = s.dog_id and d.name = 'Moss') s,
                    (select id, row_number() over () as n from dog) d on conflict do nothing;
             insert into dog_day select d.practice_id, d.id, date '2026-03-12' - n, 1, null
               from dog d, generate_series(0, 13) n on conflict do nothing;
             insert into practice_log select (jsonb_populate_record(l.practice_log, jsonb_build_object(
                 'id', gen_random_uuid(), 'started_at', (l.practice_log).started_at - n * interval '1 minute'))).*
               from (select practice_log from practice_log order by started_at desc limit 1) l,
                    generate_series((select count(*) from practice_log) + 1, {logs}) n;
             analyze;"
        ),
    )
    .await;
}

/// The pages, with the dog's id for {dog}.
const TRAINERS: [&str; 30] = [
    "/caseload",
    "/caseload?show=everyone&need=stop",
    "/caseload?q=moss",
    "/caseload/several?show=everyone",
    "/caseload/team",
    "/caseload/views",
    "/review",
    "/review/phrases",
    "/dogs/{dog}",
    "/dogs/{dog}/log",
    "/dogs/{dog}/timeline",
    "/dogs/{dog}/charts",
    "/dogs/{dog}/welfare",
    "/dogs/{dog}/messages",
    "/dogs/{dog}/reports",
    "/dogs/{dog}/lessons",
    "/dogs/{dog}/plan",
    "/dogs/{dog}/plan/edit",
    "/dogs/{dog}/plan/publish",
    "/dogs/{dog}/profile",
    "/dogs/{dog}/food",
    "/dogs/{dog}/line",
    "/dogs/{dog}/weights",
    "/dogs/{dog}/intake",
    "/dogs/{dog}/goal",
    "/dogs/{dog}/life",
    "/lessons",
    "/households",
    "/library",
    "/practice",
];
const OWNERS: [&str; 9] = [
    "/today?dog={dog}",
    "/plan?dog={dog}",
    "/progress?dog={dog}",
    "/messages?dog={dog}",
    "/dogs/{dog}/log/new",
    "/dogs/{dog}/encounters/new",
    "/dogs/{dog}/gone",
    "/dogs/{dog}/health",
    "/household",
];

async fn counted(practice: &mut Practice, ada: &mut Browser, dog: Uuid) -> Vec<(&'static str, Vec<String>)> {
    let mut counts = Vec::new();
    for (pages, is_lead) in [(&TRAINERS[..], true), (&OWNERS[..], false)] {
        for page in pages {
            let path = page.replace("{dog}", &dog.to_string());
            statements::since_last();
            let browser = if is_lead { &mut practice.lead } else { &mut *ada };
            browser.get(&path).await.expect(200);
            counts.push((*page, statements::since_last()));
        }
    }
    counts
}

#[tokio::test]
async fn a_page_takes_as_many_statements_for_three_hundred_dogs_as_for_ten() {
    statements::listen();
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let mut first: Option<Vec<(&str, usize)>> = None;
    for (dogs, logs) in [(10, 10), (100, 100), (300, 300)] {
        grow(&world, dogs, logs).await;
        let sent = counted(&mut practice, &mut ada, moss).await;
        let over = sent.iter().filter_map(|(page, sent)| {
            let most = MORE.iter().find(|(more, _)| more == page).map_or(MOST, |(_, most)| *most);
            (sent.len() > most).then_some((*page, sent.len()))
        });
        let over: Vec<(&str, usize)> = over.collect();
        assert!(over.is_empty(), "more than they may: {over:#?}");
        let counts: Vec<(&str, usize)> = sent.iter().map(|(page, sent)| (*page, sent.len())).collect();
        let before = first.get_or_insert_with(|| counts.clone());
        assert_eq!(*before, counts, "at {dogs} dogs");
    }
}

#[tokio::test]
async fn the_caseload_reads_no_logs() {
    statements::listen();
    let world = World::new().await;
    let (mut practice, _moss, _ada) = beginning(&world).await;
    grow(&world, 300, 300).await;
    statements::since_last();
    practice.lead.get("/caseload?show=everyone").await.expect(200);
    let sent = statements::since_last();
    assert!(!sent.is_empty());
    let mut all = world.database.as_superuser().await;
    sqlx::raw_sql("set plan_cache_mode = force_generic_plan").execute(&mut all).await.expect("is set");
    for (number, statement) in sent.iter().enumerate() {
        // a plan for any values, so that no branch of the statement is left out of it
        let values = (1..20).take_while(|n| statement.contains(&format!("${n}"))).count();
        let values =
            if values == 0 { String::new() } else { format!("({})", vec!["null"; values].join(", ")) };
        let asked =
            format!("prepare p{number} as {statement}; explain (costs off) execute p{number}{values}");
        let plan: Vec<String> = sqlx::raw_sql(AssertSqlSafe(asked.clone()))
            .fetch_all(&mut all)
            .await
            .expect("is planned")
            .iter()
            .map(|row| row.get::<String, _>(0))
            .collect();
        assert!(!plan.is_empty(), "{asked}");
        for table in LOGS {
            let scans = plan.iter().any(|line| format!("{line} ").contains(&format!(" on {table} ")));
            assert!(!scans, "{table} is read: {plan:#?}");
        }
    }
    // looking at plans is known to work
    let plan: Vec<String> = sqlx::raw_sql("explain (costs off) select from practice_log l where l.bite")
        .fetch_all(&mut all)
        .await
        .expect("is planned")
        .iter()
        .map(|row| row.get::<String, _>(0))
        .collect();
    assert!(plan.iter().any(|line| line.contains("on practice_log ")), "{plan:?}");
}
