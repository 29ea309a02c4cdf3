//! Forms that are sent twice, sent late, or sent by the Enter key: nobody's words are lost, and nothing is made twice.

use std::collections::BTreeSet;

use uuid::Uuid;

use crate::support::answer::{selector, text};
use crate::support::builders::{id_in, sent_to};
use crate::support::people::PASSWORD;
use crate::support::{Answer, Browser, Practice, World};

const SEARCH: &str = "Moving search";

/// A practice, a household of it and a dog.
async fn kennel(world: &World) -> (Practice, Uuid, Uuid) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let dog = practice.dog(household, "Moss").await;
    (practice, household, dog)
}

/// Sends the form of a page twice, and once more with something else in it: made once, then recognised, then refused.
async fn makes_one(browser: &mut Browser, page: &Answer, fields: &[(&str, &str)], other: (&str, &str)) {
    let first = browser.submit(page, "main form", fields).await;
    let again = browser.submit(page, "main form", fields).await;
    assert_eq!(sent_to(&first), sent_to(&again), "sent twice, it leads to the same place");
    let mut changed: Vec<(&str, &str)> = fields.iter().copied().filter(|(n, _)| *n != other.0).collect();
    changed.push(other);
    browser.submit(page, "main form", &changed).await.expect(409);
}

#[tokio::test]
async fn what_is_sent_twice_is_made_once() {
    let world = World::new().await;
    let (mut practice, household, moss) = kennel(&world).await;
    let lead = &mut practice.lead;
    let page = lead.get("/households/new").await;
    makes_one(lead, &page, &[("name", "Lund")], ("name", "Fry")).await;
    let page = lead.get(&format!("/households/{household}/dogs/new")).await;
    makes_one(lead, &page, &[("name", "Wren"), ("kg", "9")], ("name", "Tansy")).await;
    let page = lead.get(&format!("/dogs/{moss}/places/new")).await;
    makes_one(lead, &page, &[("name", "The green"), ("distraction", "3")], ("name", "The lane")).await;
    let page = lead.get(&format!("/dogs/{moss}/triggers/new")).await;
    makes_one(lead, &page, &[("what", "Vans")], ("what", "Bicycles")).await;
    let page = lead.get(&format!("/dogs/{moss}/reinforcers/new")).await;
    makes_one(lead, &page, &[("what", "Chicken"), ("rank", "5")], ("rank", "2")).await;
    for (query, wanted) in [
        ("select count(*) from household", 2),
        ("select count(*) from dog", 2),
        ("select count(*) from dog_weight", 1),
        ("select count(*) from place", 1),
        ("select count(*) from trigger", 1),
        ("select count(*) from reinforcer where rank = 5", 1),
    ] {
        assert_eq!(world.database.count(query).await, wanted, "{query}");
    }
}

#[tokio::test]
async fn a_person_s_form_never_gives_out_another_person_s_link() {
    let world = World::new().await;
    let (mut practice, household, _) = kennel(&world).await;
    let page = practice.lead.get(&format!("/households/{household}/owners/new")).await;
    practice.lead.submit(&page, "main form", &[("name", "Ada Okoro")]).await.expect(200);
    practice.lead.submit(&page, "main form", &[("name", "Ada Okoro")]).await.expect(200);
    practice.lead.submit(&page, "main form", &[("name", "Bo Okoro")]).await.expect(409);
    let page = practice.lead.get("/practice/team/invite").await;
    let tamsin = [("name", "Tamsin Rook"), ("email", "tamsin@example.org")];
    practice.lead.submit(&page, "main form", &tamsin).await.expect(200);
    practice.lead.submit(&page, "main form", &[tamsin[0], ("email", "t@example.org")]).await.expect(409);
    assert_eq!(world.database.count("select count(*) from membership").await, 3);
}

/// The button of the page that adds an exercise to a draft.
fn button(page: &Answer, exercise: &str) -> String {
    let html = page.page();
    let buttons = selector("main button[name=exercise]");
    let found = html.select(&buttons).find(|b| text(*b).starts_with(&format!("Add {exercise}")));
    found.and_then(|b| b.attr("value")).expect("the library has it").to_owned()
}

#[tokio::test]
async fn a_plan_is_added_to_decided_on_and_published_once() {
    let world = World::new().await;
    let (mut practice, _, moss) = kennel(&world).await;
    let lead = &mut practice.lead;
    let page = lead.get(&format!("/dogs/{moss}/plan/add")).await;
    let search = button(&page, SEARCH);
    let css = "main form[method=post]";
    let first = lead.submit(&page, css, &[("exercise", &search)]).await;
    let again = lead.submit(&page, css, &[("exercise", &search)]).await;
    assert_eq!(sent_to(&first), sent_to(&again));
    lead.submit(&page, css, &[("exercise", &button(&page, "Settle on a mat"))]).await.expect(303);
    assert_eq!(world.database.count("select count(*) from plan_draft_item").await, 2);

    let check = lead.get(&format!("/dogs/{moss}/plan/publish")).await;
    for _ in 0..2 {
        let published = lead.submit(&check, "main form", &[("note", "Well begun.")]).await;
        published.redirects_to(&format!("/dogs/{moss}/plan?notice=plan-published-active"));
    }
    assert_eq!(world.database.count("select count(*) from plan_version").await, 1);
    let late = lead.submit(&check, "main form", &[("note", "Another note.")]).await;
    late.expect(422);
    assert!(late.error_of("note").contains("Another plan was published"), "{late:?}");
    assert_eq!(late.text("textarea").trim(), "Another note.");
    assert_eq!(late.attribute("input[name=number]", "value"), "2");

    let overview = lead.get(&format!("/dogs/{moss}")).await;
    let decide = overview.attributes("main a[href*='/decide/']", "href");
    let page = lead.get(&decide[0]).await;
    let reason = page.attributes("input[name=reason]", "value")[0].clone();
    let fields = [("choice", "move_on"), ("reason", reason.as_str())];
    makes_one(lead, &page, &fields, ("note", "Otherwise.")).await;
    assert_eq!(world.database.count("select count(*) from decision").await, 1);
    let moved = lead.submit(&page, "main form", &fields).await;
    moved.redirects_to(&format!("/dogs/{moss}/plan/publish?notice=step-moved"));
    assert!(lead.follow(moved).await.text(".flash").starts_with("Decided."), "the notice is read");
}

#[tokio::test]
async fn the_enter_key_states_no_reaction() {
    let world = World::new().await;
    let (mut practice, household, moss) = kennel(&world).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let form = format!("main form[action='/dogs/{moss}/encounters']");
    let html = page.page();
    let first = html.select(&selector(&format!("{form} button"))).next().expect("a first button");
    let pressed = (first.attr("name").unwrap_or_default(), first.attr("value").unwrap_or_default());
    let fields = [("kind", "reaction"), ("note", "A van, close."), pressed];
    let answer = ada.submit(&page, &form, &fields).await;
    answer.expect(422);
    assert!(!answer.error_of("reaction").is_empty());
    assert_eq!(answer.text("textarea[name=note]").trim(), "A van, close.");
    assert_eq!(world.database.count("select count(*) from encounter").await, 0);
    ada.submit(&answer, &form, &[("reaction", "2")]).await.expect(303);
    assert_eq!(world.database.count("select count(*) from encounter where reaction = 2").await, 1);
}

#[tokio::test]
async fn a_bite_on_record_outlives_a_page_that_was_open_before() {
    let world = World::new().await;
    let (mut practice, _, moss) = kennel(&world).await;
    let path = format!("/dogs/{moss}/profile/edit/safety");
    let stale = practice.lead.get(&path).await;
    practice.lead.submit(&stale, "main form", &[("bite_on_record", "yes")]).await.expect(303);
    practice.lead.submit(&stale, "main form", &[("history", "Came in March.")]).await.expect(303);
    let noted = "select count(*) from dog where bite_on_record and history = 'Came in March.'";
    assert_eq!(world.database.count(noted).await, 1);
    let page = practice.lead.get(&path).await;
    assert_eq!(page.count("[name=bite_on_record]"), 0);
    assert!(page.text("main").contains("A bite is on record."));
}

#[tokio::test]
async fn the_second_answer_to_a_flag_is_given_back_with_the_first_beside_it() {
    let world = World::new().await;
    let (mut practice, household, moss) = kennel(&world).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let mut tamsin = practice.trainer(&world, "Tamsin Rook").await;
    practice.publish_plan(moss, &[SEARCH]).await;
    crate::journey::log_on_the_collar(&mut ada, moss).await;
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    let flag = welfare.attributes("main .watch .actions a", "href")[0].clone();
    let (mine, hers) = (practice.lead.get(&flag).await, tamsin.get(&flag).await);
    assert!(mine.text("#f-answer-hint").contains("the owner reads it under your name"));
    for _ in 0..2 {
        let answered = practice.lead.submit(&mine, "main form", &[("answer", "Rang her.")]).await;
        answered.redirects_to(&format!("/dogs/{moss}/welfare?notice=answered"));
    }
    let late = tamsin.submit(&hers, "main form", &[("answer", "Wrote to her.")]).await;
    late.expect(422);
    assert_eq!(late.text("textarea[name=answer]").trim(), "Wrote to her.");
    assert!(late.text("main").contains("Rang her."));
    assert_eq!(
        world.database.count("select count(*) from audit_event where action = 'answer_flag'").await,
        1
    );
}

#[tokio::test]
async fn a_colleague_s_new_step_outlives_a_page_that_was_open_before() {
    let world = World::new().await;
    let (mut practice, _, _) = kennel(&world).await;
    let library = practice.lead.get("/library?q=Moving").await;
    let entry = library.attributes("main .links a", "href")[0].clone();
    let stale = practice.lead.get(&format!("{entry}/edit")).await;
    let folded = "main details:not([open]) h3[id^=step-]";
    assert_eq!(stale.count(folded), stale.count("main h3[id^=step-]"), "a kept step is folded");
    let more = practice.lead.submit(&stale, "main form", &[("do", "add-step")]).await;
    assert_eq!(more.count(folded) + 1, more.count("main h3[id^=step-]"), "the new one is open");
    let number = more.count("main h3[id^=step-]");
    let named = ["name", "criterion", "distraction"].map(|what| format!("step-{number}-{what}"));
    let fields =
        [(named[0].as_str(), "In the wood"), (named[1].as_str(), "Searches on"), (named[2].as_str(), "4")];
    practice.lead.submit(&more, "main form", &fields).await.expect(303);
    let steps =
        "select count(*) from step s join exercise e on e.id = s.exercise_id where e.name = 'Moving search'";
    let with_hers = world.database.count(steps).await;
    let late = practice.lead.submit(&stale, "main form", &[("purpose", "To breathe.")]).await;
    late.expect(422);
    assert!(late.text(".error-summary").contains("Somebody changed these steps"));
    assert_eq!(world.database.count(steps).await, with_hers);
    let fresh = practice.lead.get(&format!("{entry}/edit")).await;
    let remove = format!("step-{number}-remove");
    practice.lead.submit(&fresh, "main form", &[(&remove, "yes")]).await.expect(303);
    assert_eq!(world.database.count(steps).await, with_hers - 1);
}

#[tokio::test]
async fn somebody_with_two_practices_says_which() {
    let world = World::new().await;
    let heath = world.practice("Heath and Hollow").await;
    let mut mire = world.practice("Moss and Mire").await;
    let page = mire.lead.get("/practice/team/invite").await;
    let rowan = [("name", "Rowan Airey"), ("email", heath.lead_email.as_str())];
    let made = mire.lead.submit(&page, "main form", &rowan).await;
    let link = made.text(".link-out");
    let (_, token) = link.split_once("/l/").expect("an invitation");
    let mut rowan = world.visitor();
    let page = rowan.get(&format!("/l/{token}")).await;
    let proof = [("email", heath.lead_email.as_str()), ("password", PASSWORD)];
    rowan.submit(&page, "main form", &proof).await.expect(303);

    let mut desk = world.visitor();
    let page = desk.get("/sign-in").await;
    let asked = desk.submit(&page, "main form", &proof).await;
    asked.expect(422);
    assert_eq!(asked.texts("#f-practice option"), ["Choose one", "Heath and Hollow", "Moss and Mire"]);
    let chosen = mire.id.to_string();
    let slip = [("practice", chosen.as_str()), ("password", "something else")];
    let slipped = desk.submit(&asked, "main form", &slip).await;
    slipped.expect(422);
    desk.submit(&slipped, "main form", &[("password", PASSWORD)]).await.redirects_to("/caseload");
    assert!(desk.get("/caseload").await.text(".brand").contains("Moss and Mire"));
    desk.post("/sign-out", &[]).await.redirects_to("/sign-in");
    let noted = "select count(*) from audit_event where action = 'end_sign_in'";
    assert_eq!(world.database.count(noted).await, 1, "signing out is on record");
}

#[tokio::test]
async fn an_unread_message_is_counted_on_every_page_of_an_owner() {
    let world = World::new().await;
    let (mut practice, household, moss) = kennel(&world).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let messages = format!("/dogs/{moss}/messages");
    let page = practice.lead.get(&messages).await;
    let form = format!("main form[action='{messages}']");
    practice.lead.submit(&page, &form, &[("body", "Well done.")]).await.expect(303);
    let health = format!("/dogs/{moss}/health");
    for path in ["/today", "/plan", "/progress", "/household", "/account", "/account/password", &health] {
        assert!(ada.get(path).await.text(".tabbar").contains("1 unread"), "{path}");
    }
}

#[tokio::test]
async fn another_place_than_planned_is_kept_by_its_name() {
    let world = World::new().await;
    let (mut practice, household, moss) = kennel(&world).await;
    for (name, distraction) in [("The garden", "1"), ("The green", "4")] {
        let page = practice.lead.get(&format!("/dogs/{moss}/places/new")).await;
        let fields = [("name", name), ("distraction", distraction)];
        practice.lead.submit(&page, "main form", &fields).await.expect(303);
    }
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let page = practice.lead.get(&format!("/dogs/{moss}/plan/add")).await;
    let search = button(&page, SEARCH);
    let added = practice.lead.submit(&page, "main form[method=post]", &[("exercise", &search)]).await;
    let details = practice.lead.follow(added).await;
    let place = |page: &Answer, css: &str, name: &str| {
        let html = page.page();
        let found = html.select(&selector(css)).find(|option| text(*option).starts_with(name));
        found.and_then(|option| option.attr("value")).expect("the place is offered").to_owned()
    };
    let green = place(&details, "#f-place option", "The green");
    practice.lead.submit(&details, "main form", &[("place", &green)]).await.expect(303);
    practice.lead.post(&format!("/dogs/{moss}/plan/publish"), &[]).await.expect(303);

    let today = ada.get("/today").await;
    let links = today.attributes("main a", "href");
    let link = links.into_iter().find(|href| href.contains("/log/new?item=")).expect("a log form");
    let css = format!("main form[action='/dogs/{moss}/log']");
    let (mut garden, mut elsewhere) = (ada.get(&link).await, ada.get(&link).await);
    let offered = garden.texts("#f-place option");
    assert_eq!(offered, ["As planned: The green", "The garden", "Somewhere else"]);
    let page = practice.lead.get(&format!("/dogs/{moss}/places/new")).await;
    let twice =
        practice.lead.submit(&page, "main form", &[("name", "the Garden"), ("distraction", "3")]).await;
    let message = twice.expect(422).error_of("name");
    assert!(message.contains("a place of this name already"), "{message}");
    let known = place(&garden, "#f-place option", "The garden");
    for (page, place) in [(&mut garden, known.as_str()), (&mut elsewhere, "elsewhere")] {
        let fields = [("attempts", "6"), ("left", "1"), ("clip", "harness_back"), ("place", place)];
        ada.submit(page, &css, &fields).await.expect(303);
        ada.submit(page, &css, &fields).await.expect(303);
    }
    let planned = ada.get(&link).await;
    let fields = [("attempts", "6"), ("left", "1"), ("clip", "harness_back")];
    let logged = ada.submit(&planned, &css, &fields).await;
    id_in(&sent_to(&logged), "log");
    for (query, wanted) in [
        ("select count(*) from practice_log", 3),
        ("select count(*) from practice_log where place_name = 'The garden' and place_distraction = 1", 1),
        (
            "select count(*) from practice_log where place_name = 'Somewhere else' and place_distraction is null",
            1,
        ),
        ("select count(*) from practice_log where place_name = 'The green' and place_distraction = 4", 1),
    ] {
        assert_eq!(world.database.count(query).await, wanted, "{query}");
    }
}

/// The keys after `?notice=` or `&notice=` in our own redirects.
fn keys_used() -> BTreeSet<String> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/src/web");
    let (mut folders, mut keys) = (vec![std::path::PathBuf::from(root)], BTreeSet::new());
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).expect("a folder").flatten() {
            let path = entry.path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let source = std::fs::read_to_string(&path).expect("a source");
            for after in source.split("notice=").skip(1) {
                let key: String = after.chars().take_while(|c| c.is_ascii_lowercase() || *c == '-').collect();
                keys.insert(key);
            }
        }
    }
    keys.retain(|key| !key.is_empty() && key != "key");
    keys
}

#[test]
fn every_notice_that_a_redirect_names_has_words() {
    let keys = keys_used();
    assert!(keys.len() > 30, "{keys:?}");
    let silent: Vec<&String> =
        keys.iter().filter(|key| settlebrook::web::notice::words(key).is_none()).collect();
    assert!(silent.is_empty(), "{silent:?}");
}

#[tokio::test]
async fn a_wrong_number_is_named_as_its_field_is() {
    let world = World::new().await;
    let (mut practice, household, moss) = kennel(&world).await;
    practice.publish_plan(moss, &["Alone, in small steps", SEARCH]).await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let items: Vec<Uuid> = sqlx::query_scalar("select id from plan_item")
        .fetch_all(&mut world.database.as_superuser().await)
        .await
        .expect("the items");
    assert_eq!(items.len(), 2);
    let mut judged = 0;
    for item in items {
        let path = format!("/dogs/{moss}/log/new?item={item}");
        judged += wrong_numbers(&mut ada, &path, &format!("main form[action='/dogs/{moss}/log']")).await;
        judged +=
            wrong_numbers(&mut practice.lead, &path, &format!("main form[action='/dogs/{moss}/log']")).await;
    }
    let encounters = format!("main form[action='/dogs/{moss}/encounters']");
    judged += wrong_numbers(&mut ada, &format!("/dogs/{moss}/encounters/new"), &encounters).await;
    let line = practice.things["line"];
    for (path, css) in [
        (format!("/dogs/{moss}/plan/items/{line}"), "main form.form"),
        (format!("/households/{household}/dogs/new"), "main form"),
        (format!("/dogs/{moss}/reinforcers/new"), "main form.form"),
        (format!("/dogs/{moss}/profile/edit/health"), "main form"),
        (format!("/dogs/{moss}/profile/edit/food"), "main form"),
        ("/library/new".to_owned(), "main form"),
    ] {
        judged += wrong_numbers(&mut practice.lead, &path, css).await;
    }
    assert!(judged > 25, "{judged}");
}

/// Types a letter into every number of a form, and holds each message to begin with its field's label. How many.
async fn wrong_numbers(browser: &mut Browser, path: &str, css: &str) -> usize {
    let page = browser.get(path).await;
    let names = page.attributes(&format!("{css} input[inputmode]"), "name");
    assert!(!names.is_empty(), "{path} asks for numbers");
    let fields: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), "x")).collect();
    let answer = browser.submit(&page, css, &fields).await;
    answer.expect(422);
    for name in &names {
        let label = answer.text(&format!("label[for='f-{name}']"));
        let label = label.trim_end_matches("optional").trim().trim_end_matches('?');
        let says = answer.error_of(name);
        assert!(says.contains(&format!("{label}:")), "{path}: {says} does not name {label}");
    }
    names.len()
}
