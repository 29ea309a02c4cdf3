//! What is kept of a dog is built anew from its facts, however it was wrecked.

use sqlx::AssertSqlSafe;
use time::Duration;
use uuid::Uuid;

use crate::support::{Browser, Practice, World};

/// What a whole practice's summaries, days and streams say.
pub async fn kept(world: &World) -> Vec<String> {
    let mut all = Vec::new();
    for (table, order) in [
        ("dog_summary", "dog_id"),
        ("dog_day", "dog_id, local_date"),
        ("readiness", "dog_id, line_id, step_id"),
    ] {
        let query = format!("select t::text from {table} t order by {order}");
        let rows: Vec<String> = sqlx::query_scalar(AssertSqlSafe(query))
            .fetch_all(&mut world.database.as_superuser().await)
            .await
            .expect("reads what is kept");
        all.extend(rows);
    }
    all
}

/// Empties what can be built anew.
pub async fn wreck(world: &World) {
    sqlx::raw_sql("delete from dog_summary; delete from dog_day; delete from readiness")
        .execute(&mut world.database.as_superuser().await)
        .await
        .expect("wrecks what is kept");
}

/// Fails unless the rows of a practice's dogs, wrecked and built anew, are those that were kept.
pub async fn is_built_anew(world: &World, practice: &Practice) {
    let before = kept(world).await;
    wreck(world).await;
    check(&mut practice.lead.clone()).await;
    assert_eq!(before, kept(world).await);
}

async fn log(phone: &mut Browser, dog: Uuid, fields: &[(&str, &str)]) {
    let css = format!("main form[action='/dogs/{dog}/log']");
    let mut form = phone.visit(&format!("/dogs/{dog}/log/new")).await;
    if form.count(&css) == 0 {
        let links = form.attributes("main a", "href");
        let detail = links.into_iter().find(|href| href.contains("/log/new?item=")).expect("a log form");
        form = phone.get(&detail).await;
    }
    phone.submit(&form, &css, fields).await.expect(303);
}

/// Presses the lead's button, and gives what the page says then.
async fn check(lead: &mut Browser) -> String {
    let page = lead.visit("/practice/records").await;
    let checked = lead.submit(&page, "main form[action='/practice/records']", &[]).await;
    checked.expect(200).text("main")
}

#[tokio::test]
async fn what_was_wrecked_is_built_anew() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Nose to hand"]).await;
    let counted: [&[(&str, &str)]; 5] = [
        &[("attempts", "10"), ("left", "0")],
        &[("attempts", "10"), ("left", "1")],
        &[("attempts", "8"), ("left", "5"), ("on", "2026-03-10"), ("at", "10:00")],
        &[("attempts", "12"), ("left", "0"), ("bite", "yes")],
        &[("attempts", "12"), ("left", "0")],
    ];
    for fields in counted {
        world.pass(Duration::hours(20));
        log(&mut ada, moss, fields).await;
    }
    let page = ada.get("/messages").await;
    ada.submit(&page, "main form:has(textarea)", &[("body", "Is a chew enough?")]).await.expect(303);
    practice.lead_signs_in().await;
    let messages = format!("/dogs/{moss}/messages");
    let page = practice.lead.get(&messages).await;
    practice
        .lead
        .submit(&page, &format!("main form[action='{messages}']"), &[("body", "It is.")])
        .await
        .expect(303);
    let before = kept(&world).await;
    assert_eq!(
        world.database.count("select count(*) from readiness where (state->>'sittings')::int = 5").await,
        1
    );
    wreck(&world).await;
    let found = check(&mut practice.lead).await;
    assert!(found.contains("1 did not agree and was mended"), "{found}");
    assert_eq!(before, kept(&world).await);
    let found = check(&mut practice.lead).await;
    assert!(found.contains("1 dog checked") && found.contains("Everything agrees"), "{found}");
    let done = practice.lead.visit("/practice/audit").await;
    assert!(done.text("main").contains("built the records of Moss anew"), "{done:?}");
}

#[tokio::test]
async fn a_class_that_the_plan_changes_is_charted_anew() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Nose to hand"]).await;
    for _ in 0..2 {
        world.pass(Duration::hours(20));
        log(&mut ada, moss, &[("attempts", "9"), ("left", "1")]).await;
    }
    let score =
        "select round((state->>'score')::numeric * 1000)::bigint from readiness where class = 'ordinary'";
    let ordinary = world.database.count(score).await;
    // the library's entry is a safety skill from now on
    sqlx::raw_sql("update exercise set class = 'safety' where name = 'Nose to hand'")
        .execute(&mut world.database.as_superuser().await)
        .await
        .expect("changes the class");
    practice.lead_signs_in().await;
    practice.publish_plan(moss, &[]).await;
    let safety =
        "select round((state->>'score')::numeric * 1000)::bigint from readiness where class = 'safety'";
    let anew = world.database.count(safety).await;
    assert_ne!(anew, ordinary, "folded by the other chart");
    let before = kept(&world).await;
    assert!(check(&mut practice.lead).await.contains("Everything agrees"));
    assert_eq!(before, kept(&world).await);
}
