//! Every route, walked by people whose it is not: nothing is shown, nothing is written.
//!
//! A new kind of person is a new [`Walker`]; a new kind of thing is put into [`Practice::things`] by its builder, and
//! the walks find it by the name that its routes give it.

use std::collections::BTreeSet;

use axum::http::Method;
use settlebrook::web::routes::{self, Who};

use crate::support::walk::{self, Stop};
use crate::support::{Answer, Browser, Practice, World};

/// What anybody may ask for. Making a route public means saying so here as well.
const PUBLIC: [&str; 6] =
    ["GET /", "GET /livez", "GET /readyz", "GET /sign-in", "POST /sign-in", "POST /sign-out"];
/// The same of passkeys, where the service is built with them. They speak JSON.
const PUBLIC_OF_PASSKEYS: [&str; 2] = ["POST /sign-in/passkey", "POST /sign-in/passkey/begin"];
/// What whoever holds a link may ask for.
const BY_LINK: [&str; 4] =
    ["GET /l/{token}", "GET /set-up/{token}", "POST /l/{token}", "POST /set-up/{token}"];

/// Somebody who walks every route, and the routes that are theirs.
struct Walker {
    name: &'static str,
    browser: Browser,
    signed_in: bool,
    theirs: &'static [Who],
}

impl Walker {
    fn visitor(world: &World) -> Self {
        Self { name: "a visitor", browser: world.visitor(), signed_in: false, theirs: &[] }
    }

    fn lead(name: &'static str, practice: &Practice) -> Self {
        let theirs = &[Who::Member, Who::Trainer, Who::Lead];
        Self { name, browser: practice.lead.clone(), signed_in: true, theirs }
    }

    fn trainer(browser: &Browser) -> Self {
        let theirs = &[Who::Member, Who::Trainer];
        Self { name: "a trainer", browser: browser.clone(), signed_in: true, theirs }
    }

    fn owner(name: &'static str, browser: &Browser) -> Self {
        Self { name, browser: browser.clone(), signed_in: true, theirs: &[Who::Member, Who::Owner] }
    }

    async fn ask(&mut self, stop: &Stop) -> Answer {
        let from = crate::support::browser::From::OurPage;
        self.browser.ask(stop.method.clone(), &stop.path, &[], from).await
    }

    /// Asks for everything that is not theirs, and is refused each time in the way that tells least.
    async fn is_kept_out(&mut self, stops: &[Stop]) {
        for stop in stops.iter().filter(|stop| stop.who != Who::Public && !self.theirs.contains(&stop.who)) {
            let answer = self.ask(stop).await;
            let name = self.name;
            if self.signed_in || stop.who == Who::Link {
                assert_eq!(answer.status(), 404, "{name}: {answer:?}");
            } else {
                let next = if stop.method == Method::GET { stop.path.as_str() } else { "/" };
                let query =
                    form_urlencoded::Serializer::new(String::new()).append_pair("next", next).finish();
                assert_eq!(
                    answer.location(),
                    Some(format!("/sign-in?{query}").as_str()),
                    "{name}: {answer:?}"
                );
            }
        }
    }

    /// Asks for other people's things through the routes of their own role, and finds nothing.
    async fn finds_nothing(&mut self, stops: &[Stop]) {
        for stop in stops.iter().filter(|stop| stop.has_id && self.theirs.contains(&stop.who)) {
            let answer = self.ask(stop).await;
            assert_eq!(answer.status(), 404, "{}: {answer:?}", self.name);
        }
    }

    /// Asks for the pages of their own role about things that are theirs, and gets every one.
    async fn finds(&mut self, stops: &[Stop]) {
        let pages = stops.iter().filter(|stop| stop.method == Method::GET && stop.has_every_id);
        for stop in pages.filter(|stop| self.theirs.contains(&stop.who)) {
            let answer = self.ask(stop).await;
            let fine = answer.status() == 200 || answer.status() == 303;
            assert!(fine, "{}: {answer:?}", self.name);
        }
    }

    /// Asks for the pages of their own role that name nothing, and gets every one.
    async fn is_let_in(&mut self, stops: &[Stop]) {
        let pages = stops.iter().filter(|stop| stop.method == Method::GET && !stop.has_id);
        for stop in pages.filter(|stop| self.theirs.contains(&stop.who)) {
            let answer = self.ask(stop).await;
            let fine = answer.status() == 200 || answer.status() == 303;
            assert!(fine, "{}: {answer:?}", self.name);
        }
    }
}

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
async fn a_visitor_is_sent_to_sign_in() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let stops = walk::every_route(&practice.things);
    let before = world.database.fingerprint().await;
    let mut visitor = Walker::visitor(&world);
    visitor.is_kept_out(&stops).await;
    for stop in stops.iter().filter(|stop| stop.who == Who::Public) {
        let answer = visitor.ask(stop).await;
        let speaks_json = PUBLIC_OF_PASSKEYS.contains(&format!("{} {}", stop.method, stop.path).as_str());
        let fine: &[u16] = if speaks_json { &[415] } else { &[200, 303, 422] };
        assert!(fine.contains(&answer.status().as_u16()), "{answer:?}");
    }
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn another_practice_finds_nothing_of_this_one() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let other = world.practice("Moss and Mire").await;
    let stops = walk::every_route(&practice.things);
    let before = world.database.fingerprint().await;
    let mut stranger = Walker::lead("the other practice's lead", &other);
    stranger.is_kept_out(&stops).await;
    stranger.finds_nothing(&stops).await;
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn a_lead_opens_every_page_of_theirs() {
    let world = World::new().await;
    let practice = world.practice("Heath and Hollow").await;
    let stops = walk::every_route(&practice.things);
    let before = world.database.fingerprint().await;
    Walker::lead("the lead", &practice).is_let_in(&stops).await;
    assert_eq!(world.database.fingerprint().await, before, "reading writes nothing");
}

/// A practice with everything in it, the owner whose it is, an owner of another household, and a trainer.
pub async fn lived_in(world: &World) -> (Practice, Browser, Browser, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let other = practice.household("Lund").await;
    practice.dog(other, "Wren").await;
    let bo = practice.owner(world, other, "Bo Lund").await;
    let trainer = practice.trainer(world, "Tamsin Rook").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Moving search"]).await;
    crate::journey::log_on_the_collar(&mut ada, moss).await;
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let form = format!("main form[action='/dogs/{moss}/encounters']");
    ada.submit(&page, &form, &[("kind", "reaction"), ("note", "A van, close.")]).await.expect(303);
    practice.look_up_things(world, moss).await;
    (practice, ada, bo, trainer)
}

#[tokio::test]
async fn another_household_finds_nothing_of_this_one() {
    let world = World::new().await;
    let (practice, ada, mut bo, _) = lived_in(&world).await;
    let stops = walk::every_route(&practice.things);
    let before = world.database.fingerprint().await;
    let mut walker = Walker::owner("the other household's owner", &bo);
    walker.is_kept_out(&stops).await;
    walker.finds_nothing(&stops).await;
    let moss = practice.things["dog"].to_string();
    for path in ["/today", "/plan", "/progress", "/messages"] {
        let answer = bo.get(&format!("{path}?dog={moss}")).await;
        assert!(!answer.body().contains("Moss") && !answer.body().contains(&moss), "{answer:?}");
    }
    let id = uuid::Uuid::new_v4().to_string();
    bo.post("/messages", &[("dog", &moss), ("id", &id), ("body", "Hello")]).await.expect(404);
    bo.post("/messages/read", &[("dog", &moss)]).await.expect(404);
    assert_eq!(world.database.fingerprint().await, before, "nothing was written");
    Walker::owner("the owner", &ada).finds(&stops).await;
}

#[tokio::test]
async fn a_trainer_finds_the_dogs_and_not_the_lead_s_own_pages() {
    let world = World::new().await;
    let (practice, _, _, trainer) = lived_in(&world).await;
    let stops = walk::every_route(&practice.things);
    let before = world.database.fingerprint().await;
    let mut walker = Walker::trainer(&trainer);
    walker.is_kept_out(&stops).await;
    walker.finds(&stops).await;
    Walker::lead("the lead", &practice).finds(&stops).await;
    assert_eq!(world.database.fingerprint().await, before, "reading writes nothing");
}

#[tokio::test]
async fn another_practice_finds_nothing_of_a_practice_that_is_lived_in() {
    let world = World::new().await;
    let (practice, _, _, _) = lived_in(&world).await;
    let mut other = world.practice("Moss and Mire").await;
    let household = other.household("Fry").await;
    other.dog(household, "Tansy").await;
    let owner = other.owner(&world, household, "Cy Fry").await;
    let stops = walk::every_route(&practice.things);
    let before = world.database.fingerprint().await;
    let mut stranger = Walker::lead("the other practice's lead", &other);
    stranger.is_kept_out(&stops).await;
    stranger.finds_nothing(&stops).await;
    let mut stranger = Walker::owner("the other practice's owner", &owner);
    stranger.is_kept_out(&stops).await;
    stranger.finds_nothing(&stops).await;
    assert_eq!(world.database.fingerprint().await, before);
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
