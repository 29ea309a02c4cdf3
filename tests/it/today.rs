//! An owner's day: what one tap says of an exercise that is not counted.

use crate::support::World;

#[tokio::test]
async fn what_is_measured_takes_one_tap_and_is_read_with_its_unit() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.publish_plan(moss, &["Alone, in small steps"]).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let today = ada.get("/today").await;
    let tap = format!("main form[action='/dogs/{moss}/log']");
    assert!(today.text(&tap).contains("How long did Moss stay calm? (minutes)"), "{}", today.text(&tap));
    let offered = today.attributes(&format!("{tap} button"), "value");
    assert!(offered.contains(&"5".to_owned()), "{offered:?}");
    let asked = ada.submit(&today, &tap, &[]).await;
    assert!(!asked.expect(422).error_of("outcome_value").is_empty(), "without an answer it is asked for");
    let sent = ada.submit(&today, &tap, &[("outcome_value", "5")]).await;
    sent.expect(303);
    assert!(ada.follow(sent).await.text("h1").contains("Calm for 5 min"));
    assert!(ada.get("/progress").await.text("main .log").contains("Calm for 5 min"));
    assert!(practice.lead.get(&format!("/dogs/{moss}/log")).await.text("main").contains("Calm for 5 min"));
}

#[tokio::test]
async fn what_an_owner_learns_without_the_dog_is_done_by_one_tap() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.publish_plan(moss, &["Timing the yes"]).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let today = ada.get("/today").await;
    let tap = format!("main form[action='/dogs/{moss}/log']");
    assert_eq!(today.texts(&format!("{tap} button")), ["Done as planned"]);
    ada.submit(&today, &tap, &[]).await.expect(303);
    assert_eq!(world.database.count("select count(*) from practice_log where capture = 'one_tap'").await, 1);
}
