//! What is read and answered: what was shown, and nothing that came since.

use crate::support::{Browser, Practice, World};
use settlebrook::store::dog_summary;
use time::Duration;
use uuid::Uuid;

const WAITS: &str =
    "select count(*) from dog_summary where last_owner_message_at > coalesce(answered_to, '-infinity')";

async fn beginning(world: &World) -> (Practice, Uuid, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let ada = practice.owner(world, household, "Ada Okoro").await;
    (practice, moss, ada)
}

async fn write(ada: &mut Browser, body: &str) {
    let page = ada.get("/messages").await;
    ada.submit(&page, "main form:has(textarea)", &[("body", body)]).await.expect(303);
}

#[tokio::test]
async fn a_question_that_came_since_still_waits() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let messages = format!("/dogs/{moss}/messages");
    let (reply, settle) =
        (format!("main form[action='{messages}']"), format!("main form[action='{messages}/settle']"));
    write(&mut ada, "Is a chew in the car enough?").await;
    let shown = practice.lead.get(&messages).await;
    write(&mut ada, "And may she meet the terrier?").await;
    practice.lead.submit(&shown, &settle, &[]).await.expect(303);
    assert_eq!(world.database.count(WAITS).await, 1, "the second was not shown");
    world.pass(Duration::minutes(1));
    practice.lead.submit(&shown, &reply, &[("body", "A chew is plenty.")]).await.expect(303);
    assert_eq!(world.database.count(WAITS).await, 1, "the reply was to the first");
    assert!(practice.lead.get("/caseload").await.text("main .row-why").contains("terrier"));
    let shown = practice.lead.get(&messages).await;
    assert_eq!(shown.count(&settle), 1, "the conversation says so as well");
    practice.lead.submit(&shown, &settle, &[]).await.expect(303);
    assert_eq!(world.database.count(WAITS).await, 0);
    assert_eq!(practice.lead.get(&messages).await.count(&settle), 0);
}

#[tokio::test]
async fn an_owner_marks_what_was_shown() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let messages = format!("/dogs/{moss}/messages");
    let form = format!("main form[action='{messages}']");
    let page = practice.lead.get(&messages).await;
    practice.lead.submit(&page, &form, &[("body", "Well done today.")]).await.expect(303);
    let shown = ada.get("/messages").await;
    let page = practice.lead.get(&messages).await;
    practice.lead.submit(&page, &form, &[("body", "Ring me before Friday.")]).await.expect(303);
    ada.submit(&shown, "main form[action='/messages/read']", &[]).await.expect(303);
    let page = ada.get("/messages").await;
    let new = page.texts("main .message:has(b)");
    assert!(new.len() == 1 && new[0].contains("Friday"), "{new:?}");
    ada.submit(&page, "main form[action='/messages/read']", &[]).await.expect(303);
    assert_eq!(ada.get("/messages").await.count("main .message b"), 0);
}

#[tokio::test]
async fn the_same_message_again_is_one_and_other_content_is_refused() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let page = ada.get("/messages").await;
    let css = "main form:has(textarea)";
    ada.submit(&page, css, &[("body", "Hello")]).await.expect(303);
    let before = world.database.fingerprint().await;
    ada.submit(&page, css, &[("body", "Hello")]).await.expect(303);
    ada.submit(&page, css, &[("body", "Something else")]).await.expect(409);
    let id = page.attribute(&format!("{css} [name=id]"), "value");
    practice
        .lead
        .post(&format!("/dogs/{moss}/messages"), &[("id", &id), ("body", "Hello")])
        .await
        .expect(409);
    assert_eq!(world.database.fingerprint().await, before, "nothing was written");
}

#[tokio::test]
async fn a_question_waits_though_the_clock_was_set_back() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let messages = format!("/dogs/{moss}/messages");
    let settle = format!("main form[action='{messages}/settle']");
    write(&mut ada, "Is a chew in the car enough?").await;
    let shown = practice.lead.get(&messages).await;
    practice.lead.submit(&shown, &settle, &[]).await.expect(303);
    world.pass(-Duration::hours(1));
    write(&mut ada, "And may she meet the terrier?").await;
    assert_eq!(world.database.count(WAITS).await, 1);
    assert_eq!(practice.lead.get(&messages).await.count(&settle), 1);
    assert!(practice.lead.get("/caseload").await.text("main .row-why").contains("terrier"));
}

#[tokio::test]
async fn an_older_message_never_takes_the_place_of_the_newest() {
    let world = World::new().await;
    let (practice, moss, mut ada) = beginning(&world).await;
    write(&mut ada, "And may she meet the terrier?").await;
    let mut tx = world
        .app
        .db
        .for_member(practice.id, practice.lead_id)
        .await
        .expect("opens")
        .expect("the lead stands in the practice");
    let earlier = world.now() - Duration::hours(1);
    dog_summary::owner_wrote(&mut tx, moss.into(), "Is a chew in the car enough?", earlier)
        .await
        .expect("notes");
    tx.commit().await.expect("commits");
    let newest =
        "select count(*) from dog_summary where last_owner_message = 'And may she meet the terrier?'";
    assert_eq!(world.database.count(newest).await, 1);
}
