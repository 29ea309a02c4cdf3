//! The weather of a sitting: stated on its form, judged for the dog, shown on its page.

use crate::incidents::{EXERCISE, beginning};
use crate::support::{Answer, Browser, World};
use time::Duration;
use uuid::Uuid;

/// An exercise that winds a dog up.
const RUNNING: &str = "Moving search";

/// The form for an exercise of a dog's plan.
async fn form(phone: &mut Browser, dog: Uuid, exercise: &str) -> Answer {
    let choice = phone.get(&format!("/dogs/{dog}/log/new")).await;
    let links = choice.attributes("main .links a", "href");
    let names = choice.texts("main .links a b");
    let at = names.iter().position(|name| name == exercise).expect("the exercise");
    phone.get(&links[at]).await
}

/// Logs a sitting of the running exercise, and opens its page.
async fn run(phone: &mut Browser, dog: Uuid, fields: &[(&str, &str)]) -> Answer {
    let page = form(phone, dog, RUNNING).await;
    let fields: Vec<_> = [("clip", "as_planned")].iter().chain(fields).copied().collect();
    let sent = phone.submit(&page, &css(dog), &fields).await;
    sent.expect(303);
    phone.follow(sent).await
}

fn css(dog: Uuid) -> String {
    format!("main form[action='/dogs/{dog}/log']")
}

async fn world() -> (World, crate::support::Practice, Uuid, Browser) {
    let world = World::new().await;
    let (mut practice, moss, ada) = beginning(&world).await;
    practice.publish_plan(moss, &[RUNNING]).await;
    (world, practice, moss, ada)
}

#[tokio::test]
async fn hard_work_on_a_hot_day_is_a_stop_that_owner_and_trainer_read() {
    let (world, mut practice, moss, mut ada) = world().await;
    let read = run(&mut ada, moss, &[("air_c", "33,5"), ("humidity", "40"), ("in_sun", "yes")]).await;
    let card = read.text("main .watch");
    assert!(card.contains("It was warm for this") && card.contains("cool your dog"), "{card}");
    assert!(card.contains("running or exciting work and full sun"), "{card}");
    let said = read.text("main");
    assert!(said.contains("33.5 °C, 40 % humidity, full sun"), "{said}");
    assert!(said.contains("Cool first, transport second") && said.contains("back of your hand"), "{said}");
    assert!(!said.to_lowercase().contains("safe"), "{said}");
    let stops = "select count(*) from welfare_flag where rule = 'heat_at_work' and severity = 'stop'";
    assert_eq!(world.database.count(stops).await, 1);
    let caseload = practice.lead.get("/caseload").await;
    assert!(caseload.text("main .row").contains("Stop"), "{}", caseload.text("main .row"));
    let page = practice.lead.get(read.path()).await;
    let heat = page.text("main");
    assert!(heat.contains("Extreme danger for Moss, where a person would be at “extreme caution”"), "{heat}");
    assert!(heat.contains("Harder by arousing or running work and full sun."), "{heat}");
    assert!(heat.contains("Not stated: short nose or not, weight"), "{heat}");
}

#[tokio::test]
async fn one_word_for_the_weather_is_enough_and_none_raises_nothing() {
    let (world, mut practice, moss, mut ada) = world().await;
    let silent = run(&mut ada, moss, &[]).await;
    assert_eq!(silent.count("main .watch"), 0);
    assert!(!silent.texts("main h2").iter().any(|title| title == "Heat"), "nothing was asked for");
    assert!(practice.lead.get(silent.path()).await.text("main").contains("Heat not checked."));
    world.pass(Duration::days(2));
    let warm = run(&mut ada, moss, &[("felt", "warm")]).await;
    assert!(warm.text("main .watch").contains("it felt warm; nothing was measured"));
    let notices = "select count(*) from welfare_flag where rule = 'heat_at_work' and severity = 'notice'";
    assert_eq!(world.database.count(notices).await, 1);
    world.pass(Duration::days(2));
    let mild = run(&mut ada, moss, &[("air_c", "12"), ("humidity", "70")]).await;
    assert_eq!(mild.count("main .watch"), 0);
    let said = mild.text("main");
    assert!(said.contains("mild days") && !said.to_lowercase().contains("safe"), "{said}");
    practice.lead_signs_in().await;
    assert!(practice.lead.get(mild.path()).await.text("main").contains("16.9 °C"));
    assert_eq!(world.database.count("select count(*) from welfare_flag").await, 1);
}

#[tokio::test]
async fn what_is_known_of_the_dog_is_counted() {
    let (world, mut practice, moss, mut ada) = world().await;
    let health = format!("/dogs/{moss}/profile/edit/health");
    let page = practice.lead.get(&health).await;
    let action = format!("main form[action='{health}']");
    practice
        .lead
        .submit(&page, &action, &[("short_nosed", "yes"), ("body_condition", "7")])
        .await
        .expect(303);
    let page = practice.lead.get(&format!("/dogs/{moss}/weights")).await;
    let weighed = [("on", "2026-03-10"), ("kg", "52")];
    let action = format!("main form[action='/dogs/{moss}/weights']");
    practice.lead.submit(&page, &action, &weighed).await.expect(303);
    let read = run(&mut ada, moss, &[("air_c", "17"), ("humidity", "50")]).await;
    let page = practice.lead.get(read.path()).await.text("main");
    assert!(
        page.contains("Harder by short nose, very heavy, over ideal weight and arousing or running"),
        "{page}"
    );
    let cautions = "select count(*) from welfare_flag where rule = 'heat_at_work' and severity = 'caution'";
    assert_eq!(world.database.count(cautions).await, 1);
}

#[tokio::test]
async fn weather_that_cannot_be_is_asked_again_beside_its_field() {
    let (world, _practice, moss, mut ada) = world().await;
    let page = form(&mut ada, moss, EXERCISE).await;
    let typed =
        [("air_c", "88"), ("humidity", "140"), ("felt", "hot"), ("in_sun", "yes"), ("note", "By the pond.")];
    let again = ada.submit(&page, &css(moss), &typed).await;
    again.expect(422);
    assert!(again.error_of("air_c").contains("Air: enter a number from -40 to 60."));
    assert!(again.error_of("humidity").contains("Humidity: enter a whole number from 0 to 100."));
    assert_eq!(again.attributes("input[name=air_c], input[name=humidity]", "value"), ["88", "140"]);
    assert_eq!(again.attributes("input[name=felt][checked]", "value"), ["hot"]);
    assert_eq!(again.count("input[name=in_sun][checked]"), 1);
    let alone = [("air_c", ""), ("humidity", "40"), ("felt", "hot")];
    let again = ada.submit(&again, &css(moss), &alone).await;
    assert!(again.expect(422).error_of("air_c").contains("leave the humidity out"));
    assert_eq!(world.database.count("select count(*) from practice_log").await, 0);
    let cold = [("air_c", "−4,5"), ("humidity", "0")];
    ada.submit(&again, &css(moss), &cold).await.expect(303);
    let kept =
        "select count(*) from practice_log where air_c = -4.5 and humidity = 0 and felt = 'hot' and in_sun
                and hot_ground is null";
    assert_eq!(world.database.count(kept).await, 1);
}

#[tokio::test]
async fn the_same_sitting_with_other_weather_is_another_one() {
    let (world, _practice, moss, mut ada) = world().await;
    let page = form(&mut ada, moss, EXERCISE).await;
    for (weather, status) in [
        ([("felt", "warm"), ("hot_ground", "yes")], 303),
        ([("felt", "warm"), ("hot_ground", "yes")], 303),
        ([("felt", "hot"), ("hot_ground", "yes")], 409),
        ([("felt", "warm"), ("in_sun", "yes")], 409),
    ] {
        ada.submit(&page, &css(moss), &weather).await.expect(status);
    }
    ada.submit(&page, &css(moss), &[]).await.expect(409);
    assert_eq!(world.database.count("select count(*) from practice_log").await, 1);
}

#[tokio::test]
async fn as_planned_stays_one_tap() {
    let world = World::new().await;
    let (_practice, _moss, mut ada) = beginning(&world).await;
    let today = ada.get("/today").await;
    assert_eq!(today.count("main form[action$='/log'] input[name=felt]"), 0);
    let tap = "main form[action$='/log']";
    ada.submit(&today, tap, &[("left", "1")]).await.expect(303);
    let silent =
        "select count(*) from practice_log where capture = 'one_tap' and air_c is null and felt is null
                  and in_sun is null";
    assert_eq!(world.database.count(silent).await, 1);
}
