//! Settling in, active, maintaining, graduated, and back: asked once a fortnight, told that it slips, worked with again.

use time::Duration;
use uuid::Uuid;

use crate::incidents::{beginning, log};
use crate::readiness::{FOUR_OF_TEN, decides, on_two_days};
use crate::support::{Browser, Practice, World};

const ASKED: &str = "main .check-in";

/// Moves the dog to a phase.
async fn moves_to(practice: &mut Practice, moss: Uuid, phase: &str) {
    practice.lead_signs_in().await;
    practice.lead.post(&format!("/dogs/{moss}/phase"), &[("phase", phase)]).await.expect(303);
}

async fn is_asked(ada: &mut Browser) -> bool {
    ada.get("/today").await.count(ASKED) == 1
}

#[tokio::test]
async fn a_maintaining_dogs_household_is_asked_once_a_fortnight() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    world.pass(Duration::days(20));
    assert!(!is_asked(&mut ada).await, "the dog is active");
    moves_to(&mut practice, moss, "maintaining").await;
    world.pass(Duration::days(13));
    assert!(!is_asked(&mut ada).await);
    world.pass(Duration::days(1));
    let today = ada.get("/today").await;
    assert_eq!(today.text(&format!("{ASKED} h2")), "Still going well?");
    // a day off is one of this as well
    ada.submit(&today, "main .not-today", &[]).await.expect(303);
    assert!(!is_asked(&mut ada).await, "not on a day off");
    world.pass(Duration::days(1));
    let today = ada.get("/today").await;
    let one_tap = format!("{ASKED} form");
    for _ in 0..2 {
        let said = ada.submit(&today, &one_tap, &[("answer", "still_good")]).await;
        said.redirects_to(&format!("/today?dog={moss}&notice=still-good"));
    }
    assert_eq!(world.database.count("select count(*) from check_in where answer = 'still_good'").await, 1);
    assert_eq!(world.database.count("select count(*) from message").await, 0);
    let id = today.attribute(&format!("{one_tap} [name=id]"), "value");
    let path = format!("/dogs/{moss}/check-in");
    ada.post(&path, &[("id", &id), ("answer", "slipping")]).await.expect(409);
    world.pass(Duration::days(13));
    assert!(!is_asked(&mut ada).await);
    world.pass(Duration::days(1));
    assert!(is_asked(&mut ada).await);
    practice.lead_signs_in().await;
    let card = practice.lead.get(&format!("/dogs/{moss}")).await.text("main aside");
    assert!(card.contains("Thu 16 Apr: still good Ada Okoro"), "{card}");
    assert!(!card.contains("No answer"), "{card}");
    world.pass(Duration::days(14));
    practice.lead_signs_in().await;
    let card = practice.lead.get(&format!("/dogs/{moss}")).await.text("main aside");
    assert!(card.contains("No answer to “still going well?” since Thu 16 Apr"), "{card}");
    // nobody is asked while everything rests
    let page = ada.get(&format!("/dogs/{moss}/not-coping")).await;
    ada.submit(&page, "main form", &[]).await.expect(303);
    assert!(!is_asked(&mut ada).await);
    moves_to(&mut practice, moss, "paused").await;
    assert!(!is_asked(&mut ada).await);
}

#[tokio::test]
async fn slipping_is_a_message_that_waits_for_the_trainer() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    moves_to(&mut practice, moss, "maintaining").await;
    world.pass(Duration::days(14));
    let today = ada.get("/today").await;
    let page = ada.get(&today.attribute(&format!("{ASKED} a"), "href")).await;
    let long = "a".repeat(2001);
    let refused = ada.submit(&page, "main form", &[("words", &long)]).await;
    assert!(!refused.expect(422).error_of("words").is_empty());
    for _ in 0..2 {
        let sent = ada.submit(&refused, "main form", &[("words", "He pulls at the gate again.")]).await;
        sent.redirects_to(&format!("/messages?dog={moss}&notice=slipping-said"));
    }
    let kept = "select count(*) from check_in where answer = 'slipping'";
    assert_eq!(world.database.count(kept).await, 1);
    assert_eq!(world.database.count("select count(*) from message where not from_trainer").await, 1);
    practice.lead_signs_in().await;
    let caseload = practice.lead.get("/caseload").await.text("main [data-row]");
    assert!(caseload.contains("It is slipping with Moss. He pulls at the gate again."), "{caseload}");
    assert!(!is_asked(&mut ada).await, "answered");
    // who is somebody else's may not
    let household = practice.household("Lund").await;
    practice.dog(household, "Wren").await;
    let mut bo = practice.owner(&world, household, "Bo Lund").await;
    bo.get(&format!("/dogs/{moss}/check-in")).await.expect(404);
    let answer = [("id", "00000000-0000-4000-8000-000000000001"), ("answer", "still_good")];
    bo.post(&format!("/dogs/{moss}/check-in"), &answer).await.expect(404);
    practice.lead.post(&format!("/dogs/{moss}/check-in"), &answer).await.expect(403);
    ada.post(&format!("/dogs/{moss}/check-in"), &answer[..1]).await.expect(422);
}

#[tokio::test]
async fn a_household_whose_work_is_done_comes_back_by_one_press() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    moves_to(&mut practice, moss, "graduated").await;
    let today = ada.get("/today").await;
    assert_eq!(today.text("h1"), "Moss has graduated");
    for _ in 0..2 {
        let sent = ada.submit(&today, "main .graduated form", &[]).await;
        sent.redirects_to(&format!("/messages?dog={moss}&notice=come-back-asked"));
    }
    let said = "select count(*) from message where body = 'We would like to come back with Moss.'";
    assert_eq!(world.database.count(said).await, 1);
    let today = ada.get("/today").await;
    assert_eq!(today.count("main .graduated form"), 0, "it is with the trainer");
    assert!(
        practice.lead.get("/caseload").await.text("main [data-row]").contains("We would like to come back")
    );
    practice.lead.post(&format!("/dogs/{moss}/come-back"), &[]).await.expect(403);
}

#[tokio::test]
async fn what_relapsed_opens_in_the_draft_at_the_last_sure_step() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    on_two_days(&world, &mut ada, moss).await;
    decides(&mut practice, moss, "move_on").await;
    on_two_days(&world, &mut ada, moss).await;
    decides(&mut practice, moss, "move_on").await;
    log(&mut ada, moss, FOUR_OF_TEN).await;
    moves_to(&mut practice, moss, "graduated").await;
    let path = format!("/dogs/{moss}/work-again");
    let overview = practice.lead.get(&format!("/dogs/{moss}")).await;
    assert_eq!(overview.count(&format!("main aside a[href='{path}']")), 1);
    let page = practice.lead.get(&path).await;
    let said = page.text("main .reopens");
    assert!(said.starts_with("Relapsed") && said.contains("Nose to hand"), "{said}");
    assert!(said.contains("From step 3,") && said.contains("back to step 2,"), "{said}");
    let published = "select count(*) from plan_version";
    let before = world.database.count(published).await;
    // what has changed since is read once more
    let stale = practice.lead.post(&path, &[("saw", "something else")]).await;
    assert!(stale.expect(422).text(".error-summary").contains("has changed since you opened this page"));
    assert_eq!(world.database.count("select count(*) from dog where phase = 'active'").await, 0);
    for notice in ["works-again", "works-again-as-is"] {
        let done = practice.lead.submit(&page, "main form.actions", &[]).await;
        done.redirects_to(&format!("/dogs/{moss}/plan/edit?notice={notice}"));
    }
    assert_eq!(world.database.count(published).await, before, "nothing is published by itself");
    assert_eq!(world.database.count("select count(*) from dog where phase = 'active'").await, 1);
    let step = "select s.position::bigint from plan_draft_item d join step s on s.id = d.step_id";
    assert_eq!(world.database.count(step).await, 2);
    let note =
        "select count(*) from plan_draft where note like '%back to%' and note not like '%back to%back to%'";
    assert_eq!(world.database.count(note).await, 1, "the household reads why, once");
    ada.get(&path).await.expect(404);
    ada.post(&path, &[]).await.expect(403);
}

#[tokio::test]
async fn what_was_sure_stays_and_what_was_never_sure_is_doubtful_after_four_weeks() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    on_two_days(&world, &mut ada, moss).await;
    moves_to(&mut practice, moss, "graduated").await;
    let path = format!("/dogs/{moss}/work-again");
    world.pass(Duration::days(60));
    practice.lead_signs_in().await;
    let page = practice.lead.get(&path).await;
    assert_eq!(page.count("main .reopens"), 0, "sure on its step, however long ago");
    moves_to(&mut practice, moss, "active").await;
    decides(&mut practice, moss, "move_on").await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "3")]).await;
    world.pass(Duration::days(28));
    practice.lead_signs_in().await;
    assert_eq!(practice.lead.get(&path).await.count("main .reopens"), 0, "practised of late");
    world.pass(Duration::days(1));
    practice.lead_signs_in().await;
    let said = practice.lead.get(&path).await.text("main .reopens");
    assert!(said.starts_with("Doubtful") && said.contains("back to step 1,"), "{said}");
}

#[tokio::test]
async fn the_first_plan_says_that_the_dog_becomes_active() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let page = practice.lead.get(&format!("/dogs/{moss}/plan/publish")).await;
    assert!(page.text("main form").contains("Publishing this plan moves the phase to active."));
    practice.publish_plan(moss, &["Nose to hand"]).await;
    let plan = practice.lead.get(&format!("/dogs/{moss}/plan?notice=plan-published-active")).await;
    assert!(plan.text(".flash").contains("has gone from settling in to active"));
    let page = practice.lead.get(&format!("/dogs/{moss}/plan/publish")).await;
    assert!(!page.text("main form").contains("moves the phase"));
}
