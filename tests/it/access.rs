//! Every route, walked by people whose it is not and by every method: nothing is shown, nothing is written.
//!
//! A new kind of person is a new [`Walker`]; a new kind of thing is put into the things of a practice by its builder,
//! and the walks find it by the name that its routes give it.

use settlebrook::domain::vocabulary::Role;
use settlebrook::web::routes::Who;
use time::Duration;
use uuid::Uuid;

use crate::support::lived_in::{FELL, HEATH, Names, address};
use crate::support::people::PASSWORD;
use crate::support::walk::{self, Stop};
use crate::support::{Browser, LivedIn, Walker, World};

/// After so long a change notes that a phone was used; a refusal must not.
const A_WHILE: Duration = Duration::minutes(6);

async fn signs_in(world: &World, email: &str, status: u16) -> Browser {
    let mut browser = world.visitor();
    let page = browser.get("/sign-in").await;
    browser.submit(&page, "main form", &[("email", email), ("password", PASSWORD)]).await.expect(status);
    browser
}

/// Walks everything, by the methods of the table and by all others; nothing is written.
async fn is_stopped_everywhere(world: &World, walker: &mut Walker, stops: &[Stop]) {
    let before = world.database.fingerprint().await;
    walker.is_kept_out(stops).await;
    walker.finds_nothing(stops).await;
    walker.gets_nowhere_by_other_methods(stops).await;
    assert_eq!(world.database.fingerprint().await, before, "{} wrote something", walker.name);
}

#[tokio::test]
async fn a_visitor_is_sent_to_sign_in() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let stops = walk::every_route(&home.practice.things);
    let before = world.database.fingerprint().await;
    let mut visitor = Walker::visitor("a visitor", &world.visitor());
    is_stopped_everywhere(&world, &mut visitor, &stops).await;
    for stop in stops.iter().filter(|stop| stop.who == Who::Public) {
        let answer = visitor.ask(&stop.method, &stop.path).await;
        let speaks_json = stop.path.starts_with("/sign-in/passkey") || stop.path == "/sync/logs";
        let fine: &[u16] = if speaks_json { &[415] } else { &[200, 303, 422] };
        assert!(fine.contains(&answer.status().as_u16()), "{answer:?}");
    }
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn another_practice_finds_nothing_of_this_one() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let other = LivedIn::new(&world, &FELL).await;
    let stops = walk::every_route(&home.practice.things);
    world.pass(A_WHILE);
    for mut stranger in [
        Walker::stranger("the other practice's lead", &other.practice.lead, Role::Lead),
        Walker::stranger("the other practice's trainer", &other.trainer, Role::Trainer),
        Walker::stranger("the other practice's owner", &other.owner, Role::Owner),
    ] {
        is_stopped_everywhere(&world, &mut stranger, &stops).await;
    }
}

#[tokio::test]
async fn another_household_finds_nothing_of_this_one() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let stops = walk::every_route(&home.practice.things);
    world.pass(A_WHILE);
    let mut bo = Walker::stranger("the other household's owner", &home.other_owner, Role::Owner);
    is_stopped_everywhere(&world, &mut bo, &stops).await;
    let before = world.database.fingerprint().await;
    let moss = home.practice.things["dog"].to_string();
    for path in ["/today", "/plan", "/progress", "/messages"] {
        let answer = bo.browser.get(&format!("{path}?dog={moss}")).await;
        assert!(!answer.body().contains("Moss") && !answer.body().contains(&moss), "{answer:?}");
    }
    let id = Uuid::new_v4().to_string();
    bo.browser.post("/messages", &[("dog", &moss), ("id", &id), ("body", "Hello")]).await.expect(404);
    bo.browser.post("/messages/read", &[("dog", &moss)]).await.expect(404);
    assert_eq!(world.database.fingerprint().await, before, "nothing was written");
}

#[tokio::test]
async fn whoever_was_removed_is_a_visitor_from_then_on() {
    let world = World::new().await;
    let mut home = LivedIn::new(&world, &HEATH).await;
    let things = home.practice.things.clone();
    let (household, owner, member) = (things["household"], things["owner"], things["member"]);
    for path in [format!("/households/{household}/owners/{owner}"), format!("/practice/team/{member}")] {
        let page = home.practice.lead.get(&format!("{path}/remove")).await;
        home.practice.lead.submit(&page, "main form", &[]).await.expect(303);
    }
    let stops = walk::every_route(&things);
    world.pass(A_WHILE);
    for (who, browser, name) in [
        ("the owner who was removed", &home.owner, HEATH.household[2]),
        ("the trainer who was removed", &home.trainer, HEATH.trainer),
    ] {
        is_stopped_everywhere(&world, &mut Walker::visitor(who, browser), &stops).await;
        let before = world.database.fingerprint().await;
        let again = signs_in(&world, &address(name), 422).await;
        is_stopped_everywhere(&world, &mut Walker::visitor(who, &again), &stops).await;
        assert_eq!(world.database.fingerprint().await, before);
    }
}

#[tokio::test]
async fn a_phone_that_was_signed_out_from_the_devices_is_a_visitor_s() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let mut desk = signs_in(&world, &address(HEATH.household[2]), 303).await;
    let path = format!("/account/devices/{}/end", home.practice.things["sign_in"]);
    let page = desk.get("/account").await;
    desk.submit(&page, &format!("main form[action='{path}']"), &[]).await.expect(303);
    let stops = walk::every_route(&home.practice.things);
    world.pass(A_WHILE);
    is_stopped_everywhere(&world, &mut Walker::visitor("the phone", &home.owner), &stops).await;
    desk.get("/").await.redirects_to("/today");
}

/// What a link that does nothing any more says: nothing of whose it was.
async fn is_over(world: &World, holder: &mut Walker, link: &str, names: &Names) {
    let before = world.database.fingerprint().await;
    let page = holder.browser.get(link).await;
    let filled = [("email", "eve@example.org"), ("password", PASSWORD), ("name", "Eve"), ("instead_of", "")];
    let used = holder.browser.post(link, &filled).await;
    for answer in [page.expect(410), used.expect(410)] {
        let told = names.all().into_iter().find(|name| answer.body().contains(name));
        assert_eq!(told, None, "{answer:?}");
        assert!(answer.headers().get("set-cookie").is_none(), "{answer:?}");
    }
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn whoever_holds_a_link_that_is_over_is_a_visitor() {
    let world = World::new().await;
    let mut home = LivedIn::new(&world, &HEATH).await;
    let household = home.practice.things["household"];
    let used = home.practice.owner_to_come(household, "Ngozi Okoro").await;
    let mut phone = world.visitor();
    let page = phone.get(&used).await;
    phone.submit(&page, "main form", &[]).await.expect(303);
    let (_, replaced) = home.practice.trainer_to_come("Nell Frost").await;
    let nell: Uuid = sqlx::query_scalar("select id from membership where name = 'Nell Frost'")
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("she is invited");
    let page = home.practice.lead.get(&format!("/practice/team/{nell}/link")).await;
    home.practice.lead.submit(&page, "main form", &[]).await.expect(200);
    let mut holder = Walker::visitor("whoever holds a link", &world.visitor());
    is_over(&world, &mut holder, &used, &HEATH).await;
    is_over(&world, &mut holder, &replaced, &HEATH).await;
    let expired = home.practice.owner_to_come(household, "Ike Okoro").await;
    holder.browser.get(&expired).await.expect(200);
    world.pass(Duration::days(14));
    is_over(&world, &mut holder, &expired, &HEATH).await;
    is_stopped_everywhere(&world, &mut holder, &walk::every_route(&home.practice.things)).await;
}
