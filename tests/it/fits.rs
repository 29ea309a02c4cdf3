//! "Like this?": a trainer approves how gear sits on a photo; the household is asked monthly and after a bolt, and says when it does not.

use time::Duration;

use crate::support::World;

#[tokio::test]
async fn the_household_is_asked_monthly_and_after_a_bolt() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Moving search"]).await;
    crate::journey::log_on_the_collar(&mut ada, moss).await;
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let form = format!("main form[action='/dogs/{moss}/encounters']");
    ada.submit(&page, &form, &[("kind", "reaction")]).await.expect(303);
    practice.template(moss).await;
    practice.look_up_things(&world, moss).await;
    practice.photo(&mut ada, moss).await;
    let log = format!("/dogs/{moss}/log/{}", practice.things["log"]);
    assert_eq!(ada.get(&log).await.count("main form[action$='/fit']"), 0, "a trainer approves");
    let page = practice.lead.get(&log).await;
    practice.lead.submit(&page, "main form[action$='/fit']", &[("gear", "harness")]).await.expect(303);
    practice.lead.submit(&page, "main form[action$='/fit']", &[("gear", "hat")]).await.expect(422);
    assert_eq!(ada.get("/today").await.count("main .fit"), 0, "it was only just approved");
    world.pass(Duration::days(29));
    assert_eq!(ada.get("/today").await.count("main .fit"), 0);
    world.pass(Duration::days(1));
    let today = ada.get("/today").await;
    assert_eq!(today.text("main .fit h2"), "The harness: like this?");
    assert!(today.attribute("main .fit img", "src").contains("/photos/"));
    ada.submit(&today, "main .fit form", &[("like_this", "like_this")]).await.expect(303);
    assert_eq!(ada.get("/today").await.count("main .fit"), 0);
    // she ran off
    world.pass(Duration::minutes(5));
    let page = ada.get(&format!("/dogs/{moss}/encounters/new?kind=bolted")).await;
    ada.submit(&page, &form, &[("kind", "bolted")]).await.expect(303);
    let today = ada.get("/today").await;
    assert_eq!(today.count("main .fit"), 1, "after a bolt");
    world.pass(Duration::minutes(5));
    ada.submit(&today, "main .fit form", &[("like_this", "like_this")]).await.expect(303);
    assert_eq!(ada.get("/today").await.count("main .fit"), 0, "looked at on the same day");
    for _ in 0..2 {
        ada.submit(&today, "main .fit form", &[("like_this", "changed")]).await.expect(303);
    }
    assert_eq!(world.database.count("select count(*) from message").await, 1, "said twice, written once");
    let said = ada.get("/today").await.text("main .fit");
    assert!(said.contains("no long line; a short lead"), "{said}");
    practice.lead_signs_in().await;
    let messages = practice.lead.get(&format!("/dogs/{moss}/messages")).await.text("main");
    assert!(messages.contains("Moss’s harness sits differently from the photo."), "{messages}");
    // the photo goes, and with it what it showed
    let photo = format!("/dogs/{moss}/photos/{}/remove", practice.things["photo"]);
    ada.post(&photo, &[]).await.expect(303);
    assert_eq!(ada.get("/today").await.count("main .fit"), 0);
    // another household cannot see or say anything of it
    let elsewhere = practice.household("Lund").await;
    let mut bo = practice.owner(&world, elsewhere, "Bo Lund").await;
    let path = format!("/dogs/{moss}/fit");
    bo.post(&path, &[("gear", "harness"), ("like_this", "like_this")]).await.expect(404);
    ada.post(&path, &[("gear", "muzzle"), ("like_this", "like_this")]).await.expect(404);
    ada.post(&path, &[("gear", "harness"), ("like_this", "perhaps")]).await.expect(422);
}
