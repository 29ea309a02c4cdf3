//! What an owner says of a day beside sittings: not today, how arrangements were kept; and the sheet for when the dog is gone.

use uuid::Uuid;

use crate::support::World;

#[tokio::test]
async fn not_today_is_one_tap_and_the_page_rests() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["A look at you"]).await;
    let today = ada.get("/today").await;
    for _ in 0..2 {
        ada.submit(&today, "main form.not-today", &[("reason", "weather")]).await.expect(303);
    }
    assert_eq!(world.database.count("select count(*) from day_off").await, 1, "sent twice, said once");
    let off = ada.get("/today").await;
    assert_eq!(off.text("h1"), "A day off");
    assert_eq!(off.count("main form.not-today"), 0);
    assert!(off.text("main details.also").contains("A look at you"), "it can still be logged");
    let log = practice.lead.get(&format!("/dogs/{moss}/log")).await;
    assert!(log.text("main aside").contains("the weather (Ada Okoro)"), "{}", log.text("main aside"));
    world.pass(time::Duration::days(1));
    assert_ne!(ada.get("/today").await.text("h1"), "A day off", "the next day is another");
    let path = format!("/dogs/{moss}/not-today");
    let on = world.now().date().to_string();
    ada.post(&path, &[("reason", "rain"), ("on", &on)]).await.expect(422);
    ada.submit(&today, "main form.not-today", &[])
        .await
        .redirects_to(&format!("/today?dog={moss}&notice=day-over"));
    ada.post(&path, &[("on", &on)]).await.expect(303);
    let off = ada.get("/today").await;
    ada.submit(&off, "main form[action$='/after-all']", &[]).await.expect(303);
    assert_ne!(ada.get("/today").await.text("h1"), "A day off", "after all");
    ada.post(&path, &[]).await.expect(400);
}

#[tokio::test]
async fn an_arrangement_is_said_to_be_kept_a_week_at_a_time() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Long line on the harness, every field walk", "A look at you"]).await;
    for held in ["no", "mostly"] {
        let today = ada.get("/today").await;
        ada.submit(&today, "main form.held", &[("held", held)]).await.expect(303);
    }
    let today = ada.get("/today").await;
    assert_eq!(today.attributes("main form.held button[aria-pressed=true]", "value"), ["mostly"]);
    assert_eq!(world.database.count("select count(*) from arrangement_week").await, 1);
    let log = practice.lead.get(&format!("/dogs/{moss}/log")).await;
    assert!(log.text("main aside").contains("kept? mostly"), "{}", log.text("main aside"));
    world.pass(time::Duration::days(7));
    let next = ada.get("/today").await;
    assert_eq!(next.count("main form.held button[aria-pressed=true]"), 0, "a new week is open");
    let week_of = next.attributes("main form.held input[name=week_of]", "value")[0].clone();
    let fields = [("held", "yes"), ("week_of", week_of.as_str())];
    ada.post(&format!("/dogs/{moss}/held/{}", Uuid::new_v4()), &fields).await.expect(404);
    ada.submit(&today, "main form.held", &[("held", "no")])
        .await
        .redirects_to(&format!("/today?dog={moss}&notice=day-over"));
}

#[tokio::test]
async fn the_sheet_for_a_dog_that_is_gone_stands_on_the_poster() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let elsewhere = practice.household("Lund").await;
    let wren = practice.dog(elsewhere, "Wren").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let path = format!("/dogs/{moss}/gone");
    let page = ada.get(&path).await;
    let long = "9".repeat(61);
    let refused = ada.submit(&page, "main form", &[("chip", &long), ("marks", "Torn ear")]).await;
    refused.expect(422);
    assert!(!refused.error_of("chip").is_empty());
    assert!(refused.text("#f-marks").contains("Torn ear"));
    let said = [("chip", "977 200 001"), ("marks", "Torn ear"), ("ring", "Ada 01632 960123")];
    ada.submit(&page, "main form", &said).await.expect(303);
    let poster = practice.lead.get(&path).await.text("main .poster");
    for words in ["Lost: Moss", "Torn ear", "Ada 01632 960123", "977 200 001", "do not chase"] {
        assert!(poster.contains(words), "{words}: {poster}");
    }
    ada.get(&format!("/dogs/{wren}/gone")).await.expect(404);
    ada.post(&format!("/dogs/{wren}/gone"), &said).await.expect(404);
}
