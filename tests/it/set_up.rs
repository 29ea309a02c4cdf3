//! First-run set-up: one link, one practice.

use time::Duration;

use crate::support::people::PASSWORD;
use crate::support::{Browser, World};

const ADA: [(&str, &str); 4] = [
    ("practice", "Heath and Hollow"),
    ("name", "Ada Fell"),
    ("email", "ada@example.org"),
    ("password", PASSWORD),
];

/// The form of the link, with one field changed.
async fn send(browser: &mut Browser, link: &str, changed: &[(&str, &str)]) -> crate::support::Answer {
    let page = browser.get(link).await;
    page.expect(200);
    let of = |name: &str| changed.iter().find(|(n, _)| *n == name).map(|(_, v)| *v);
    let mut fields: Vec<(&str, &str)> = ADA.iter().map(|(n, v)| (*n, of(n).unwrap_or(v))).collect();
    fields.extend(of("zone").map(|zone| ("zone", zone)));
    browser.submit(&page, "main form", &fields).await
}

#[tokio::test]
async fn the_printed_link_makes_a_practice_and_signs_its_lead_in() {
    let world = World::new().await;
    let link = world.set_up_link().await;
    let mut ada = world.visitor();
    send(&mut ada, &link, &[]).await.redirects_to("/caseload?notice=set-up");
    ada.get("/").await.redirects_to("/caseload");
    assert_eq!(world.database.count("select count(*) from practice where zone = 'Europe/London'").await, 1);
    assert_eq!(world.database.count("select count(*) from membership where role = 'lead'").await, 1);
    assert_eq!(
        world.database.count("select count(*) from audit_event where action = 'set_up_practice'").await,
        1
    );
}

#[tokio::test]
async fn opening_the_link_changes_nothing() {
    let world = World::new().await;
    let link = world.set_up_link().await;
    let before = world.database.fingerprint().await;
    for _ in 0..3 {
        world.visitor().get(&link).await.expect(200);
    }
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn an_invented_link_is_nothing_whatever_is_sent_to_it() {
    let world = World::new().await;
    let link = format!("/set-up/{}", "A".repeat(43));
    let before = world.database.fingerprint().await;
    for fields in [&ADA[..], &[("practice", ""), ("email", "no address"), ("password", "short")]] {
        world.visitor().post(&link, fields).await.expect(404);
    }
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn a_link_works_once() {
    let world = World::new().await;
    let link = world.set_up_link().await;
    let mut late = world.visitor();
    let page = late.get(&link).await;
    send(&mut world.visitor(), &link, &[]).await.expect(303);
    late.get(&link).await.expect(404);
    let before = world.database.fingerprint().await;
    let mine = [("practice", "Mine"), ("name", "Eve"), ("email", "eve@example.org"), ("password", PASSWORD)];
    late.submit(&page, "main form", &mine).await.expect(404);
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn old_and_invented_links_are_nothing() {
    let world = World::new().await;
    let link = world.set_up_link().await;
    world.pass(Duration::days(1) + Duration::SECOND);
    let invented = format!("/set-up/{}", "A".repeat(43));
    for path in [link.as_str(), &invented, "/set-up/short", "/set-up/%2e%2e"] {
        world.visitor().get(path).await.expect(404);
        let whole = [&ADA[..], &[("zone", "Europe/London")]].concat();
        world.visitor().post(path, &whole).await.expect(404);
    }
    assert_eq!(world.database.count("select count(*) from practice").await, 0);
}

#[tokio::test]
async fn what_is_wrong_is_said_beside_its_field_and_the_rest_is_kept() {
    let world = World::new().await;
    let link = world.set_up_link().await;
    let before = world.database.fingerprint().await;
    for (field, value) in [
        ("practice", ""),
        ("name", " "),
        ("email", "no address"),
        ("password", "fourteen chars"),
        ("password", "ada@example.org"),
        ("zone", "Heath/Hollow"),
    ] {
        let again = send(&mut world.visitor(), &link, &[(field, value)]).await;
        again.expect(422);
        assert!(!again.error_of(field).is_empty());
        assert_eq!(again.attributes(".error-summary a", "href"), [format!("#f-{field}")]);
        assert!(
            again.attributes("input[type=password]", "value").is_empty(),
            "a password is never sent back"
        );
        for (name, typed) in ADA.iter().filter(|(n, _)| *n != "password" && *n != field) {
            assert_eq!(again.attribute(&format!("#f-{name}"), "value"), *typed);
        }
    }
    assert_eq!(world.database.fingerprint().await, before);
    send(&mut world.visitor(), &link, &[]).await.expect(303);
}

#[tokio::test]
async fn an_address_that_has_an_account_is_refused_without_using_the_link_up() {
    let world = World::new().await;
    let first = world.practice("Heath and Hollow").await;
    let link = world.set_up_link().await;
    let again = send(&mut world.visitor(), &link, &[("email", &first.lead_email)]).await;
    again.expect(422);
    assert!(!again.error_of("email").is_empty());
    send(&mut world.visitor(), &link, &[]).await.expect(303);
}

#[tokio::test]
async fn what_people_type_is_shown_as_they_typed_it() {
    let world = World::new().await;
    let link = world.set_up_link().await;
    let name = "</title><script>alert(1)</script> & \"Söhne\" 🐕";
    let again = send(&mut world.visitor(), &link, &[("practice", name), ("email", "")]).await;
    again.expect(422);
    assert_eq!(again.attribute("#f-practice", "value"), name);
}
