//! A link for somebody who walks or minds a dog: the card, a sitting told by a tap, and everything that stops it.

use time::Duration;
use uuid::Uuid;

use crate::support::{Browser, Practice, World};

struct Home {
    world: World,
    practice: Practice,
    moss: Uuid,
    ada: Browser,
}

async fn home() -> Home {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Long line on the harness, every field walk", "A look at you"]).await;
    Home { world, practice, moss, ada }
}

const LOGS: &str = "select count(*) from practice_log";

#[tokio::test]
async fn whoever_has_the_link_reads_what_keeps_everybody_safe() {
    let mut home = home().await;
    let moss = home.moss;
    let page = home.practice.lead.get(&format!("/dogs/{moss}/triggers/new")).await;
    home.practice.lead.submit(&page, "main form", &[("what", "Vans at speed")]).await.expect(303);
    let page = home.ada.get(&format!("/dogs/{moss}/gone")).await;
    let said = [("chip", "977 200 001"), ("ring", "Ada 01632 960123")];
    home.ada.submit(&page, "main form", &said).await.expect(303);
    let page = home.ada.get(&format!("/dogs/{moss}/helpers")).await;
    let empty = home.ada.submit(&page, "main form.form", &[("note", "Key under the pot")]).await;
    empty.expect(422);
    assert_eq!(empty.error_of("name"), "Enter their name.");
    assert!(empty.text("#f-note").contains("Key under the pot"), "what was typed stays");
    let filled = [("name", "Sam Pell"), ("note", "Key under the pot")];
    let made = home.ada.submit(&page, "main form.form", &filled).await;
    let link = made.expect(200).text(".link-out");
    let path = format!("/h/{}", link.split_once("/h/").expect("a link").1.trim());
    let mut sam = home.world.visitor();
    sam.get(&path).await.expect(200);
    // the answer got lost and is asked for again: one link, a new secret, and the one that nobody saw is over
    let again = home.ada.submit(&page, "main form.form", &filled).await;
    let first = path;
    let path =
        format!("/h/{}", again.expect(200).text(".link-out").split_once("/h/").expect("a link").1.trim());
    sam.get(&first).await.expect(404);
    home.ada.submit(&page, "main form.form", &[("name", "Somebody else")]).await.expect(409);
    assert_eq!(home.world.database.count("select count(*) from helper_link").await, 1);
    let card = sam.get(&path).await.expect(200).text("main");
    for words in [
        "Moss",
        "Key under the pot",
        "harness",
        "Vans at speed",
        "977 200 001",
        "Ada 01632 960123",
        "112 or 999",
    ] {
        assert!(card.contains(words), "{words}: {card}");
    }
    let leads = sam.get(&path).await.attributes("main a", "href");
    assert!(leads.iter().all(|to| to.starts_with("tel:")), "nothing leads further: {leads:?}");
    let seen_at_home = home.ada.get(&format!("/dogs/{moss}/helpers/card")).await;
    assert!(seen_at_home.expect(200).text("main").contains("Vans at speed"));
    assert_eq!(seen_at_home.count("main form"), 0);
}

#[tokio::test]
async fn a_tap_is_the_household_s_log_with_the_helper_s_name() {
    let mut home = home().await;
    let moss = home.moss;
    let path = home.practice.helper(&mut home.ada, moss, "Sam Pell").await;
    let mut sam = home.world.visitor();
    let card = sam.get(&path).await;
    let form = format!("main form[action='{path}/log']:has(.piece)");
    for _ in 0..2 {
        let kept = sam.submit(&card, &form, &[("left", "2")]).await;
        kept.redirects_to(&format!("{path}?notice=helper-kept"));
    }
    assert_eq!(home.world.database.count(LOGS).await, 1, "sent twice, kept once");
    let logs = home.practice.lead.get(&format!("/dogs/{moss}/log")).await;
    let said = logs.text("main .log");
    assert!(said.contains("Sam Pell, a helper, by a link from Ada Okoro"), "{said}");
    let log = logs.attributes("main .log a", "href")[0].clone();
    let facts = home.practice.lead.get(&log).await.text("main aside");
    assert!(facts.contains("Sam Pell") && facts.contains("helper’s link"), "{facts}");
    assert_eq!(
        home.ada.get(&log).await.expect(200).count("main form[action$='/remove'], main a[href$='/edit']"),
        1
    );
    // another answer under the same id is refused, and the first stays
    sam.submit(&card, &form, &[("left", "3")]).await.expect(409);
    assert_eq!(
        home.world.database.count("select count(*) from practice_log where attempts - met = 2").await,
        1
    );
}

#[tokio::test]
async fn a_helper_logs_no_more_than_a_day_holds_and_nothing_while_the_exercises_rest() {
    let mut home = home().await;
    let path = home.practice.helper(&mut home.ada, home.moss, "Sam Pell").await;
    let mut sam = home.world.visitor();
    let form = format!("main form[action='{path}/log']:has(.piece)");
    for _ in 0..12 {
        let card = sam.get(&path).await;
        sam.submit(&card, &form, &[("left", "1")]).await.expect(303);
    }
    let card = sam.get(&path).await;
    let refused = sam.submit(&card, &form, &[("left", "1")]).await;
    assert!(refused.expect(422).text(".error-summary").contains("as much as helpers can log"));
    assert_eq!(home.world.database.count(LOGS).await, 12);
    home.world.pass(Duration::days(1));
    let kept = sam.get(&path).await;
    sam.submit(&kept, &form, &[("left", "1")]).await.expect(303);
    let card = sam.get(&path).await;
    let page = home.ada.get(&format!("/dogs/{}/encounters/new?kind=bite", home.moss)).await;
    let bite = format!("main form[action='/dogs/{}/encounters']", home.moss);
    let told = [("kind", "bite"), ("towards", "stranger"), ("skin_broken", "yes")];
    home.ada.submit(&page, &bite, &told).await.expect(303);
    let rests = sam.submit(&card, &form, &[("left", "1")]).await;
    assert!(rests.expect(422).text(".error-summary").contains("rests for now"), "{}", rests.text("main"));
    let card = sam.get(&path).await;
    assert_eq!(card.count("main form"), 0);
    assert!(card.text("main").contains("used teeth before"), "the next one is warned");
    // what was kept before it came to rest, and is sent again because the answer was lost, was kept
    sam.submit(&kept, &form, &[("left", "1")]).await.expect(303);
    assert_eq!(home.world.database.count(LOGS).await, 13);
}

#[tokio::test]
async fn nothing_is_offered_while_the_household_is_not_coping() {
    let mut home = home().await;
    let path = home.practice.helper(&mut home.ada, home.moss, "Sam Pell").await;
    let mut sam = home.world.visitor();
    assert!(sam.get(&path).await.count("main form") > 0);
    let page = home.ada.get(&format!("/dogs/{}/not-coping", home.moss)).await;
    home.ada.submit(&page, "main form[action$='/not-coping']", &[]).await.expect(303);
    let card = sam.get(&path).await;
    assert_eq!(card.count("main form"), 0);
    assert!(card.text("main").contains("exercises rest for now"), "{}", card.text("main"));
    // and a dog that was archived has no card any more
    let moss = home.moss.to_string();
    let several = [("dogs", moss.as_str()), ("change", "archive")];
    home.practice.lead.post("/caseload/several", &several).await.expect(303);
    sam.get(&path).await.expect(404);
}

#[tokio::test]
async fn a_link_that_is_over_is_a_page_that_never_was() {
    let mut home = home().await;
    let (moss, mut sam) = (home.moss, home.world.visitor());
    let nothing = sam.get(&format!("/h/{}", "A".repeat(43))).await;
    let nothing = nothing.expect(404).body().to_owned();
    let path = home.practice.helper(&mut home.ada, moss, "Sam Pell").await;
    // nobody is signed in by it, and it is no other kind of link
    sam.get(&path.replace("/h/", "/l/")).await.expect(404);
    sam.get("/today").await.redirects_to("/sign-in?next=%2Ftoday");
    // run out
    let card = sam.get(&path).await;
    home.world.pass(Duration::days(8));
    assert_eq!(sam.get(&path).await.expect(404).body(), nothing);
    let form = format!("main form[action='{path}/log']:has(.piece)");
    sam.submit(&card, &form, &[("left", "1")]).await.expect(404);
    // ended
    let path = home.practice.helper(&mut home.ada, moss, "Sam Pell").await;
    sam.get(&path).await.expect(200);
    let page = home.ada.get(&format!("/dogs/{moss}/helpers")).await;
    home.ada.submit(&page, "main form[action$='/end']", &[]).await.expect(303);
    assert_eq!(sam.get(&path).await.expect(404).body(), nothing);
    assert_eq!(home.world.database.count(LOGS).await, 0);
}

#[tokio::test]
async fn a_link_ends_when_whoever_made_it_leaves() {
    let mut home = home().await;
    let (moss, mut sam) = (home.moss, home.world.visitor());
    let path = home.practice.helper(&mut home.ada, moss, "Sam Pell").await;
    let owner = "select id from membership where name = 'Ada Okoro'";
    let mut all = home.world.database.as_superuser().await;
    let owner: Uuid = sqlx::query_scalar(owner).fetch_one(&mut all).await.expect("Ada");
    let household = "select household_id from dog where name = 'Moss'";
    let household: Uuid = sqlx::query_scalar(household).fetch_one(&mut all).await.expect("her household");
    let remove = format!("/households/{household}/owners/{owner}/remove");
    let page = home.practice.lead.get(&remove).await;
    sam.get(&path).await.expect(200);
    home.practice.lead.submit(&page, "main form", &[]).await.expect(303);
    sam.get(&path).await.expect(404);
}

#[tokio::test]
async fn a_card_asks_nothing_of_a_dog_that_is_ill() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = crate::incidents::beginning(&world).await;
    let card = format!("/dogs/{moss}/helpers/card");
    let page = ada.get(&format!("/dogs/{moss}/life")).await;
    let today = world.now().date().to_string();
    let told = [("kind", "illness"), ("first_day", today.as_str())];
    ada.submit(&page, &format!("main form[action='/dogs/{moss}/life']"), &told).await.expect(303);
    let link = format!("/dogs/{moss}/helpers");
    let made = ada.get(&link).await;
    let made = ada.submit(&made, &format!("main form[action='{link}']"), &[("name", "Sam Pell")]).await;
    let shown = made.expect(200).text(".link-out");
    let (_, token) = shown.split_once("/h/").expect("a helper's link");
    let mut sam = world.visitor();
    let page = sam.get(&format!("/h/{token}")).await;
    assert!(page.text("main").contains("The exercises rest for now"), "{}", page.text("main"));
    assert_eq!(page.count("main form"), 0, "and nothing can be tapped");
    ada.get(&card).await.expect(200);
}
