//! The main journey, as a trainer and an owner live it: set up, write, practise, see what is wrong, answer, read.

use crate::support::builders::{id_in, sent_to};
use crate::support::{Answer, Browser, World};
use uuid::Uuid;

const LINE: &str = "Long line on the harness, every field walk";
const SEARCH: &str = "Moving search";

/// Logs a moving search in detail: the long line on the collar, straight home afterwards.
pub async fn log_on_the_collar(phone: &mut Browser, dog: Uuid) -> Answer {
    let today = phone.get("/today").await;
    let form = phone.get(&detail_link(&today)).await;
    let fields = [
        ("attempts", "6"),
        ("left", "1"),
        ("clip", "collar"),
        ("looked", "wound_up"),
        ("recovery", "longer"),
        ("finish", "straight_home"),
        ("cool_down_minutes", "0"),
        ("note", "She hit the end of the line when a pheasant went up."),
    ];
    let logged = phone.submit(&form, &format!("main form[action='/dogs/{dog}/log']"), &fields).await;
    logged.expect(303);
    phone.follow(logged).await
}

/// Where Today leads to the log form.
fn detail_link(today: &Answer) -> String {
    let links = today.attributes("main a", "href");
    links.into_iter().find(|href| href.contains("/log/new?item=")).expect("Today leads to the log form")
}

#[tokio::test]
async fn a_line_on_the_collar_is_seen_answered_and_read() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let quiet = practice.dog(household, "Wren").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &[LINE, SEARCH]).await;
    practice.publish_plan(quiet, &["Settle on a mat"]).await;

    let seen = log_on_the_collar(&mut ada, moss).await;
    let words = seen.text("main");
    assert!(words.contains("harness"), "what to do: {words}");
    assert!(words.contains("sniff"), "how to come down: {words}");
    assert!(seen.texts("main .watch").len() >= 2, "line and cool-down: {words}");
    assert!(seen.texts("main .source").iter().all(|source| !source.is_empty()));
    assert!(seen.count("main .source") >= 2, "where it comes from: {words}");
    let today = ada.get("/today").await;
    assert!(today.count("main .watch") >= 1, "Today says it as well");

    let caseload = practice.lead.get("/caseload").await;
    assert_eq!(caseload.texts("main .row .row-who a")[0], "Moss", "first on the caseload");
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    let open = welfare.attributes("main .watch .actions a", "href");
    assert!(open.len() >= 2, "{:?}", welfare.texts("main .watch"));
    for flag in &open {
        let page = practice.lead.get(flag).await;
        assert!(page.text("main").contains("Source:"));
        let answered = practice
            .lead
            .submit(
                &page,
                "main form",
                &[("answer", "Rang her. Harness from now on, and a sniff before the car.")],
            )
            .await;
        answered.redirects_to(&format!("/dogs/{moss}/welfare?notice=answered"));
    }
    assert_eq!(practice.lead.get(&format!("/dogs/{moss}/welfare")).await.count("main .watch"), 0);
    let caseload = practice.lead.get("/caseload").await;
    let pressing = caseload.texts("main h2");
    assert!(!pressing.iter().any(|h| h.starts_with("Before anything else")), "{pressing:?}");

    let messages = format!("/dogs/{moss}/messages");
    let page = practice.lead.get(&messages).await;
    let say = "Well done for writing it down. Clip to the back ring next time.";
    practice
        .lead
        .submit(&page, &format!("main form[action='{messages}']"), &[("body", say)])
        .await
        .redirects_to(&format!("{messages}?notice=sent"));
    let unread = ada.get("/today").await;
    assert!(unread.text(".tabbar, nav").contains('1'), "one message is new");
    let inbox = ada.get(&format!("/messages?dog={moss}")).await;
    assert!(inbox.texts("main .message").iter().any(|m| m.contains(say)));
}

#[tokio::test]
async fn the_same_log_sent_again_is_one_log_and_other_content_is_refused() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Settle on a mat"]).await;
    let today = ada.get("/today").await;
    let form = ada.get(&detail_link(&today)).await;
    let css = format!("main form[action='/dogs/{moss}/log']");
    let first = ada.submit(&form, &css, &[("note", "Lay down by herself.")]).await;
    let after_first = world.database.fingerprint().await;
    let again = ada.submit(&form, &css, &[("note", "Lay down by herself.")]).await;
    assert_eq!(id_in(&sent_to(&first), "log"), id_in(&sent_to(&again), "log"));
    assert_eq!(world.database.fingerprint().await, after_first);
    ada.submit(&form, &css, &[("note", "Something else.")]).await.expect(409);
    assert_eq!(world.database.fingerprint().await, after_first);
    assert_eq!(world.database.count("select count(*) from practice_log").await, 1);
    assert_eq!(world.database.count("select logs::bigint from dog_summary").await, 1);
}

#[tokio::test]
async fn a_new_message_waits_for_the_trainer_until_it_is_answered() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Settle on a mat"]).await;
    let page = ada.get("/messages").await;
    ada.submit(
        &page,
        "main form[action^='/messages']:has(textarea)",
        &[("body", "Is a chew in the car enough?")],
    )
    .await
    .expect(303);
    let caseload = practice.lead.get("/caseload").await;
    assert!(caseload.text("main .row-why").contains("Is a chew in the car enough?"));
    let page = practice.lead.get(&format!("/dogs/{moss}/messages")).await;
    practice
        .lead
        .submit(&page, &format!("main form[action='/dogs/{moss}/messages/settle']"), &[])
        .await
        .expect(303);
    assert!(!practice.lead.get("/caseload").await.text("main .row-why").contains("chew"));
}
