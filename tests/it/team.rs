//! The team, while several people work at once.

use std::pin::pin;

use sqlx::Connection;
use uuid::Uuid;

use crate::support::World;
use crate::support::people::PASSWORD;

/// Goes on when somebody waits for somebody else's lock.
async fn somebody_waits(world: &World) {
    let waiting = "select count(*) from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'";
    while world.database.count(waiting).await == 0 {
        tokio::task::yield_now().await;
    }
}

#[tokio::test]
async fn a_dog_is_never_given_to_a_trainer_who_is_leaving_at_that_moment() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    practice.trainer(&world, "Tamsin Rook").await;
    let mut leaving = world.database.as_superuser().await;
    let mut leaving = leaving.begin().await.expect("begins");
    let tamsin: Uuid =
        sqlx::query_scalar("select id from membership where name = 'Tamsin Rook' for no key update")
            .fetch_one(&mut *leaving)
            .await
            .expect("holds her place");
    let page = practice.lead.get(&format!("/households/{household}/dogs/new")).await;
    let trainer = tamsin.to_string();
    let fields = [("name", "Moss"), ("trainer", trainer.as_str())];
    let mut adding = pin!(practice.lead.submit(&page, "main form", &fields));
    tokio::select! {
        added = &mut adding => panic!("{added:?} did not wait to see whether she stays"),
        () = somebody_waits(&world) => {}
    }
    sqlx::query("update membership set removed_at = now() where id = $1")
        .bind(tamsin)
        .execute(&mut *leaving)
        .await
        .expect("she leaves");
    leaving.commit().await.expect("commits");
    let refused = adding.await;
    refused.expect(422);
    assert_eq!(refused.error_of("trainer"), "Choose a trainer of the team.");
    assert_eq!(world.database.count("select count(*) from dog").await, 0);
}

#[tokio::test]
async fn an_account_that_was_disabled_is_signed_out_everywhere() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    practice.lead.get("/").await.redirects_to("/caseload");
    sqlx::query("update account set disabled_at = now()")
        .execute(&mut world.database.as_superuser().await)
        .await
        .expect("disables");
    practice.lead.get("/").await.redirects_to("/sign-in");
    practice.lead.get("/caseload").await.expect(303);
    let mut again = world.visitor();
    let page = again.get("/sign-in").await;
    let typed = [("email", practice.lead_email.as_str()), ("password", PASSWORD)];
    again.submit(&page, "main form", &typed).await.expect(422);
}

#[tokio::test]
async fn only_a_lead_puts_an_exercise_away_and_takes_it_out_again() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let mut tamsin = practice.trainer(&world, "Tamsin Rook").await;
    let id: Uuid = sqlx::query_scalar("select id from exercise where name = 'Nose to hand'")
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("an exercise");
    let entry = format!("/library/{id}");
    let hers = tamsin.get(&entry).await;
    assert_eq!(hers.count("main form[action$='/archive']"), 0);
    assert_eq!(hers.count("main a[href$='/edit']"), 1, "she edits it all the same");
    tamsin.post(&format!("{entry}/archive"), &[]).await.expect(403);
    let page = practice.lead.get(&entry).await;
    let away = practice.lead.submit(&page, "main form[action$='/archive']", &[]).await;
    let away = practice.lead.follow(away).await;
    tamsin.post(&format!("{entry}/restore"), &[]).await.expect(403);
    practice.lead.submit(&away, "main form[action$='/restore']", &[]).await.expect(303);
    let offered = "select count(*) from exercise where name = 'Nose to hand' and archived_at is null";
    assert_eq!(world.database.count(offered).await, 1);
}
