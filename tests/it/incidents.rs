//! Bites, growls and running off as they are told: twice, late, out of order, and what then holds until it is answered.

use crate::support::builders::id_in;
use crate::support::builders::sent_to;
use crate::support::{Browser, Practice, World};
use time::Duration;
use uuid::Uuid;

/// The exercise of the plan.
pub const EXERCISE: &str = "Nose to hand";

/// A practice with a dog that has a plan, and its owner.
pub async fn beginning(world: &World) -> (Practice, Uuid, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let ada = practice.owner(world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &[EXERCISE]).await;
    (practice, moss, ada)
}

/// Tells an encounter; gives its id. What is asked for after teeth is "not sure" unless it is said.
pub async fn tell(phone: &mut Browser, dog: Uuid, fields: &[(&str, &str)]) -> Uuid {
    let form = phone.get(&format!("/dogs/{dog}/encounters/new")).await;
    let css = format!("main form[action='/dogs/{dog}/encounters']");
    let unsaid = |name: &str| !fields.iter().any(|(said, _)| *said == name);
    let not_sure = ["towards", "skin_broken"].into_iter().filter(|name| unsaid(name));
    let fields: Vec<_> = fields.iter().copied().chain(not_sure.map(|name| (name, "not_sure"))).collect();
    id_in(&sent_to(phone.submit(&form, &css, &fields).await.expect(303)), "encounters")
}

/// Logs a sitting in detail.
pub async fn log(phone: &mut Browser, dog: Uuid, fields: &[(&str, &str)]) {
    let css = format!("main form[action='/dogs/{dog}/log']");
    let mut form = phone.visit(&format!("/dogs/{dog}/log/new")).await;
    if form.count(&css) == 0 {
        let links = form.attributes("main a", "href");
        let detail = links.into_iter().find(|href| href.contains("/log/new?item=")).expect("a log form");
        form = phone.get(&detail).await;
    }
    phone.submit(&form, &css, fields).await.expect(303);
}

async fn second_incidents(world: &World) -> i64 {
    world.database.count("select count(*) from welfare_flag where rule = 'second_incident'").await
}

#[tokio::test]
async fn a_bite_told_with_the_sitting_and_by_itself_is_one() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("bite", "yes")]).await;
    tell(&mut ada, moss, &[("kind", "bite")]).await;
    assert_eq!(second_incidents(&world).await, 0);
    tell(&mut ada, moss, &[("kind", "bite"), ("note", "Another one, in the kitchen.")]).await;
    assert_eq!(second_incidents(&world).await, 1, "two on one day are two");

    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "bite")]).await;
    log(&mut ada, moss, &[("bite", "yes")]).await;
    assert_eq!(second_incidents(&world).await, 0, "the other way round");
    world.pass(Duration::days(2));
    log(&mut ada, moss, &[("bite", "yes")]).await;
    assert_eq!(second_incidents(&world).await, 1);
}

#[tokio::test]
async fn a_growl_beside_a_bite_of_its_day_is_a_second_one_whichever_was_told_first() {
    for bite_first in [true, false] {
        let world = World::new().await;
        let (_practice, moss, mut ada) = beginning(&world).await;
        let growl = [("kind", "growl_or_snap")];
        if bite_first {
            log(&mut ada, moss, &[("bite", "yes")]).await;
            tell(&mut ada, moss, &growl).await;
        } else {
            tell(&mut ada, moss, &growl).await;
            log(&mut ada, moss, &[("bite", "yes")]).await;
        }
        assert_eq!(second_incidents(&world).await, 1, "bite first: {bite_first}");
    }
}

#[tokio::test]
async fn an_incident_told_late_stands_beside_the_later_one() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "growl_or_snap")]).await;
    tell(&mut ada, moss, &[("kind", "bite"), ("on", "2026-03-08"), ("at", "10:00")]).await;
    assert_eq!(second_incidents(&world).await, 1);
    let seen = "select count(*) from welfare_flag where seen like '%with another one 4 days after.'";
    assert_eq!(world.database.count(seen).await, 1);
}

#[tokio::test]
async fn a_bite_stays_in_view_behind_many_sittings() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("bite", "yes")]).await;
    for _ in 0..61 {
        world.pass(Duration::hours(6));
        log(&mut ada, moss, &[]).await;
    }
    tell(&mut ada, moss, &[("kind", "growl_or_snap")]).await;
    assert_eq!(second_incidents(&world).await, 1);
    log(&mut ada, moss, &[("bite", "yes")]).await;
    assert_eq!(second_incidents(&world).await, 2);
}

#[tokio::test]
async fn an_answered_bite_rests_though_something_else_is_open() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "bite"), ("towards", "dog"), ("skin_broken", "no")]).await;
    let top = "select count(*) from dog_summary where bite_open and not trouble_open";
    assert_eq!(world.database.count(top).await, 1);
    let reasons = practice.lead.get("/caseload").await.text("main .row");
    assert!(reasons.contains("Moss bit"), "{reasons}");
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await;
    let flag = welfare.attributes("main .watch .actions a", "href").remove(0);
    let page = practice.lead.get(&flag).await;
    practice.lead.submit(&page, "main form", &[("answer", "Rang her. Muzzle and lead.")]).await.expect(303);
    log(&mut ada, moss, &[("attempts", "6"), ("left", "1"), ("looked", "frozen"), ("took_food", "refused")])
        .await;
    let open = "select open_cautions::bigint + open_stops from dog_summary where not bite_open";
    assert!(world.database.count(open).await > 0, "something else is open");
    let pressing = practice.lead.get("/caseload").await.texts("main h2");
    assert!(!pressing.iter().any(|h| h.starts_with("Before anything else")), "{pressing:?}");
}

#[tokio::test]
async fn what_the_dog_was_on_is_kept_and_makes_it_another_encounter() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    let path = format!("/dogs/{moss}/encounters");
    let id = Uuid::new_v4().to_string();
    let ran = |line: &'static str, at: &'static str| {
        vec![("id", id.clone()), ("kind", "bolted".into()), ("line", line.into()), ("at", at.to_owned())]
    };
    let mut send = async |fields: Vec<(&'static str, String)>, status: u16| {
        let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (*n, v.as_str())).collect();
        ada.post(&path, &fields).await.expect(status);
    };
    send(ran("none", "09:00"), 303).await;
    send(ran("none", "09:00"), 303).await;
    send(ran("none", "09:10"), 409).await;
    send(ran("long_line", "09:00"), 409).await;
    let kept = world.database.count("select count(*) from encounter where line = 'none'").await;
    assert_eq!(kept, 1);
    let page = ada.get(&format!("{path}/{id}")).await;
    assert!(page.texts("main dt").contains(&"Lead or line".to_owned()));
}

#[tokio::test]
async fn bolting_takes_only_the_permissions_of_before() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let form = practice.lead.get(&format!("/dogs/{moss}/places/new")).await;
    practice
        .lead
        .submit(
            &form,
            &format!("main form[action='/dogs/{moss}/places/new']"),
            &[("name", "Orchard"), ("distraction", "2")],
        )
        .await
        .expect(303);
    let place: Uuid = sqlx::query_scalar("select id from place")
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("a place");
    let grant = format!("/dogs/{moss}/places/{place}/off-lead");
    practice.lead.post(&grant, &[]).await.expect(303);
    practice.lead.post(&grant, &[]).await.expect(303);
    let holds = "select count(*) from off_lead_permission where lapsed_at is null";
    assert_eq!(world.database.count(holds).await, 1, "granted twice, it holds once");
    tell(&mut ada, moss, &[("kind", "bolted"), ("on", "2026-03-10"), ("at", "10:00")]).await;
    assert_eq!(world.database.count(holds).await, 1, "it was before the permission");
    world.pass(Duration::minutes(5));
    tell(&mut ada, moss, &[("kind", "bolted")]).await;
    assert_eq!(world.database.count(holds).await, 0);
}

#[tokio::test]
async fn a_dog_that_comes_back_is_not_quiet_at_once() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[]).await;
    let phase = format!("/dogs/{moss}/phase");
    practice.lead.post(&phase, &[("phase", "paused")]).await.expect(303);
    world.pass(Duration::days(20));
    practice.lead_signs_in().await;
    practice.lead.post(&phase, &[("phase", "active")]).await.expect(303);
    let quiet =
        async |lead: &mut Browser| lead.get("/caseload").await.text("main").contains("Nothing logged for");
    assert!(!quiet(&mut practice.lead).await, "back today");
    world.pass(Duration::days(6));
    practice.lead_signs_in().await;
    practice.lead.post(&phase, &[("phase", "active")]).await.expect(303);
    world.pass(Duration::days(9));
    practice.lead_signs_in().await;
    assert!(quiet(&mut practice.lead).await, "saying the same again begins nothing");
}

#[tokio::test]
async fn not_coping_rests_the_exercises_and_waits_for_an_answer() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    practice.publish_plan(moss, &["Timing the yes"]).await;
    assert!(ada.get("/today").await.text("main").contains(EXERCISE));
    let page = ada.get(&format!("/dogs/{moss}/not-coping")).await;
    let told = ada.submit(&page, "main form", &[("note", "It is too much.")]).await;
    let heard = ada.follow(told).await.text("main");
    assert!(heard.contains("only safety and health stand before it"), "{heard}");
    let today = ada.get("/today").await;
    assert_eq!(
        today.count("main form[action$='/log']") + today.count("main details.also"),
        0,
        "nothing is offered"
    );
    assert_eq!(today.texts("main .rests li"), [EXERCISE, "Timing the yes"]);
    let row = practice.lead.get("/caseload").await.texts("main .row-why")[0].clone();
    assert!(row.starts_with("Not coping") && !row.contains("Something happened"), "{row}");
    let talk = format!("/dogs/{moss}/messages");
    let page = practice.lead.get(&talk).await;
    practice
        .lead
        .submit(&page, "main form[action$='/messages']", &[("body", "I will ring at five.")])
        .await
        .expect(303);
    assert!(practice.lead.get("/caseload").await.texts("main .row-why")[0].starts_with("Not coping"));
    let page = practice.lead.get(&talk).await;
    let flag = page.attributes("main .watch .actions a", "href").remove(0);
    let page = practice.lead.get(&flag).await;
    practice.lead.submit(&page, "main form", &[("answer", "Rang. One thing a day.")]).await.expect(303);
    assert_eq!(practice.lead.get(&talk).await.count("main .watch"), 0);
    assert!(ada.get("/today").await.count("main form[action$='/log']") > 0);
}

#[tokio::test]
async fn a_row_of_the_log_says_what_came_of_it_and_then_what_stands_out() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let fields = [
        ("attempts", "10"),
        ("left", "1"),
        ("looked", "loose"),
        ("took_food", "snatched"),
        ("recovery", "not_yet"),
    ];
    log(&mut ada, moss, &fields).await;
    let page = practice.lead.get(&format!("/dogs/{moss}/log")).await;
    let result = page.text(".log .what p");
    assert!(result.ends_with("9 of 10 met"), "{result}");
    let rest = page.text(".log .what small");
    assert_eq!(rest, "New · Snatched the food, not calm yet when this was logged. Ada Okoro");
}
