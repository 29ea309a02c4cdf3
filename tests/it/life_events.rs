//! What goes on in a dog's life: told by both sides, changed, taken out; and what lets the work rest.

use time::Duration;
use uuid::Uuid;

use crate::support::{Browser, Practice, World};

async fn beginning(world: &World) -> (Practice, Uuid, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let ada = practice.owner(world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["A look at you"]).await;
    (practice, moss, ada)
}

async fn tell(browser: &mut Browser, dog: Uuid, fields: &[(&str, &str)]) {
    let path = format!("/dogs/{dog}/life");
    let page = browser.get(&path).await;
    let told = browser.submit(&page, &format!("main form[action='{path}']"), fields).await;
    told.redirects_to(&format!("{path}?notice=life-kept"));
}

/// What the caseload says of the one dog.
async fn why(practice: &mut Practice) -> String {
    practice.lead_signs_in().await;
    practice.lead.get("/caseload").await.text("main .row-why")
}

#[tokio::test]
async fn while_a_dog_is_away_its_silence_is_no_news() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    world.pass(Duration::days(20));
    assert!(why(&mut practice).await.contains("Nothing logged for 20 days"));
    // 1 April; away from the day before to the 10th
    tell(&mut ada, moss, &[("kind", "holiday"), ("first_day", "2026-03-31"), ("last_day", "2026-04-10")])
        .await;
    let said = why(&mut practice).await;
    assert!(said.contains("Away until 10 Apr") && !said.contains("Nothing logged"), "{said}");
    let today = ada.get("/today").await;
    assert_eq!(today.text("h1"), "Nothing is expected");
    assert!(today.text("main .lead").contains("Moss is away until 10 Apr."));
    assert!(today.text("main details.also").contains("A look at you"), "it can still be logged");
    let plan = ada.get("/plan").await.text("main .watch");
    assert!(plan.contains("These rest for now: A look at you."), "{plan}");
    assert!(ada.get("/progress").await.text("main").contains("It rests for now; Today says why."));
    assert_eq!(today.count("main form.not-today"), 0);
    world.pass(Duration::days(9));
    assert!(why(&mut practice).await.contains("Away until today"));
    world.pass(Duration::days(1));
    let said = why(&mut practice).await;
    assert!(!said.contains("Nothing logged") && !said.contains("Away"), "back since today: {said}");
    assert_ne!(ada.get("/today").await.text("h1"), "Nothing is expected");
    world.pass(Duration::days(20));
    assert!(
        why(&mut practice).await.contains("Nothing logged for 20 days"),
        "counted from the day they were back"
    );
}

#[tokio::test]
async fn what_waits_waits_while_a_dog_is_away() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "holiday"), ("first_day", "2026-03-12")]).await;
    let page = ada.get("/messages").await;
    ada.submit(&page, "main form:has(textarea)", &[("body", "May she swim in the sea?")]).await.expect(303);
    assert!(why(&mut practice).await.contains("May she swim in the sea?"));
}

#[tokio::test]
async fn an_illness_without_an_end_rests_for_four_weeks_and_can_be_put_right_or_taken_out() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(
        &mut practice.lead,
        moss,
        &[("kind", "illness"), ("first_day", "2026-03-12"), ("note", "Vet knows.")],
    )
    .await;
    world.pass(Duration::days(4));
    assert!(why(&mut practice).await.contains("Ill or hurt since Thursday"));
    world.pass(Duration::days(23));
    assert!(why(&mut practice).await.contains("Ill or hurt since 12 Mar"), "the 28th day");
    world.pass(Duration::days(1));
    assert!(!why(&mut practice).await.contains("Ill or hurt"), "then silence is heard again");
    let list = ada.get(&format!("/dogs/{moss}/life")).await;
    assert!(list.text("main").contains("Vet knows."), "the household reads it");
    let one = list.attribute("main .links a", "href");
    let page = ada.get(&one).await;
    let form = format!("main form[action='{one}']");
    assert!(
        ada.submit(&page, &form, &[("last_day", "2026-03-11")])
            .await
            .expect(422)
            .error_of("last_day")
            .contains("before the first day")
    );
    ada.submit(&page, &form, &[("last_day", "2026-04-20")]).await.expect(303);
    assert!(why(&mut practice).await.contains("Ill or hurt until 20 Apr"));
    ada.submit(&ada.clone().get(&one).await, "main form[action$='/remove']", &[]).await.expect(303);
    let said = why(&mut practice).await;
    assert!(said.contains("Nothing logged for 28 days"), "as if it had not been told: {said}");
    assert_eq!(world.database.count("select count(*) from life_event where removed_at is not null").await, 1);
    ada.get(&one).await.expect(404);
    ada.post(&one, &[("kind", "move"), ("first_day", "2026-04-01")]).await.expect(404);
    ada.post(&format!("{one}/remove"), &[]).await.expect(404);
    assert_eq!(ada.get(&format!("/dogs/{moss}/life")).await.count("main .links a"), 0);
}

#[tokio::test]
async fn only_being_away_ill_or_in_season_lets_the_work_rest() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    for kind in ["medicine", "neutering", "move", "fireworks", "other"] {
        tell(&mut ada, moss, &[("kind", kind), ("first_day", "2026-03-12")]).await;
    }
    assert_ne!(ada.get("/today").await.text("h1"), "Nothing is expected");
    world.pass(Duration::days(20));
    assert!(why(&mut practice).await.contains("Nothing logged for 20 days"));
    let profile = practice.lead.get(&format!("/dogs/{moss}/profile")).await.text("main aside");
    assert!(profile.contains("Moved house") && profile.contains("Told by Ada Okoro"), "{profile}");
    let progress = ada.get("/progress").await.text("main");
    assert!(progress.contains("We moved"), "{progress}");
}

#[tokio::test]
async fn a_season_that_was_told_ahead_begins_on_its_day_where_the_dog_lives() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(&mut ada, moss, &[("kind", "season"), ("first_day", "2026-03-14"), ("last_day", "2026-04-04")])
        .await;
    assert!(!why(&mut practice).await.contains("In season"));
    let mut raw = world.database.as_superuser().await;
    // 21:00 in London on the 13th is the 14th in Auckland
    world.pass(Duration::hours(36) - Duration::minutes(30));
    assert!(!why(&mut practice).await.contains("In season"));
    sqlx::query("update household set zone = 'Pacific/Auckland'")
        .execute(&mut raw)
        .await
        .expect("moves them");
    assert!(why(&mut practice).await.contains("In season until 4 Apr"));
}

#[tokio::test]
async fn days_of_rest_ask_for_nothing() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    // published on Thursday 12 March; looked at on Wednesday 8 April, after three whole weeks and a bit
    world.pass(Duration::days(27));
    practice.lead_signs_in().await;
    let page = format!("/dogs/{moss}");
    let planned = |text: String| -> i64 {
        let (_, rest) = text.split_once(" of ").expect("how much of how much");
        rest.split(' ').next().and_then(|n| n.parse().ok()).expect("how much was planned")
    };
    let before = planned(practice.lead.get(&page).await.texts("main dl.stack dd")[0].clone());
    tell(&mut ada, moss, &[("kind", "holiday"), ("first_day", "2026-03-16"), ("last_day", "2026-03-29")])
        .await;
    let after = planned(practice.lead.get(&page).await.texts("main dl.stack dd")[0].clone());
    assert!(after > 0 && after * 2 < before + 2, "two of three weeks rested: {before}, then {after}");
    tell(&mut ada, moss, &[("kind", "illness"), ("first_day", "2026-03-01"), ("last_day", "2026-04-08")])
        .await;
    let text = practice.lead.get(&page).await.text("main");
    assert!(!text.contains("Adherence"), "nothing was asked for");
}

#[tokio::test]
async fn what_cannot_be_comes_again_and_other_people_s_dogs_are_out_of_reach() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let path = format!("/dogs/{moss}/life");
    let before = world.database.fingerprint().await;
    let answer = ada.post(&path, &[("note", "Sea air.")]).await;
    answer.expect(422);
    assert!(!answer.error_of("kind").is_empty() && !answer.error_of("first_day").is_empty());
    assert_eq!(answer.text("#f-note").trim(), "Sea air.");
    let far = [("kind", "holiday"), ("first_day", "2028-01-01")];
    assert!(ada.post(&path, &far).await.expect(422).error_of("first_day").contains("a year ahead"));
    assert_eq!(world.database.fingerprint().await, before);
    // twice is once; the same id with other content is refused
    let page = ada.get(&path).await;
    let form = format!("main form[action='{path}']");
    let told = [("kind", "holiday"), ("first_day", "2026-03-12")];
    for _ in 0..2 {
        ada.submit(&page, &form, &told).await.expect(303);
    }
    ada.submit(&page, &form, &[("kind", "move"), ("first_day", "2026-03-12")]).await.expect(409);
    assert_eq!(world.database.count("select count(*) from life_event").await, 1);
    let one = ada.get(&path).await.attribute("main .links a", "href");
    let elsewhere = practice.household("Lund").await;
    let wren = practice.dog(elsewhere, "Wren").await;
    let mut bo = practice.owner(&world, elsewhere, "Bo Lund").await;
    for refused in [&path, &one] {
        bo.get(refused).await.expect(404);
        bo.post(refused, &told).await.expect(404);
    }
    // nor through a dog of their own
    let id = one.rsplit('/').next().expect("an id");
    bo.post(&format!("/dogs/{wren}/life/{id}"), &told).await.expect(404);
    bo.post(&format!("/dogs/{wren}/life/{id}/remove"), &[]).await.expect(404);
}

#[tokio::test]
async fn two_who_put_one_thing_right_overwrite_nobody() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    tell(
        &mut ada,
        moss,
        &[("kind", "medicine"), ("first_day", "2026-03-10"), ("note", "Half a tablet.\nWith food.")],
    )
    .await;
    let list = ada.get(&format!("/dogs/{moss}/life")).await;
    let path = list.attribute("main .links a", "href");
    let (hers, theirs) = (ada.get(&path).await, practice.lead.get(&path).await);
    let kept = format!("/dogs/{moss}/life?notice=life-kept");
    ada.submit(&hers, "main form.form", &[("note", "A whole tablet.")]).await.redirects_to(&kept);
    let wrong = [("last_day", "2026-03-01"), ("note", "Half a tablet, mornings.")];
    let wrong = practice.lead.submit(&theirs, "main form.form", &wrong).await;
    assert!(wrong.expect(422).error_of("last_day").contains("before the first day"));
    let late = practice.lead.submit(&wrong, "main form.form", &[("last_day", "")]).await;
    assert!(late.expect(422).error_of("kind").contains("Somebody changed this since you opened it."));
    assert_eq!(late.text("[name=note]"), "Half a tablet, mornings.", "nothing typed is lost");
    assert!(late.text("main").contains("A whole tablet."), "and theirs is shown");
    assert!(ada.get(&path).await.text("[name=note]").contains("A whole"), "the first stands");
    practice.lead.submit(&late, "main form.form", &[]).await.redirects_to(&kept);
    practice.lead.submit(&late, "main form.form", &[]).await.redirects_to(&kept);
    assert_eq!(practice.lead.get(&path).await.text("[name=note]"), "Half a tablet, mornings.");
    // who prepares a lesson reads of it
    let lessons = practice.lead.get(&format!("/dogs/{moss}/lessons")).await.text("#prepare");
    assert!(lessons.contains("Half a tablet, mornings."), "{lessons}");
}
