//! How many statements a page takes: the same for ten dogs, for a hundred and for three hundred, for few logs and for many; and six at
//! most. Every page of the table is asked for, by a lead and by an owner. The opening of a transaction, who asks and COMMIT are not
//! among them.

use std::collections::BTreeMap;

use axum::http::Method;
use sqlx::{AssertSqlSafe, Row};
use uuid::Uuid;

use crate::support::lived_in::HEATH;
use crate::support::{Browser, LivedIn, Practice, World, statements, walk};

/// What a page may take.
const MOST: usize = 6;

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
                 'open_stops', n % 2, 'answer_due', case when n % 2 = 1 then now() end))).*
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

/// How many pages a lead and an owner are shown.
const SHOWN: (usize, usize) = (104, 44);

/// Exercises whose sittings are measured.
const MEASURED: [&str; 2] = ["Settle on a mat", "Alone, in small steps"];

/// Pages that read more where their address asks for it.
const ASKED: [&str; 8] = [
    "/caseload?show=everyone&need=stop",
    "/caseload?q=moss",
    "/caseload/several?show=everyone",
    "/today?dog={dog}",
    "/plan?dog={dog}",
    "/progress?dog={dog}",
    "/messages?dog={dog}",
    "/dogs/{dog}/charts?range=all",
];

/// What a page takes, where it is shown.
async fn takes(browser: &mut Browser, path: &str) -> Option<usize> {
    statements::since_last();
    let shown = browser.get(path).await.status().as_u16() == 200;
    let sent = statements::since_last();
    if sent.len() > MOST {
        eprintln!("{path}\n  {}", sent.join("\n  "));
    }
    shown.then_some(sent.len())
}

/// Every page that this browser is shown, by its pattern, and what it takes.
async fn counted(browser: &mut Browser, things: &BTreeMap<&'static str, Uuid>) -> Vec<(&'static str, usize)> {
    let dog = things["dog"].to_string();
    let routes = walk::every_route(things).into_iter().filter(|stop| stop.method == Method::GET);
    let pages = routes.map(|stop| (stop.pattern, stop.path));
    let asked = ASKED.map(|page| (page, page.replace("{dog}", &dog)));
    let mut counts = Vec::new();
    for (pattern, path) in pages.chain(asked) {
        counts.extend(takes(browser, &path).await.map(|sent| (pattern, sent)));
    }
    counts
}

#[tokio::test]
async fn a_page_takes_as_few_statements_for_three_hundred_dogs_as_for_ten() {
    statements::listen();
    let world = World::new().await;
    let mut home = LivedIn::new(&world, &HEATH).await;
    let things = home.practice.things.clone();
    // what is measured is read beside what is counted
    home.practice.publish_plan(things["dog"], &MEASURED).await;
    let card = home.practice.helper(&mut home.owner, things["dog"], "Ines Marl").await;
    let report = home.practice.draft_report(things["dog"], &[("kind", "progress")]).await;
    home.practice.issue_report(&report).await;
    let report = home.practice.share_report(&report, "The surgery").await;
    let mut first = None;
    for (dogs, logs) in [(10, 10), (100, 100), (300, 300)] {
        grow(&world, dogs, logs).await;
        let lead = counted(&mut home.practice.lead, &things).await;
        let owner = counted(&mut home.owner, &things).await;
        assert_eq!(
            (lead.len(), owner.len()),
            SHOWN,
            "a new page is counted here, and none is left out by a mistake of its own"
        );
        let mut visitor = world.visitor();
        let links = [("a helper's card", &card), ("a report's link", &report)];
        let mut shown = Vec::new();
        for (name, link) in links {
            shown.push((name, takes(&mut visitor, link).await.expect("is shown")));
        }
        let over: Vec<_> = lead.iter().chain(&owner).chain(&shown).filter(|(_, sent)| *sent > MOST).collect();
        assert!(over.is_empty(), "more than {MOST}: {over:#?}");
        let counts = (lead, owner, shown);
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
