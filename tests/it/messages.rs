//! What is read and answered: what was shown, and nothing that came since.

use crate::support::{Browser, Practice, World};
use settlebrook::store::dog_summary;
use time::Duration;
use uuid::Uuid;

const WAITS: &str =
    "select count(*) from dog_summary where last_owner_message_at > coalesce(answered_to, '-infinity')";

async fn beginning(world: &World) -> (Practice, Uuid, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let ada = practice.owner(world, household, "Ada Okoro").await;
    (practice, moss, ada)
}

async fn write(ada: &mut Browser, body: &str) {
    let page = ada.get("/messages").await;
    ada.submit(&page, "main form:has(textarea)", &[("body", body)]).await.expect(303);
}

#[tokio::test]
async fn a_question_that_came_since_still_waits() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let messages = format!("/dogs/{moss}/messages");
    let (reply, settle) =
        (format!("main form[action='{messages}']"), format!("main form[action='{messages}/settle']"));
    write(&mut ada, "Is a chew in the car enough?").await;
    let shown = practice.lead.get(&messages).await;
    write(&mut ada, "And may she meet the terrier?").await;
    practice.lead.submit(&shown, &settle, &[]).await.expect(303);
    assert_eq!(world.database.count(WAITS).await, 1, "the second was not shown");
    world.pass(Duration::minutes(1));
    practice.lead.submit(&shown, &reply, &[("body", "A chew is plenty.")]).await.expect(303);
    assert_eq!(world.database.count(WAITS).await, 1, "the reply was to the first");
    assert!(practice.lead.get("/caseload").await.text("main .row-why").contains("terrier"));
    let shown = practice.lead.get(&messages).await;
    assert_eq!(shown.count(&settle), 1, "the conversation says so as well");
    practice.lead.submit(&shown, &settle, &[]).await.expect(303);
    assert_eq!(world.database.count(WAITS).await, 0);
    assert_eq!(practice.lead.get(&messages).await.count(&settle), 0);
}

#[tokio::test]
async fn an_owner_marks_what_was_shown() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let messages = format!("/dogs/{moss}/messages");
    let form = format!("main form[action='{messages}']");
    let page = practice.lead.get(&messages).await;
    practice.lead.submit(&page, &form, &[("body", "Well done today.")]).await.expect(303);
    let shown = ada.get("/messages").await;
    let page = practice.lead.get(&messages).await;
    practice.lead.submit(&page, &form, &[("body", "Ring me before Friday.")]).await.expect(303);
    ada.submit(&shown, "main form[action='/messages/read']", &[]).await.expect(303);
    let page = ada.get("/messages").await;
    let new = page.texts("main .message:has(b)");
    assert!(new.len() == 1 && new[0].contains("Friday"), "{new:?}");
    ada.submit(&page, "main form[action='/messages/read']", &[]).await.expect(303);
    assert_eq!(ada.get("/messages").await.count("main .message b"), 0);
}

#[tokio::test]
async fn the_same_message_again_is_one_and_other_content_is_refused() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let page = ada.get("/messages").await;
    let css = "main form:has(textarea)";
    ada.submit(&page, css, &[("body", "Hello")]).await.expect(303);
    let before = world.database.fingerprint().await;
    ada.submit(&page, css, &[("body", "Hello")]).await.expect(303);
    ada.submit(&page, css, &[("body", "Something else")]).await.expect(409);
    let id = page.attribute(&format!("{css} [name=id]"), "value");
    practice
        .lead
        .post(&format!("/dogs/{moss}/messages"), &[("id", &id), ("body", "Hello")])
        .await
        .expect(409);
    assert_eq!(world.database.fingerprint().await, before, "nothing was written");
}

#[tokio::test]
async fn a_question_waits_though_the_clock_was_set_back() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let messages = format!("/dogs/{moss}/messages");
    let settle = format!("main form[action='{messages}/settle']");
    write(&mut ada, "Is a chew in the car enough?").await;
    let shown = practice.lead.get(&messages).await;
    practice.lead.submit(&shown, &settle, &[]).await.expect(303);
    world.pass(-Duration::hours(1));
    write(&mut ada, "And may she meet the terrier?").await;
    assert_eq!(world.database.count(WAITS).await, 1);
    assert_eq!(practice.lead.get(&messages).await.count(&settle), 1);
    assert!(practice.lead.get("/caseload").await.text("main .row-why").contains("terrier"));
}

#[tokio::test]
async fn an_older_message_never_takes_the_place_of_the_newest() {
    let world = World::new().await;
    let (practice, moss, mut ada) = beginning(&world).await;
    write(&mut ada, "And may she meet the terrier?").await;
    let mut tx = world
        .app
        .db
        .for_member(practice.id, practice.lead_id)
        .await
        .expect("opens")
        .expect("the lead stands in the practice");
    let earlier = world.now() - Duration::hours(1);
    dog_summary::owner_wrote(&mut tx, moss.into(), "Is a chew in the car enough?", earlier)
        .await
        .expect("notes");
    tx.commit().await.expect("commits");
    let newest =
        "select count(*) from dog_summary where last_owner_message = 'And may she meet the terrier?'";
    assert_eq!(world.database.count(newest).await, 1);
}

/// A sitting on the collar, with what it raised: the paths of its page and of a flag.
async fn a_sitting(world: &World, practice: &mut Practice, moss: Uuid, ada: &mut Browser) -> (String, Uuid) {
    practice.publish_plan(moss, &["Moving search"]).await;
    crate::journey::log_on_the_collar(ada, moss).await;
    let mut raw = world.database.as_superuser().await;
    let log: Uuid =
        sqlx::query_scalar("select id from practice_log").fetch_one(&mut raw).await.expect("a log");
    let flag = "select id from welfare_flag order by severity = 'stop' desc limit 1";
    let flag = sqlx::query_scalar(flag).fetch_one(&mut raw).await.expect("a flag");
    (format!("/dogs/{moss}/log/{log}"), flag)
}

#[tokio::test]
async fn a_message_about_a_sitting_leads_to_it_for_both() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let (log, _) = a_sitting(&world, &mut practice, moss, &mut ada).await;
    let write = ada.get(&log).await.link("Write about this");
    let page = ada.get(&write).await;
    assert!(page.text("main .about-line").contains("About Moving search, "), "{}", page.text("main"));
    let form = "main form:has(textarea)";
    let again = ada.submit(&page, form, &[]).await;
    assert_eq!(
        again.expect(422).attributes("main .about-line a", "href")[0],
        log,
        "refused, it is still about it"
    );
    ada.submit(&again, form, &[("body", "Was that my line?")]).await.expect(303);
    for (browser, path) in
        [(&mut ada, "/messages".to_owned()), (&mut practice.lead, format!("/dogs/{moss}/messages"))]
    {
        let thread = browser.get(&path).await;
        assert_eq!(thread.attribute("main .message .about a", "href"), log);
        assert_eq!(
            thread.attribute("main form [name=subject]", "value"),
            "",
            "the next is about nothing in particular"
        );
        browser.get(&log).await.expect(200);
    }
    // sent again with another thing it is another message
    let id = again.attribute(&format!("{form} [name=id]"), "value");
    let dog = moss.to_string();
    let other = [("id", id.as_str()), ("dog", &dog), ("body", "Was that my line?"), ("subject", "")];
    ada.post("/messages", &other).await.expect(409);
}

#[tokio::test]
async fn a_message_about_a_finding_speaks_to_each_in_their_own_words() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let (log, flag) = a_sitting(&world, &mut practice, moss, &mut ada).await;
    let finding = practice.lead.get(&format!("/flags/{flag}")).await;
    let (title, write) = (finding.text("h1"), finding.link("Write about this"));
    let page = practice.lead.get(&write).await;
    let form = format!("main form[action='/dogs/{moss}/messages']");
    practice.lead.submit(&page, &form, &[("body", "Harness from now on, please.")]).await.expect(303);
    let thread = practice.lead.get(&format!("/dogs/{moss}/messages")).await;
    assert_eq!(thread.attribute("main .message .about a", "href"), format!("/flags/{flag}"));
    assert!(thread.text("main .message .about").contains(&title));
    let theirs = ada.get("/messages").await;
    assert_eq!(theirs.attribute("main .message .about a", "href"), log, "where it was raised");
    let words = theirs.text("main .message .about");
    assert!(!words.contains(&title) && !words.to_lowercase().contains("flag"), "{words}");
}

#[tokio::test]
async fn a_message_about_a_plan_or_an_encounter_leads_to_what_each_may_read() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    practice.publish_plan(moss, &["Moving search"]).await;
    let write = ada.get("/plan").await.link("Write about this");
    let page = ada.get(&write).await;
    ada.submit(&page, "main form:has(textarea)", &[("body", "How long is a search?")]).await.expect(303);
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let met = format!("main form[action='/dogs/{moss}/encounters']");
    let told = ada.submit(&page, &met, &[("kind", "bolted"), ("note", "Deer.")]).await;
    let met = ada.follow(told).await;
    let page = ada.get(&met.link("Write about this")).await;
    ada.submit(&page, "main form:has(textarea)", &[("body", "She came back by herself.")]).await.expect(303);
    let theirs = ada.get("/messages").await;
    assert!(
        theirs.text("main").contains("About The plan of ") && theirs.text("main").contains("About Ran off, ")
    );
    let thread = practice.lead.get(&format!("/dogs/{moss}/messages")).await;
    assert!(thread.text("main").contains("About Plan 1, ") && thread.text("main").contains("About Bolted, "));
    for (browser, thread) in [(&mut ada, theirs), (&mut practice.lead, thread)] {
        let links = thread.attributes("main .message .about a", "href");
        assert_eq!(links.len(), 2);
        for link in links {
            browser.get(&link).await.expect(200);
        }
    }
}

#[tokio::test]
async fn nobody_writes_about_a_thing_of_another_dog() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let (log, flag) = a_sitting(&world, &mut practice, moss, &mut ada).await;
    let household = practice.household("Lund").await;
    let wren = practice.dog(household, "Wren").await;
    let mut bo = practice.owner(&world, household, "Bo Lund").await;
    let log = log.rsplit('/').next().expect("an id").to_owned();
    let before = world.database.fingerprint().await;
    for about in [format!("log-{log}"), format!("flag-{flag}"), format!("plan-{log}"), "nonsense".to_owned()]
    {
        bo.get(&format!("/messages?dog={wren}&about={about}")).await.expect(404);
        practice.lead.get(&format!("/dogs/{wren}/messages?about={about}")).await.expect(404);
        let (id, dog) = (Uuid::new_v4().to_string(), wren.to_string());
        let said = [("id", id.as_str()), ("dog", &dog), ("body", "Hello"), ("subject", &about)];
        bo.post("/messages", &said).await.expect(404);
        practice.lead.post(&format!("/dogs/{wren}/messages"), &said).await.expect(404);
    }
    assert_eq!(world.database.fingerprint().await, before);
}

#[tokio::test]
async fn what_is_new_says_so_to_each_side_and_nobody_reads_who_read_it() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let messages = format!("/dogs/{moss}/messages");
    let reply = format!("main form[action='{messages}']");
    write(&mut ada, "Is a chew in the car enough?").await;
    let thread = practice.lead.get(&messages).await;
    assert_eq!(thread.count("main .message b"), 1, "new to the trainers");
    let mine = ada.get("/messages").await.text("main");
    practice.lead.submit(&thread, &format!("main form[action='{messages}/settle']"), &[]).await.expect(303);
    assert_eq!(practice.lead.get(&messages).await.count("main .message b"), 0, "settled");
    assert_eq!(ada.get("/messages").await.text("main"), mine, "whoever wrote does not read that it was read");
    let page = practice.lead.get(&messages).await;
    practice.lead.submit(&page, &reply, &[("body", "A chew is plenty.")]).await.expect(303);
    let before = practice.lead.get(&messages).await.text("main");
    let page = ada.get("/messages").await;
    assert_eq!(page.count("main .message b"), 1, "new to the household");
    ada.submit(&page, "main form[action='/messages/read']", &[]).await.expect(303);
    assert_eq!(ada.get("/messages").await.count("main .message b"), 0);
    assert_eq!(practice.lead.get(&messages).await.text("main"), before, "nor does the trainer");
    // what the practice says of its replies stands where one writes
    assert!(ada.get("/messages").await.text("main form.form").contains("Usually replies within"));
}

#[tokio::test]
async fn a_long_conversation_is_read_page_by_page() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let mut raw = world.database.as_superuser().await;
    let many = "insert into message (practice_id, id, dog_id, by_membership_id, from_trainer, body, sent_at)
         select $1, gen_random_uuid(), $2, $3, true, 'Message ' || n, timestamptz '2026-03-01 12:00Z' + n / 3 * interval '1 minute'
         from generate_series(1, 120) n";
    let insert = sqlx::query(many).bind(practice.id.0).bind(moss).bind(practice.lead_id.0);
    insert.execute(&mut raw).await.expect("adds rows");
    for (browser, first) in
        [(&mut ada, "/messages".to_owned()), (&mut practice.lead, format!("/dogs/{moss}/messages"))]
    {
        let (mut bodies, mut next, mut pages) = (Vec::new(), Some(first), 0);
        while let Some(path) = next {
            let page = browser.get(&path).await;
            bodies.extend(page.texts("main .message > p"));
            assert_eq!(
                page.count("main form:has(textarea[name=body])"),
                usize::from(pages == 0),
                "one writes below the newest"
            );
            next = page.attributes("main a.button", "href").into_iter().find(|href| href.contains("older="));
            pages += 1;
        }
        let once: std::collections::BTreeSet<&String> = bodies.iter().collect();
        assert_eq!((pages, bodies.len(), once.len()), (3, 120, 120));
        browser.expects_failures();
        browser.get(&format!("/messages?older={}", Uuid::new_v4())).await.expect(404);
    }
}
