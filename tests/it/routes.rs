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
/// What whoever holds a link may ask for.
const BY_LINK: [&str; 2] = ["GET /set-up/{token}", "POST /set-up/{token}"];

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
    assert_eq!(named(Who::Public), PUBLIC.map(str::to_owned).into());
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
        assert!(matches!(answer.status().as_u16(), 200 | 303 | 422), "{answer:?}");
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
