//! What people do about themselves, and owners who belong to two households.

use time::Duration;

use crate::support::people::PASSWORD as OLD;
use crate::support::{Browser, Practice, World};

const NEW: &str = "three herons over the mill";

async fn set_password(browser: &mut Browser) {
    let page = browser.get("/account/password").await;
    let filled = [("email", "ada@example.org"), ("password", OLD)];
    browser.submit(&page, "main form", &filled).await.redirects_to("/account?notice=password-changed");
}

/// An owner with a password, on their phone.
async fn with_an_owner(world: &World) -> (Practice, uuid::Uuid, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    practice.dog(household, "Moss").await;
    let mut ada = practice.owner(world, household, "Ada Okoro").await;
    set_password(&mut ada).await;
    (practice, household, ada)
}

async fn sign_in(world: &World, password: &str) -> Browser {
    let mut browser = world.visitor();
    let page = browser.get("/sign-in").await;
    let filled = [("email", "ada@example.org"), ("password", password)];
    browser.submit(&page, "main form", &filled).await.redirects_to("/today");
    browser
}

#[tokio::test]
async fn whoever_has_just_come_by_a_link_sets_a_new_password_without_the_old() {
    let world = World::new().await;
    let (_practice, _, mut ada) = with_an_owner(&world).await;
    world.pass(Duration::hours(1));
    let page = ada.get("/account/password").await;
    assert_eq!(page.count("#f-current"), 0);
    ada.submit(&page, "main form", &[("password", NEW)])
        .await
        .redirects_to("/account?notice=password-changed");
    sign_in(&world, NEW).await;
}

#[tokio::test]
async fn whoever_came_by_a_link_long_ago_or_with_a_password_shows_the_present_one() {
    let world = World::new().await;
    let (_practice, _, mut ada) = with_an_owner(&world).await;
    let mut desk = sign_in(&world, OLD).await;
    world.pass(Duration::hours(1) + Duration::SECOND);
    for browser in [&mut ada, &mut desk] {
        let page = browser.get("/account/password").await;
        assert_eq!(page.count("#f-current"), 1);
        let again = browser.post("/account/password", &[("password", NEW)]).await;
        assert!(again.expect(422).error_of("current").contains("not your current password"));
    }
    sign_in(&world, OLD).await;
}

#[tokio::test]
async fn a_password_sign_in_is_never_proof_enough() {
    let world = World::new().await;
    let (_practice, _, _) = with_an_owner(&world).await;
    let mut desk = sign_in(&world, OLD).await;
    desk.post("/account/password", &[("password", NEW)]).await.expect(422);
}

#[tokio::test]
async fn everybody_changes_their_own_name_and_nothing_else() {
    let world = World::new().await;
    let (mut practice, household, mut ada) = with_an_owner(&world).await;
    for (browser, name) in [(&mut ada, "Ada O’Connor"), (&mut practice.lead, "Rowan Airey-Bell")] {
        let page = browser.get("/account/name").await;
        browser.submit(&page, "main form", &[("name", " ")]).await.expect(422);
        browser.submit(&page, "main form", &[("name", name)]).await.redirects_to("/account?notice=saved");
        assert_eq!(browser.get("/account").await.text("h1"), name);
    }
    let page = practice.lead.get("/account/name").await;
    practice.lead.submit(&page, "main form", &[("phone", "01632 960013")]).await.expect(303);
    assert_eq!(practice.lead.get("/account/name").await.attribute("#f-phone", "value"), "01632 960013");
    let page = practice.lead.get(&format!("/households/{household}")).await;
    let seen = page.texts(".row-who").concat();
    assert!(seen.contains("Ada O’Connor") && seen.contains("ada@example.org"), "{seen}");
}

#[tokio::test]
async fn an_owner_is_added_to_a_second_household_and_sees_both() {
    let world = World::new().await;
    let (mut practice, _, mut ada) = with_an_owner(&world).await;
    let second = practice.household("Lund").await;
    let wren = practice.dog(second, "Wren").await;
    let trainer = &mut practice.trainer(&world, "Tamsin Rook").await;
    ada.get(&format!("/dogs/{wren}/log/new")).await.expect(404);

    let path = format!("/households/{second}/owners/existing");
    let page = trainer.get(&path).await;
    assert_eq!(page.texts(".row-who b"), ["Ada Okoro"]);
    assert_eq!(trainer.get(&format!("{path}?q=nobody")).await.count(".row-who"), 0);
    let to = format!("/households/{second}?notice=owner-added");
    trainer.submit(&page, "main form[method=post]", &[]).await.redirects_to(&to);
    trainer.submit(&page, "main form[method=post]", &[]).await.redirects_to(&to);
    ada.get(&format!("/dogs/{wren}/log/new")).await.expect(200);
    assert_eq!(trainer.get(&path).await.count(".row-who"), 0, "everybody belongs to it already");
    let noted = "select count(*) from audit_event where action = 'add_existing_owner'";
    assert_eq!(world.database.count(noted).await, 1);
}

#[tokio::test]
async fn only_owners_of_this_practice_are_added_and_only_by_trainers() {
    let world = World::new().await;
    let (mut practice, _, mut ada) = with_an_owner(&world).await;
    let second = practice.household("Lund").await;
    let mut other = world.practice("Moss and Mire").await;
    let elsewhere = other.household("Fry").await;
    other.owner(&world, elsewhere, "Cy Fry").await;
    let mut all = world.database.as_superuser().await;
    let of = "select id from membership where name = $1";
    let mut id = async |name: &str| -> uuid::Uuid {
        sqlx::query_scalar(of).bind(name).fetch_one(&mut all).await.expect(name)
    };
    let (cy, rowan, ada_id) = (id("Cy Fry").await, practice.lead_id.0, id("Ada Okoro").await);
    let before = world.database.fingerprint().await;
    let path = format!("/households/{second}/owners/existing");
    for nobody in [cy, rowan, uuid::Uuid::new_v4()] {
        practice.lead.post(&path, &[("owner", &nobody.to_string())]).await.expect(404);
    }
    practice.lead.post(&path, &[]).await.expect(422);
    practice.lead.post(&path, &[("owner", "x")]).await.expect(422);
    ada.post(&path, &[("owner", &ada_id.to_string())]).await.expect(404);
    other.lead.post(&path, &[("owner", &cy.to_string())]).await.expect(404);
    other
        .lead
        .post(&format!("/households/{elsewhere}/owners/existing"), &[("owner", &ada_id.to_string())])
        .await
        .expect(404);
    assert_eq!(world.database.fingerprint().await, before);
}

/// Goes on when somebody waits for somebody else's lock.
async fn somebody_waits(world: &World) {
    let waiting = "select count(*) from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'";
    while world.database.count(waiting).await == 0 {
        tokio::task::yield_now().await;
    }
}

/// A transaction of somebody else's that holds Ada's membership and has not come to its end; and its id.
async fn holding_ada(world: &World) -> (sqlx::PgConnection, uuid::Uuid) {
    let mut other = world.database.as_superuser().await;
    sqlx::raw_sql("begin").execute(&mut other).await.expect("begins");
    let ada = sqlx::query_scalar("select id from membership where name = 'Ada Okoro' for no key update")
        .fetch_one(&mut other)
        .await
        .expect("holds the owner");
    (other, ada)
}

#[tokio::test]
async fn an_owner_who_is_just_being_added_elsewhere_stays_an_owner_there() {
    let world = World::new().await;
    let (mut practice, household, _ada) = with_an_owner(&world).await;
    let second = practice.household("Lund").await;
    let (mut adding, ada) = holding_ada(&world).await;
    sqlx::query(
        "insert into household_member (practice_id, household_id, membership_id, added_at)
         select practice_id, $1, membership_id, added_at from household_member where membership_id = $2",
    )
    .bind(second)
    .bind(ada)
    .execute(&mut adding)
    .await
    .expect("adds the owner");
    let page = practice.lead.get(&format!("/households/{household}/owners/{ada}/remove")).await;
    let removal = practice.lead.submit(&page, "main form[method=post]", &[]);
    let added = async {
        somebody_waits(&world).await;
        sqlx::raw_sql("commit").execute(&mut adding).await.expect("commits");
    };
    let (removed, ()) = tokio::join!(removal, added);
    removed.expect(303);
    let stands = "select count(*) from membership where name = 'Ada Okoro' and removed_at is null";
    assert_eq!(world.database.count(stands).await, 1);
    let page = practice.lead.get(&format!("/households/{second}")).await;
    assert!(page.texts(".row-who").concat().contains("Ada Okoro"));
}

#[tokio::test]
async fn a_number_that_somebody_else_is_just_changing_is_kept_when_one_changes_one_s_name() {
    let world = World::new().await;
    let (_practice, _, mut ada) = with_an_owner(&world).await;
    let page = ada.get("/account/name").await;
    let (mut changing, id) = holding_ada(&world).await;
    sqlx::query("update membership set phone = '0151 496 0000' where id = $1")
        .bind(id)
        .execute(&mut changing)
        .await
        .expect("changes the number");
    let renaming = ada.submit(&page, "main form", &[("name", "Ada O’Connor")]);
    let changed = async {
        somebody_waits(&world).await;
        sqlx::raw_sql("commit").execute(&mut changing).await.expect("commits");
    };
    tokio::join!(renaming, changed).0.expect(303);
    let both = "select count(*) from membership where name = 'Ada O’Connor' and phone = '0151 496 0000'";
    assert_eq!(world.database.count(both).await, 1);
}
