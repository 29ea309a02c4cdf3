//! No other site can make a browser change anything, wherever it is signed in.

use axum::http::Method;
use settlebrook::web::routes::Who;
use time::Duration;

use crate::support::browser::From;
use crate::support::lived_in::HEATH;
use crate::support::{LivedIn, World, walk};

/// More than any form may send.
const TOO_MUCH: usize = 100 * 1024;

#[tokio::test]
async fn every_form_refuses_other_sites_before_it_reads_anything() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let forms =
        walk::every_route(&home.practice.things).into_iter().filter(|stop| stop.method != Method::GET);
    world.pass(Duration::minutes(6));
    let before = world.database.fingerprint().await;
    let mut walked = 0;
    for stop in forms {
        // whoever may do it, were it asked for by one of our pages
        let browser =
            if matches!(stop.who, Who::Owner | Who::Member) { &home.owner } else { &home.practice.lead };
        for from in [From::AnotherSite, From::AnotherOrigin, From::Unsaid] {
            for bytes in [0, TOO_MUCH] {
                let mut browser = browser.clone();
                let (answer, was_read) = browser.ask_with_rubbish(&stop.path, bytes, from).await;
                assert_eq!(answer.status(), 403, "{answer:?} from {from:?}");
                assert!(!was_read, "{answer:?} read what came from {from:?}");
                assert!(answer.headers().get("set-cookie").is_none(), "{answer:?} from {from:?}");
            }
        }
        let (answer, was_read) =
            home.owner.clone().ask_with_rubbish(&stop.path, TOO_MUCH, From::OurPage).await;
        // a file may be longer than a form: it is read whole, and then an owner finds nothing there
        let looked_at = match stop.path.as_str() {
            "/library/import" | "/practice/import" => 404,
            // takes JSON alone
            "/sync/logs" => 415,
            path if path.ends_with("/photos") => 422,
            _ => 413,
        };
        assert!(was_read && answer.status() == looked_at, "{answer:?}: from our own pages it is looked at");
        walked += 1;
    }
    assert!(walked > 60, "{walked} forms to walk");
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn links_from_other_sites_open_pages() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    lead.ask(Method::GET, "/", &[], From::AnotherSite).await.redirects_to("/caseload");
}

#[tokio::test]
async fn no_route_changes_anything_by_a_safe_method() {
    use settlebrook::web::routes;
    assert!(routes::table().iter().all(|route| matches!(route.method, Method::GET | Method::POST)));
}
