//! After a lesson: one note becomes its parts; a pasted message becomes what it tells of; several dogs at once; one press.

use crate::support::World;

#[tokio::test]
async fn one_note_becomes_a_message_a_private_note_a_sitting_and_homework() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["A look at you"]).await;
    let path = format!("/dogs/{moss}/lessons");
    let page = practice.lead.get(&path).await;
    let note = "Lovely at the gate.\n! They are worn out\n8/10 look\n> moving search";
    let before = world.database.fingerprint().await;
    let alone = practice.lead.submit(&page, "main form[data-keep]", &[("note", note)]).await;
    assert_eq!(alone.expect(200).count("main form[data-fresh]"), 1, "a note alone is sorted first");
    let sorted = practice.lead.submit(&page, "main form[data-keep]", &[("note", note), ("do", "sort")]).await;
    sorted.expect(200);
    assert_eq!(world.database.fingerprint().await, before, "sorting keeps nothing");
    assert_eq!(sorted.text("#f-private_note").trim(), "They are worn out");
    assert_eq!(sorted.attribute("#f-met", "value"), "8");
    assert_eq!(sorted.attribute("#f-next_1", "value"), "Moving search");
    for _ in 0..2 {
        let kept = practice.lead.submit(&sorted, "main form[data-keep]", &[]).await;
        kept.redirects_to(&format!("/dogs/{moss}/plan/edit?notice=lesson-kept-with-homework"));
    }
    for (query, wanted) in [
        ("select count(*) from lesson where private_note = 'They are worn out' and log_id is not null", 1),
        ("select count(*) from practice_log where trainer_seen and attempts = 10 and met = 8", 1),
        ("select count(*) from message where from_trainer and body like 'Lovely%'", 1),
        (
            "select count(*) from plan_draft_item i join exercise e on e.id = i.exercise_id where e.name = 'Moving search'",
            1,
        ),
    ] {
        assert_eq!(world.database.count(query).await, wanted, "{query}");
    }
    let messages = ada.get("/messages").await.text("main");
    assert!(messages.contains("Lovely at the gate.") && !messages.contains("worn out"), "{messages}");
    let held = practice.lead.get(&path).await;
    assert!(held.text("main aside").contains("They are worn out"));
    assert!(held.attribute("[data-share]", "data-share").contains("Lovely at the gate."));
    assert!(!held.attribute("[data-share]", "data-share").contains("worn out"));
}

#[tokio::test]
async fn a_lesson_with_nothing_in_it_or_numbers_that_cannot_be_is_not_kept() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.publish_plan(moss, &["A look at you"]).await;
    let path = format!("/dogs/{moss}/lessons");
    let page = practice.lead.get(&path).await;
    let item = page.attributes("#f-counted option", "value")[1].clone();
    for (fields, field) in [
        (vec![], "summary"),
        (vec![("met", "3"), ("attempts", "5")], "counted"),
        (vec![("counted", item.as_str())], "met"),
        (vec![("counted", item.as_str()), ("met", "6"), ("attempts", "5")], "met"),
        (vec![("next_2", "No such thing")], "next_2"),
    ] {
        let refused = practice.lead.submit(&page, "main form[data-keep]", &fields).await;
        refused.expect(422);
        assert!(!refused.error_of(field).is_empty(), "{fields:?}");
    }
    assert_eq!(world.database.count("select count(*) from lesson").await, 0);
}

#[tokio::test]
async fn a_pasted_message_becomes_an_encounter_or_a_sitting_in_two_taps() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.publish_plan(moss, &["A look at you"]).await;
    let page = practice.lead.get(&format!("/dogs/{moss}/messages")).await;
    let form = "main form[action$='/pasted']";
    let pasted = [("pasted", "He barked at a van, sorry"), ("as", "encounter")];
    let encounter = practice.lead.submit(&page, form, &pasted).await;
    encounter.expect(200);
    practice.lead.submit(&encounter, "main form[action$='/encounters']", &[]).await.expect(303);
    let kept =
        "select count(*) from encounter where kind = 'reaction' and note = 'He barked at a van, sorry'";
    assert_eq!(world.database.count(kept).await, 1);
    let sitting =
        practice.lead.submit(&page, form, &[("pasted", "Ten minutes on the mat"), ("as", "log")]).await;
    sitting.expect(200);
    practice.lead.submit(&sitting, "main form[action$='/log']", &[]).await.expect(303);
    assert_eq!(
        world
            .database
            .count(
                "select count(*) from practice_log where note = 'Ten minutes on the mat' and not trainer_seen"
            )
            .await,
        1
    );
    practice.lead.submit(&page, form, &[("as", "log")]).await.expect(422);
}

#[tokio::test]
async fn several_dogs_are_handed_over_and_archived_and_come_back_when_they_need_somebody() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let mut other = world.practice("Moss and Mire").await;
    let mut trainer = practice.trainer(&world, "Tamsin Rook").await;
    let household = practice.household("Okoro").await;
    let mut dogs = Vec::new();
    for name in ["Moss", "Fern", "Wren"] {
        dogs.push(practice.dog(household, name).await.to_string());
    }
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let page = practice.lead.get("/caseload/several?show=everyone").await;
    let path = "/caseload/several?show=everyone";
    practice.lead.post(path, &[("change", "archive")]).await.expect(422);
    practice.lead.post(path, &[("change", "trainer"), ("dogs", &dogs[0])]).await.expect(422);
    let offered = page.texts("#f-trainer option").into_iter().position(|name| name == "Tamsin Rook");
    let tamsin = page.attributes("#f-trainer option", "value")[offered.expect("is offered")].clone();
    let fields =
        [("dogs", dogs[0].as_str()), ("dogs", dogs[1].as_str()), ("trainer", &tamsin), ("change", "trainer")];
    practice.lead.post(path, &fields).await.expect(303);
    let mine = trainer.get("/caseload").await;
    assert_eq!(mine.count("main [data-row]"), 2);
    let archive = [("dogs", dogs[0].as_str()), ("dogs", dogs[1].as_str()), ("change", "archive")];
    practice.lead.post(path, &archive).await.expect(303);
    assert_eq!(trainer.get("/caseload").await.count("main [data-row]"), 0);
    assert_eq!(trainer.get("/caseload?show=archived").await.count("main [data-row]"), 2);
    // an owner's question brings a dog back by itself, and the answer lets it go again
    let messages = ada.get(&format!("/messages?dog={}", dogs[1])).await;
    ada.submit(&messages, "main form:has(textarea)", &[("body", "May she swim?")]).await.expect(303);
    let back = trainer.get("/caseload").await;
    assert_eq!(back.texts("main [data-row] .row-who a"), ["Fern"]);
    // another practice's dog among them: nothing changes
    let elsewhere = other.household("Lund").await;
    let stranger = other.dog(elsewhere, "Bramble").await.to_string();
    let mixed = [("dogs", dogs[2].as_str()), ("dogs", stranger.as_str()), ("change", "archive")];
    practice.lead.post(path, &mixed).await.expect(404);
    assert_eq!(
        world.database.count("select count(*) from dog where name = 'Wren' and archived_at is null").await,
        1
    );
    let restore = [("dogs", dogs[0].as_str()), ("change", "restore")];
    practice.lead.post("/caseload/several?show=archived", &restore).await.expect(303);
    assert_eq!(world.database.count("select count(*) from dog where archived_at is not null").await, 1);
}
