//! The table of routes: what is open without signing in, what everybody opens, and where pages hang.

use std::collections::BTreeSet;

use settlebrook::domain::vocabulary::Role;
use settlebrook::web::routes::{self, Who};
use time::Duration;

use crate::support::lived_in::HEATH;
use crate::support::{LivedIn, Walker, World, walk};

/// What anybody may ask for. Making a route public means saying so here as well.
const PUBLIC: [&str; 10] = [
    "GET /",
    "GET /livez",
    "GET /manifest.webmanifest",
    "GET /offline",
    "GET /readyz",
    "GET /sign-in",
    "GET /sw.js",
    "POST /sign-in",
    "POST /sign-out",
    // answers 401 by itself, in JSON
    "POST /sync/logs",
];
/// The same of passkeys, where the service is built with them. They speak JSON.
const PUBLIC_OF_PASSKEYS: [&str; 2] = ["POST /sign-in/passkey", "POST /sign-in/passkey/begin"];
/// What whoever holds a link may ask for.
const BY_LINK: [&str; 8] = [
    "GET /l/{token}",
    "GET /h/{token}",
    "GET /r/{token}",
    "GET /set-up/{token}",
    "POST /l/{token}",
    "POST /h/{token}/log",
    "POST /r/{token}/open",
    "POST /set-up/{token}",
];

fn named(who: Who) -> BTreeSet<String> {
    let routes = routes::table();
    routes.iter().filter(|r| r.who == who).map(|r| format!("{} {}", r.method, r.path)).collect()
}

#[test]
fn only_what_is_listed_here_is_open_without_signing_in() {
    let mut public: BTreeSet<String> = PUBLIC.map(str::to_owned).into();
    if cfg!(feature = "passkeys") {
        public.extend(PUBLIC_OF_PASSKEYS.map(str::to_owned));
    }
    assert_eq!(named(Who::Public), public);
    assert_eq!(named(Who::Link), BY_LINK.map(str::to_owned).into());
}

#[tokio::test]
async fn everybody_opens_every_page_of_theirs_and_reading_writes_nothing() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let stops = walk::every_route(&home.practice.things);
    world.pass(Duration::minutes(6)); // from then on a change would note that a phone was used
    let before = world.database.fingerprint().await;
    for mut walker in [
        Walker::insider("the lead", &home.practice.lead, Role::Lead),
        Walker::insider("the trainer", &home.trainer, Role::Trainer),
        Walker::insider("the owner", &home.owner, Role::Owner),
    ] {
        walker.finds(&stops).await;
        walker.is_let_in(&stops).await;
        walker.gets_nowhere_by_other_methods(&stops).await;
    }
    assert_eq!(world.database.fingerprint().await, before, "reading writes nothing");
}

#[tokio::test]
async fn pages_of_a_dog_hang_from_the_caseload_and_those_of_a_household_from_the_households() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.publish_plan(moss, &["Nose to hand"]).await;
    for page in [
        "",
        "/plan",
        "/plan/edit",
        "/plan/publish",
        "/plan/preview",
        "/log",
        "/profile",
        "/welfare",
        "/messages",
    ] {
        let page = practice.lead.get(&format!("/dogs/{moss}{page}")).await;
        assert_eq!(page.texts(".top-nav a[aria-current]"), ["Caseload"], "{}", page.path());
        assert_eq!(page.texts(".crumbs a")[0], "Caseload", "{}", page.path());
    }
    for path in [format!("/households/{household}"), format!("/households/{household}/dogs/new")] {
        let page = practice.lead.get(&path).await;
        assert_eq!(page.texts(".top-nav a[aria-current]"), ["Households"], "{path}");
        assert_eq!(page.texts(".crumbs a")[0], "Households", "{path}");
    }
}
