//! How near the goal feels and how sure they are: asked once a month, one answer a day, read by the trainer with how it moved.

use time::Duration;
use uuid::Uuid;

use crate::support::{Browser, Practice, World};

const GOAL: &str = "Walk past the school at three.";

async fn beginning(world: &World) -> (Practice, Uuid, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let ada = practice.owner(world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["A look at you"]).await;
    (practice, moss, ada)
}

async fn state_goal(practice: &mut Practice, dog: Uuid) {
    let page = practice.lead.get(&format!("/dogs/{dog}/profile/edit/goal")).await;
    practice.lead.submit(&page, "main form", &[("goal", GOAL)]).await.expect(303);
}

#[tokio::test]
async fn it_is_asked_once_a_month_and_the_trainer_reads_how_it_moved() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let form = format!("main form[action='/dogs/{moss}/goal']");
    assert_eq!(ada.get("/today").await.count(&form), 0, "without a goal there is nothing to ask");
    state_goal(&mut practice, moss).await;
    let today = ada.get("/today").await;
    assert!(today.text("main").contains(GOAL));
    let said = [("nearness", "4"), ("confidence", "3")];
    ada.submit(&today, &form, &said).await.redirects_to(&format!("/progress?dog={moss}&notice=goal-told"));
    assert_eq!(ada.get("/today").await.count(&form), 0, "asked and answered");
    world.pass(Duration::days(29));
    assert_eq!(ada.get("/today").await.count(&form), 0);
    world.pass(Duration::days(1));
    let today = ada.get("/today").await;
    assert_eq!(today.count(&form), 1, "a month later");
    ada.submit(&today, &form, &[("nearness", "6"), ("confidence", "3")]).await.expect(303);
    practice.lead_signs_in().await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await;
    let first = page.texts("main .split .card")[0].clone();
    assert!(first.contains(GOAL), "{first}");
    assert!(first.contains("6 of 10 (4 → 6 since 12 Mar)"), "{first}");
    assert!(first.contains("3 of 10, as on 12 Mar") && first.contains("Ada Okoro"), "{first}");
    let progress = ada.get("/progress").await.text("main");
    assert!(progress.contains("6 of 10 (4 → 6 since 12 Mar)"), "{progress}");
}

#[tokio::test]
async fn a_day_has_one_answer_the_newest_and_the_same_again_changes_nothing() {
    let world = World::new().await;
    let (practice, moss, mut ada) = beginning(&world).await;
    let path = format!("/dogs/{moss}/goal");
    let first = [("nearness", "4"), ("confidence", "3"), ("note", "Good week.")];
    ada.post(&path, &first).await.expect(303);
    let before = world.database.fingerprint().await;
    world.pass(Duration::minutes(5));
    ada.post(&path, &first).await.expect(303);
    assert_eq!(world.database.fingerprint().await, before, "the same again");
    let again = ada.get(&path).await;
    assert_eq!(
        again.attribute(&format!("main form[action='{path}'] input[name=nearness][checked]"), "value"),
        "4"
    );
    ada.submit(&again, &format!("main form[action='{path}']"), &[("nearness", "5")]).await.expect(303);
    let one =
        "select count(*) from goal_reading where nearness = 5 and confidence = 3 and note = 'Good week.'";
    assert_eq!(world.database.count(one).await, 1);
    assert_eq!(world.database.count("select count(*) from goal_reading").await, 1, "in its place");
    drop(practice);
}

#[tokio::test]
async fn a_trainer_writes_down_what_they_were_told() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let path = format!("/dogs/{moss}/goal");
    let page = practice.lead.get(&path).await;
    let said = [("nearness", "7"), ("confidence", "8"), ("note", "Twice past the school.")];
    practice
        .lead
        .submit(&page, "main form.form", &said)
        .await
        .redirects_to(&format!("/dogs/{moss}?notice=goal-kept"));
    let first = practice.lead.get(&format!("/dogs/{moss}")).await.texts("main .split .card")[0].clone();
    assert!(first.contains("7 of 10") && first.contains("told to their trainer"), "{first}");
    let theirs = ada.get(&path).await.text("main");
    assert!(
        theirs.contains("Twice past the school.") && theirs.contains("told to their trainer"),
        "{theirs}"
    );
}

#[tokio::test]
async fn what_is_no_mark_comes_again_with_what_was_typed() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let path = format!("/dogs/{moss}/goal");
    let before = world.database.fingerprint().await;
    let answer = ada.post(&path, &[("nearness", "11"), ("note", "Good week.")]).await;
    answer.expect(422);
    assert!(answer.error_of("nearness").contains("0 to 10"));
    assert!(answer.error_of("confidence").contains("Choose a number"));
    assert_eq!(answer.text("#f-note").trim(), "Good week.");
    let long = "a".repeat(301);
    let said = [("nearness", "1"), ("confidence", "1"), ("note", long.as_str())];
    assert!(ada.post(&path, &said).await.expect(422).error_of("note").contains("300"));
    assert_eq!(world.database.fingerprint().await, before);
    let elsewhere = practice.household("Lund").await;
    let mut bo = practice.owner(&world, elsewhere, "Bo Lund").await;
    bo.post(&path, &[("nearness", "1"), ("confidence", "1")]).await.expect(404);
    bo.get(&path).await.expect(404);
}

#[tokio::test]
async fn nothing_is_asked_on_a_day_of_rest_or_while_something_is_to_be_paused() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    state_goal(&mut practice, moss).await;
    let form = format!("main form[action='/dogs/{moss}/goal']");
    let ill = [("kind", "illness"), ("first_day", "2026-03-12")];
    ada.post(&format!("/dogs/{moss}/life"), &ill).await.expect(303);
    assert_eq!(ada.get("/today").await.count(&form), 0, "a day of rest");
    world.pass(Duration::days(28));
    assert_eq!(ada.get("/today").await.count(&form), 1);
    let path = format!("/dogs/{moss}/not-coping");
    let page = ada.get(&path).await;
    ada.submit(&page, &format!("main form[action='{path}']"), &[("note", "")]).await.expect(303);
    assert_eq!(
        ada.get("/today").await.count(&form),
        0,
        "somebody who can no more is not asked how near they are"
    );
}
