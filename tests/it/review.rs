//! The review queue: what was told and nobody has looked at, one by one; phrases and views of one's own.

use uuid::Uuid;

use crate::incidents::{beginning, log, tell};
use crate::support::{Browser, World};

/// Looks at what the queue shows, as the form on the page does; gives the page that comes then.
async fn look(trainer: &mut Browser, path: &str, fields: &[(&str, &str)]) -> crate::support::Answer {
    let page = trainer.get(path).await;
    let sent = trainer.submit(&page, "main form[action$='/reviewed']", fields).await;
    sent.expect(303);
    trainer.follow(sent).await
}

#[tokio::test]
async fn what_was_told_is_looked_at_one_by_one_what_is_grave_first() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    assert!(practice.lead.get("/review").await.text("main").contains("All looked at"), "the empty queue");
    log(&mut ada, moss, &[("attempts", "10"), ("met", "9"), ("note", "By the gate.")]).await;
    world.pass(time::Duration::minutes(5));
    let other = practice.household("Lund").await;
    let wren = practice.dog(other, "Wren").await;
    let mut bo = practice.owner(&world, other, "Bo Lund").await;
    tell(&mut bo, wren, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    let first = practice.lead.get("/review").await;
    assert_eq!(first.text("h1"), "2 to look at");
    assert_eq!(first.texts("[data-reviewed] a")[0], "Wren", "a stop first");
    assert!(first.text("main").contains("Growl or snap at a child"), "{}", first.text("main"));
    // later, then back
    let later = practice.lead.get(&first.link("Later")).await;
    assert!(later.text("[data-reviewed]").contains("By the gate."), "{}", later.text("main"));
    assert!(later.text("aside").contains("Nose to hand") || later.text("aside").contains("Lately"));
    assert!(later.text("aside").contains("9 of 10"), "how it went there lately: {}", later.text("aside"));
    let end = practice.lead.get(&later.link("Later")).await;
    assert!(end.text("main").contains("You left 2 for later."), "{}", end.text("main"));
    // looked at, with a phrase of one's own
    let page = practice.lead.get("/review/phrases").await;
    practice.lead.submit(&page, "main form.form", &[("body", "")]).await.expect(422);
    for _ in 0..2 {
        let words = [("body", "Lovely. The same again.")];
        practice.lead.submit(&page, "main form.form", &words).await.expect(303);
    }
    let phrases = practice.lead.get("/review/phrases").await;
    assert_eq!(phrases.count("main .rows .row"), 1, "the same words are kept once");
    let page = practice.lead.get(&first.link("Later")).await;
    let phrase = page.attributes("#f-phrase option", "value").last().expect("a phrase").clone();
    let next = look(
        &mut practice.lead,
        &first.link("Later"),
        &[("body", "Good that you waited."), ("phrase", &phrase)],
    )
    .await;
    assert!(next.text("main").contains("1 looked at, 1 left"), "{}", next.text("main"));
    let messages = ada.get("/messages").await.text("main");
    assert!(messages.contains("Good that you waited.") && messages.contains("Lovely. The same again."));
    assert!(ada.get("/progress").await.status() == 200);
    // taken back
    let undo = next.attributes("main form[action$='/looked']", "action")[0].clone();
    assert!(undo.starts_with(&format!("/dogs/{moss}/log/")), "{undo}");
    practice
        .lead
        .submit(&next, "main form[action$='/looked']", &[])
        .await
        .redirects_to("/review?notice=not-looked");
    assert_eq!(practice.lead.get("/review").await.text("h1"), "2 to look at");
    // somebody else's dogs are not one's own
    let mut trainer = practice.trainer(&world, "Tamsin Rook").await;
    assert!(trainer.get("/review").await.text("main").contains("All looked at"));
    assert_eq!(trainer.get("/review?show=everyone").await.text("h1"), "2 to look at");
    // what was typed about something that is wrong stays
    let long = "x".repeat(3401);
    let page = practice.lead.get("/review").await;
    let wrong = practice.lead.submit(&page, "main form[action$='/reviewed']", &[("body", &long)]).await;
    assert!(!wrong.expect(422).error_of("body").is_empty());
    assert_eq!(wrong.text("#f-body").trim().len(), 3401);
    // sent twice, told once
    let id = page.attribute("main form[action$='/reviewed'] input[name=id]", "value");
    for _ in 0..2 {
        let typed = [("body", "I ring you at six."), ("id", id.as_str())];
        practice.lead.submit(&page, "main form[action$='/reviewed']", &typed).await.expect(303);
    }
    let sent = "select count(*) from message where body = 'I ring you at six.'";
    assert_eq!(world.database.count(sent).await, 1);
    // after four weeks it stands in the log alone
    world.pass(time::Duration::weeks(5));
    practice.lead_signs_in().await;
    assert!(practice.lead.get("/review").await.text("main").contains("All looked at"));
    assert_eq!(practice.lead.get(&format!("/dogs/{moss}/log")).await.count("main .new"), 1);
}

#[tokio::test]
async fn phrases_and_views_are_each_trainers_own() {
    let world = World::new().await;
    let (mut practice, _moss, _ada) = beginning(&world).await;
    let mut trainer = practice.trainer(&world, "Tamsin Rook").await;
    let page = practice.lead.get("/review/phrases").await;
    practice.lead.submit(&page, "main form.form", &[("body", "See you on Tuesday.")]).await.expect(303);
    let page = practice.lead.get("/caseload?show=everyone&need=question&x=1").await;
    let page = practice.lead.get(&page.attribute("main a[href^='/caseload/views']", "href")).await;
    let unnamed = practice.lead.submit(&page, "main form[action='/caseload/views']", &[]).await;
    assert_eq!(unnamed.expect(422).error_of("name"), "Give the view a name.");
    let typed = [("name", "Questions")];
    practice.lead.submit(&unnamed, "main form[action='/caseload/views']", &typed).await.expect(303);
    let own = practice.lead.get("/caseload").await;
    let links = own.attributes("main .filters a", "href");
    let view = links.iter().find(|href| href.contains("need=question")).expect("the view").clone();
    assert_eq!(view, "/caseload?show=everyone&need=question", "what it asks for, and nothing else");
    assert_eq!(
        practice.lead.get(&view).await.texts("main .filters[role] a[aria-current]"),
        ["Everyone’s", "Questions"]
    );
    assert!(!trainer.get("/caseload").await.text("main").contains("Questions"));
    assert!(!trainer.get("/review/phrases").await.text("main").contains("Tuesday"));
    let views = practice.lead.get("/caseload/views").await;
    let remove = views.attribute("main form[action^='/caseload/views/']", "action");
    trainer.post(&remove, &[]).await.expect(404);
    let phrases = practice.lead.get("/review/phrases").await;
    let remove_phrase = phrases.attribute("main form[action$='/remove']", "action");
    trainer.post(&remove_phrase, &[]).await.expect(404);
    practice.lead.post(&remove, &[]).await.expect(303);
    practice.lead.post(&remove_phrase, &[]).await.expect(303);
    practice.lead.post(&remove_phrase, &[]).await.expect(404);
    assert_eq!(world.database.count("select count(*) from phrase").await, 0);
    assert_eq!(world.database.count("select count(*) from caseload_view").await, 0);
    practice.lead.post(&format!("/review/phrases/{}/remove", Uuid::new_v4()), &[]).await.expect(404);
}
