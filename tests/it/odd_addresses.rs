//! Addresses as they come out of a broken mail or a curious hand: the answer is one of our pages.

use crate::support::{Answer, Browser, World, walk};

/// Everything that a page reads of its query.
const ASKED: [&str; 12] =
    ["next", "notice", "q", "show", "phase", "dog", "before", "older", "item", "kind", "protein", "ash"];

/// Every key of a query twice, with these values.
fn twice(first: &str, second: &str) -> String {
    ASKED.map(|key| format!("{key}={first}&{key}={second}")).join("&")
}

/// One of our pages, or a way to one.
#[track_caller]
fn is_ours(answer: &Answer) {
    let is_file = answer.header("content-disposition").is_some_and(|how| how.starts_with("attachment"));
    let ours = is_file || answer.location().is_some() || (answer.is_page() && answer.count("h1") == 1);
    assert!(ours, "{answer:?} says {:?}", answer.body());
}

async fn everybody(world: &World) -> [Browser; 3] {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    practice.dog(household, "Moss").await;
    let owner = practice.owner(world, household, "Ada Okoro").await;
    [world.visitor(), practice.lead, owner]
}

#[tokio::test]
async fn what_cannot_be_an_id_names_nothing() {
    let world = World::new().await;
    for mut somebody in everybody(&world).await {
        for path in walk::every_page_with("abc").iter().filter(|path| path.contains("abc")) {
            let answer = somebody.get(path).await;
            is_ours(&answer);
            assert!(matches!(answer.status().as_u16(), 303 | 404), "{answer:?}");
        }
    }
}

#[tokio::test]
async fn a_query_may_say_anything_any_number_of_times() {
    let world = World::new().await;
    let running = ["/livez", "/readyz", "/sw.js", "/manifest.webmanifest"];
    for mut somebody in everybody(&world).await {
        for path in walk::every_page_with("abc").iter().filter(|path| !running.contains(&path.as_str())) {
            for query in [twice("a", "b"), twice("%00", "%FF%00"), twice("", "99999999999999999999_abc")] {
                is_ours(&somebody.get(&format!("{path}?{query}")).await);
            }
        }
    }
}
