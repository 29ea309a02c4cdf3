//! No other site can make a browser change anything, wherever it is signed in.

use axum::http::Method;

use crate::support::browser::From;
use crate::support::{World, walk};

#[tokio::test]
async fn every_form_refuses_other_sites_and_writes_nothing() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let forms = walk::every_route(&practice.things).into_iter().filter(|stop| stop.method != Method::GET);
    let before = world.database.fingerprint().await;
    let mut walked = 0;
    for stop in forms {
        for from in [From::AnotherSite, From::AnotherOrigin, From::Unsaid] {
            let answer = practice.lead.ask(stop.method.clone(), &stop.path, &[("name", "Eve")], from).await;
            assert_eq!(answer.status(), 403, "{answer:?} from {from:?}");
        }
        walked += 1;
    }
    assert!(walked >= 3, "there are forms to walk");
    assert_eq!(world.database.fingerprint().await, before);
    practice.lead.get("/").await.redirects_to("/caseload");
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
