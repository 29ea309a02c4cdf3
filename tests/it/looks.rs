//! "Looked at by your trainer": said by a trainer, taken back, and open again when an owner changes what they told.

use crate::support::World;

#[tokio::test]
async fn an_owner_reads_that_a_trainer_looked_and_a_change_is_new_again() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Moving search"]).await;
    crate::journey::log_on_the_collar(&mut ada, moss).await;
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let form = format!("main form[action='/dogs/{moss}/encounters']");
    ada.submit(&page, &form, &[("kind", "reaction")]).await.expect(303);
    let list = format!("/dogs/{moss}/log");
    let logs = practice.lead.get(&list).await;
    assert_eq!(logs.count("main .new"), 2, "the sitting and the encounter");
    let log = logs.attributes("main .log a", "href")[0].clone();
    assert!(ada.get(&log).await.text("main").contains("has not looked at it yet"));
    let page = practice.lead.get(&log).await;
    for _ in 0..2 {
        practice.lead.submit(&page, "main form.looked", &[("looked", "yes")]).await.expect(303);
    }
    let said = ada.get(&log).await.text("main");
    assert!(said.contains("Looked at by Rowan Airey, Thu 12 Mar."), "{said}");
    let page = practice.lead.get(&log).await;
    practice.lead.submit(&page, "main form.looked", &[("looked", "not_yet")]).await.expect(303);
    assert!(ada.get(&log).await.text("main").contains("has not looked at it yet"), "taken back");
    // all at once; what comes after the page was made stays new
    world.pass(time::Duration::minutes(1));
    let logs = practice.lead.get(&list).await;
    world.pass(time::Duration::minutes(2));
    let page_of_another = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    ada.submit(&page_of_another, &form, &[("kind", "bolted")]).await.expect(303);
    practice.lead.submit(&logs, "main form.looked", &[]).await.expect(303);
    let logs = practice.lead.get(&list).await;
    assert_eq!(logs.count("main .new"), 1, "{}", logs.text("main"));
    // a changed wording is new, and so it is said
    let edit = ada.get(&format!("{log}/edit")).await;
    ada.submit(&edit, "main form.form", &[("note", "It was two pheasants.")]).await.expect(303);
    assert_eq!(practice.lead.get(&list).await.count("main .log .new"), 1);
    assert!(practice.lead.get(&log).await.text("main").contains("Changed since it was looked at"));
    assert!(ada.get(&log).await.text("main").contains("What you changed was not looked at yet"));
    // an old page says of the old wording only
    practice
        .lead
        .submit(&page, "main form.looked", &[("looked", "yes"), ("revision", "0")])
        .await
        .expect(303);
    assert_eq!(practice.lead.get(&list).await.count("main .log .new"), 1, "not of the new one");
    let now = practice.lead.get(&log).await;
    practice.lead.submit(&now, "main form.looked", &[("looked", "yes")]).await.expect(303);
    assert_eq!(practice.lead.get(&list).await.count("main .log .new"), 0);
    // what a trainer corrects they have looked at
    let edit = practice.lead.get(&format!("{log}/edit")).await;
    practice.lead.submit(&edit, "main form.form", &[("note", "One pheasant.")]).await.expect(303);
    assert_eq!(practice.lead.get(&list).await.count("main .log .new"), 0);
    assert_eq!(world.database.count("select count(*) from look").await, 2);
}

#[tokio::test]
async fn whoever_answers_has_looked_at_what_the_page_showed_and_at_nothing_later() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = crate::incidents::beginning(&world).await;
    let list = format!("/dogs/{moss}/log");
    for changes in [false, true] {
        let told = [("kind", "growl_or_snap"), ("towards", "child")];
        let met = crate::incidents::tell(&mut ada, moss, &told).await;
        assert_eq!(practice.lead.get(&list).await.count("main .new"), 1);
        world.pass(time::Duration::minutes(1));
        let caseload = practice.lead.get("/caseload").await;
        let flag = practice.lead.get(&caseload.attribute("main .row [data-act]", "href")).await;
        world.pass(time::Duration::minutes(1));
        if changes {
            let edit = ada.get(&format!("/dogs/{moss}/encounters/{met}/edit")).await;
            let said = [("note", "He bit the sleeve as well."), ("reason", "I left it out.")];
            ada.submit(&edit, "main form.form", &said).await.expect(303);
        }
        practice.lead.submit(&flag, "main form.form", &[("answer", "Rang.")]).await.expect(303);
        let unseen = practice.lead.get(&list).await.count("main .new");
        assert_eq!(unseen, usize::from(changes), "what was changed meanwhile was seen by nobody");
        world.pass(time::Duration::minutes(1));
    }
}
