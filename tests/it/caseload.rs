//! The caseload as a trainer works through it: who answers a stop and by when, counts, search, the team, hand-over.

use time::Duration;

use crate::incidents::{beginning, tell};
use crate::support::people::PASSWORD;
use crate::support::{Browser, World};

/// A trainer signs in again: a day has passed.
async fn signs_in(world: &World, email: &str) -> Browser {
    let mut browser = world.visitor();
    let page = browser.get("/sign-in").await;
    browser.submit(&page, "main form", &[("email", email), ("password", PASSWORD)]).await.expect(303);
    browser
}

#[tokio::test]
async fn a_stop_names_who_answers_and_goes_to_whoever_is_on_duty_after_a_day() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let mut tamsin = practice.trainer(&world, "Tamsin Rook").await;
    let mut ines = practice.trainer(&world, "Ines Quill").await;
    let page = practice.lead.get(&format!("/dogs/{moss}/profile/edit/care")).await;
    let tamsins = page.attributes("#f-trainer option", "value");
    let names = page.texts("#f-trainer option");
    let of = |name: &str| tamsins[names.iter().position(|n| n.contains(name)).expect("on the team")].clone();
    practice.lead.submit(&page, "main form", &[("trainer", &of("Tamsin"))]).await.expect(303);
    let edit = practice.lead.get("/practice/edit").await;
    practice.lead.submit(&edit, "main form", &[("trainer", &of("Ines"))]).await.expect(303);
    assert!(
        practice
            .lead
            .get("/practice")
            .await
            .text("main")
            .contains("Ines Quill: what is not answered in time")
    );
    tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    let today = ada.get("/today").await.text("main");
    assert!(today.contains("Tamsin Rook is asked to answer by Fri 13 Mar, 09:30"), "{today}");
    let own = tamsin.get("/caseload").await.text("main");
    assert!(own.contains("Tamsin Rook answers by Fri 13 Mar, 09:30"), "{own}");
    assert!(ines.get("/caseload").await.text("main").contains("No dogs here yet"), "not hers, not late");
    world.pass(Duration::hours(23) + Duration::minutes(59));
    assert_eq!(ines.get("/caseload").await.count("main .row"), 0, "in time to the minute");
    world.pass(Duration::minutes(1));
    let mut tamsin = signs_in(&world, "tamsin.rook@example.org").await;
    let mut ines = signs_in(&world, "ines.quill@example.org").await;
    practice.lead_signs_in().await;
    let late = ines.get("/caseload").await;
    assert_eq!(late.texts("main .row .row-who a"), ["Moss"], "{}", late.text("main"));
    assert!(late.text("main").contains("it is with Ines Quill, who is on duty"), "{}", late.text("main"));
    assert!(
        practice.lead.get("/caseload").await.count("main .row") == 0,
        "a lead has it where nobody is on duty"
    );
    assert!(ada.get("/today").await.text("main").contains("Ines Quill is asked to answer now."));
    // who is on duty answers it from the caseload, and is back there
    let act = late.attribute("main .row [data-act]", "href");
    let flag = ines.get(&act).await;
    assert!(flag.text("main").contains("who is on duty"));
    let answer = [("answer", "Rang: a gate stands in the kitchen.")];
    ines.submit(&flag, "main form.form", &answer)
        .await
        .redirects_to(&format!("/caseload?after={moss}&notice=answered"));
    assert_eq!(ines.get("/caseload").await.count("main .row"), 0);
    let own = tamsin.get("/caseload").await.text("main");
    assert!(own.contains("After trouble"), "it is not going well the day after: {own}");
    // nobody on duty: every lead has it
    tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child"), ("note", "Again.")]).await;
    let edit = practice.lead.get("/practice/edit").await;
    practice.lead.submit(&edit, "main form", &[("trainer", "")]).await.expect(303);
    world.pass(Duration::hours(25));
    practice.lead_signs_in().await;
    let late = practice.lead.get("/caseload").await;
    assert!(
        late.text("main .row").contains("nobody is on duty, so it is with every lead"),
        "{}",
        late.text("main")
    );
}

#[tokio::test]
async fn a_call_for_help_goes_to_whoever_is_on_duty_after_a_day_and_a_vets_matter_after_hours() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    practice.trainer(&world, "Tamsin Rook").await;
    let page = practice.lead.get(&format!("/dogs/{moss}/profile/edit/care")).await;
    let trainers = page.attributes("#f-trainer option", "value");
    let names = page.texts("#f-trainer option");
    let tamsin = &trainers[names.iter().position(|name| name.contains("Tamsin")).expect("on the team")];
    practice.lead.submit(&page, "main form", &[("trainer", tamsin)]).await.expect(303);
    let page = ada.get(&format!("/dogs/{moss}/not-coping")).await;
    ada.submit(&page, "main form[action$='/not-coping']", &[]).await.expect(303);
    let today = ada.get("/today").await.text("main");
    assert!(today.contains("Tamsin Rook is asked to answer by Fri 13 Mar, 09:30"), "{today}");
    world.pass(Duration::hours(24) - Duration::minutes(1));
    assert_eq!(practice.lead.get("/caseload").await.count("main .row"), 0, "in time to the minute");
    world.pass(Duration::minutes(1));
    practice.lead_signs_in().await;
    let late = practice.lead.get("/caseload").await.text("main .row");
    assert!(late.contains("Not answered by Fri 13 Mar, 09:30: nobody is on duty"), "{late}");
    assert!(ada.get("/today").await.text("main").contains("The practice is asked to answer now."));
    let flags = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    let flag = practice.lead.get(&flags.attribute("main a[href^='/flags/']", "href")).await;
    practice.lead.submit(&flag, "main form.form", &[("answer", "Rang her.")]).await.expect(303);
    assert_eq!(practice.lead.get("/caseload").await.count("main .row"), 0);
    // signs that a vet must hear of at once wait four hours
    crate::incidents::log(&mut ada, moss, &[("health", "collapse")]).await;
    assert!(
        ada.get("/today").await.text("main").contains("Tamsin Rook is asked to answer by Fri 13 Mar, 13:30")
    );
    world.pass(Duration::hours(4));
    practice.lead_signs_in().await;
    assert_eq!(practice.lead.get("/caseload").await.count("main .row"), 1);
}

#[tokio::test]
async fn whoever_leaves_is_on_duty_no_more_and_an_owner_never_is() {
    let world = World::new().await;
    let (mut practice, moss, _ada) = beginning(&world).await;
    practice.trainer(&world, "Ines Quill").await;
    let edit = practice.lead.get("/practice/edit").await;
    let ines = edit.attributes("#f-trainer option", "value");
    let ines = ines.iter().zip(edit.texts("#f-trainer option")).find(|(_, name)| name.contains("Ines"));
    let ines = ines.expect("on the team").0.clone();
    practice.lead.submit(&edit, "main form", &[("trainer", &ines)]).await.expect(303);
    let mut all = world.database.as_superuser().await;
    let owner: uuid::Uuid = sqlx::query_scalar("select id from membership where role = 'owner'")
        .fetch_one(&mut all)
        .await
        .expect("Ada");
    let refused = practice.lead.submit(&edit, "main form", &[("trainer", &owner.to_string())]).await;
    assert_eq!(refused.expect(422).error_of("trainer"), "Choose a trainer of the team.");
    let page = practice.lead.get(&format!("/practice/team/{ines}/remove")).await;
    practice.lead.submit(&page, "main form", &[]).await.expect(303);
    assert!(practice.lead.get("/practice").await.text("main").contains("Nobody in particular"));
    assert_eq!(
        world.database.count("select count(*) from practice where duty_trainer_id is not null").await,
        0
    );
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(!page.contains("left the team"), "nobody leaves with a dog that was not theirs");
}

#[tokio::test]
async fn counts_narrow_the_list_and_a_slip_of_the_pen_finds_the_dog() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let other = practice.household("Lund").await;
    practice.dog(other, "Bracken").await;
    let page = ada.get("/messages").await;
    ada.submit(&page, "main form.form", &[("body", "May she rest on Sunday?")]).await.expect(303);
    let all = practice.lead.get("/caseload").await;
    assert_eq!(all.count("main .row"), 2);
    assert_eq!(all.texts("main .counts a"), ["Question waiting 1", "No plan yet 1"]);
    let questions = practice.lead.get(&all.attributes("main .counts a", "href")[0]).await;
    assert_eq!(questions.texts("main .row .row-who a"), ["Moss"]);
    assert_eq!(questions.text("h1"), "1 dog found");
    assert_eq!(questions.count("main .counts a[aria-current]"), 1);
    let back = questions.attribute("main .counts a[aria-current]", "href");
    assert_eq!(practice.lead.get(&back).await.count("main .row"), 2, "pressed again, all are back");
    for typed in ["braken", "Bracken", "lnud", "brack lund"] {
        let found = practice.lead.get(&format!("/caseload?q={}", typed.replace(' ', "+"))).await;
        let names = found.texts("main .row .row-who a");
        assert_eq!(names, ["Bracken"], "{typed}");
    }
    assert!(practice.lead.get("/caseload?q=xyzzy").await.text("main").contains("No dog fits"));
    let answer = practice.lead.get(&questions.attribute("main .row [data-act]", "href")).await;
    let sent = practice
        .lead
        .submit(&answer, "main form.form[action$='/messages']", &[("body", "Yes, let her rest.")])
        .await;
    sent.redirects_to(&format!("/caseload?after={moss}&notice=sent"));
    let back = practice.lead.get(&format!("/caseload?after={moss}&notice=sent")).await;
    assert_eq!(back.text("[role=status]"), "Moss (Okoro household): Sent.", "whose it was");
    assert_eq!(practice.lead.get("/caseload?need=question").await.count("main .row"), 0);
    assert_eq!(
        practice.lead.get(&format!("/dogs/{moss}/messages")).await.count("form[action$='/settle']"),
        0
    );
}

#[tokio::test]
async fn a_lead_sees_who_carries_what_and_a_dog_is_handed_over_with_a_word() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    practice.trainer(&world, "Tamsin Rook").await;
    tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    world.pass(Duration::hours(30));
    practice.lead_signs_in().await;
    let team = practice.lead.get("/caseload/team").await;
    assert_eq!(team.count("main tbody tr"), 2);
    let rowan = team.texts("main tbody tr")[0].clone();
    assert!(rowan.starts_with("Rowan Airey111"), "dogs, overdue, stops: {rowan}");
    let narrowed = practice.lead.get(&team.attributes("main tbody td a", "href")[0]).await;
    assert_eq!(narrowed.texts("main .row .row-who a"), ["Moss"]);
    let several = practice.lead.get("/caseload/several?show=everyone").await;
    let to = several.attributes("#f-trainer option", "value");
    let to = to.iter().zip(several.texts("#f-trainer option")).find(|(_, name)| name.contains("Tamsin"));
    let to = to.expect("on the team").0.clone();
    let moss_id = moss.to_string();
    let fields = [
        ("dogs", moss_id.as_str()),
        ("trainer", &to),
        ("note", "Tired of phones: ring, do not write."),
        ("change", "trainer"),
    ];
    practice.lead.submit(&several, "main form", &fields).await.expect(303);
    let mut tamsin = signs_in(&world, "tamsin.rook@example.org").await;
    let page = tamsin.get(&format!("/dogs/{moss}")).await.text("main aside");
    assert!(
        page.contains("From Rowan Airey to Tamsin Rook") && page.contains("ring, do not write"),
        "{page}"
    );
    for path in ["/today", "/messages", "/household", "/progress"] {
        assert!(!ada.get(path).await.body().contains("Tired of phones"), "{path}");
    }
    // to whoever has it already, nothing is handed over
    let several = practice.lead.get("/caseload/several?show=everyone").await;
    practice.lead.submit(&several, "main form", &fields).await.expect(303);
    assert_eq!(world.database.count("select count(*) from hand_over").await, 1);
    tamsin.expects_failures();
    tamsin.get("/caseload/team").await.expect(404);
    world.pass(Duration::days(31));
    practice.lead_signs_in().await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(!page.contains("Handed over"), "after a month it is history");
}

#[tokio::test]
async fn the_dogs_of_a_trainer_who_leaves_are_handed_over_with_a_word() {
    let world = World::new().await;
    let (mut practice, moss, _ada) = beginning(&world).await;
    practice.trainer(&world, "Ines Quill").await;
    let page = practice.lead.get(&format!("/dogs/{moss}/profile/edit/care")).await;
    let trainers = page.attributes("#f-trainer option", "value");
    let names = page.texts("#f-trainer option");
    let ines = &trainers[names.iter().position(|name| name.contains("Ines")).expect("on the team")];
    practice.lead.submit(&page, "main form", &[("trainer", ines)]).await.expect(303);
    let page = practice.lead.get(&format!("/practice/team/{ines}/remove")).await;
    practice.lead.submit(&page, "main form", &[]).await.expect(303);
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(page.contains("Ines Quill left the team."), "{page}");
}
