//! Open flags: which is read first, one rule that speaks again and again, and what a stop holds back.

use time::Duration;

use crate::incidents::{beginning, log, tell};
use crate::support::World;

const FROZEN: &[(&str, &str)] = &[("looked", "frozen"), ("took_food", "refused")];

async fn open(world: &World) -> i64 {
    world.database.count("select count(*) from welfare_flag where state = 'open'").await
}

#[tokio::test]
async fn teeth_stand_before_a_newer_stop_about_the_work() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "bite"), ("towards", "child"), ("skin_broken", "yes")]).await;
    world.pass(Duration::hours(2));
    tell(&mut ada, moss, &[("kind", "bolted"), ("line", "none")]).await;
    let reason = practice.lead.get("/caseload").await.text("main .row");
    assert!(reason.contains("bit a child"), "{reason}");
    let cards = ada.get("/today").await.texts("main .watch h2");
    assert!(cards[0].contains("keep everyone safe first"), "{cards:?}");
    let stops = practice.lead.get(&format!("/dogs/{moss}")).await.texts("main .stop-open");
    assert!(stops[0].contains("Bite") && stops[1].contains("Bolted"), "{stops:?}");
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn one_rule_is_shown_once_and_answered_once_up_to_what_was_seen() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    for _ in 0..3 {
        log(&mut ada, moss, FROZEN).await;
        world.pass(Duration::days(1));
    }
    let today = ada.get("/today").await;
    assert_eq!(today.count("main .watch"), 1);
    let card = today.text("main .watch");
    assert!(card.contains("Also on Thu 12 Mar and Fri 13 Mar."), "{card}");
    practice.lead_signs_in().await;
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    assert_eq!(welfare.count("main article.watch"), 1);
    let flag = welfare.attributes("main .watch .actions a", "href").remove(0);
    let page = practice.lead.get(&flag).await;
    let text = page.text("main");
    assert!(text.contains("Raised 3 times since Thu 12 Mar"), "{text}");
    assert!(text.contains("Answer all 3"), "{text}");
    assert_eq!(page.count("main .times a[href*='/log/']"), 3);
    assert!(text.contains("Whom to ring") && text.contains("Ada Okoro"), "{text}");
    log(&mut ada, moss, FROZEN).await;
    practice
        .lead
        .submit(&page, "main form", &[("answer", "Rang her: back to the garden.")])
        .await
        .expect(303);
    assert_eq!(open(&world).await, 1, "what was raised meanwhile stays open");
    let answered = "select count(*) from welfare_flag where answer = 'Rang her: back to the garden.'";
    assert_eq!(world.database.count(answered).await, 3);
    let noted = "select count(*) from audit_event where action = 'answer_flag'";
    assert_eq!(world.database.count(noted).await, 3);
    practice
        .lead
        .submit(&page, "main form", &[("answer", "Rang her: back to the garden.")])
        .await
        .expect(303);
    practice.lead.submit(&page, "main form", &[("answer", "Something else.")]).await.expect(422);
    assert_eq!(open(&world).await, 1);
}

#[tokio::test]
async fn an_answer_settles_no_other_rule_and_no_other_dog() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, FROZEN).await;
    tell(&mut ada, moss, &[("kind", "bolted"), ("line", "none")]).await;
    let ids: Vec<uuid::Uuid> = sqlx::query_scalar("select id from welfare_flag order by rule")
        .fetch_all(&mut world.database.as_superuser().await)
        .await
        .expect("the flags");
    let (bolted, other) = (ids[0].to_string(), ids[1].to_string());
    let fields = [("answer", "She is home."), ("saw", other.as_str()), ("saw", "nonsense")];
    practice.lead.post(&format!("/flags/{bolted}/answer"), &fields).await.expect(422);
    practice.lead.post(&format!("/flags/{bolted}/answer"), &fields[..2]).await.expect(303);
    assert_eq!(open(&world).await, 1);
}

#[tokio::test]
async fn an_open_stop_stands_above_a_decision_and_holds_the_harder_step_back() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    for _ in 0..2 {
        log(&mut ada, moss, &[("attempts", "12"), ("left", "0")]).await;
        world.pass(Duration::days(1));
    }
    practice.lead_signs_in().await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await;
    let press = "main form[action*='/decide/']:has(button.main)";
    let decide = page.attribute(press, "action");
    assert_eq!(page.attribute(&format!("{press} input[name=choice]"), "value"), "move_on");
    let choices = practice.lead.get(&decide).await.attributes("main input[name=choice]", "value");
    assert_eq!(choices[0], "move_on");
    let row = practice.lead.get("/caseload").await.attributes("main .row-act a", "href");
    assert_eq!(row, std::slice::from_ref(&decide), "the caseload leads to the decision itself");
    tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    let held = practice.lead.get(&decide).await;
    assert_eq!(
        held.attributes("main input[name=choice]", "value").last().map(String::as_str),
        Some("move_on")
    );
    assert!(held.attribute("main .stop-open a", "href").starts_with("/flags/"));
    assert!(!held.text("main").contains("Likely ready"));
    let page = practice.lead.get(&format!("/dogs/{moss}")).await;
    assert_eq!(page.count("main form[action*='/decide/'], main a.main[href*='/decide/']"), 0);
}

#[tokio::test]
async fn a_dog_that_ran_off_is_said_beside_an_owner_who_is_not_coping() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let page = ada.get(&format!("/dogs/{moss}/not-coping")).await;
    ada.submit(&page, "main form", &[]).await.expect(303);
    let row = practice.lead.get("/caseload").await.text("main .row-why");
    assert!(row.starts_with("Not coping") && !row.contains("Something happened"), "{row}");
    tell(&mut ada, moss, &[("kind", "bolted")]).await;
    let row = practice.lead.get("/caseload").await.text("main .row-why");
    assert!(row.starts_with("Not coping") && row.contains("Something happened today"), "{row}");
}

#[tokio::test]
async fn an_open_flag_is_answered_however_many_are_open_besides() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "bolted")]).await;
    let statement = "insert into welfare_flag select (jsonb_populate_record(f, jsonb_build_object(
           'id', gen_random_uuid(), 'subject_id', gen_random_uuid(), 'rule', 'vet_now', 'severity', 'stop'))).*
         from welfare_flag f, generate_series(1, 201)";
    sqlx::raw_sql(statement).execute(&mut world.database.as_superuser().await).await.expect("raises many");
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    assert_eq!(welfare.count("main article.watch"), 2, "{}", welfare.text("main"));
    let links = welfare.attributes("main .watch .actions a", "href");
    let page = practice.lead.get(&links[1]).await;
    assert_eq!(page.count("main form[action$='/answer']"), 1, "{}", page.text("main"));
}
