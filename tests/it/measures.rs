//! What is measured and not counted, as trainers and owners read it; the week; how practice goes.

use time::Duration;

use crate::incidents::{beginning, log, tell};
use crate::support::World;

#[tokio::test]
async fn three_easy_exposures_come_closer_and_one_reaction_backs_off() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Seen from far off"]).await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(page.contains("Nothing measured at this step yet."), "{page}");
    for metres in ["40", "45", "42"] {
        log(&mut ada, moss, &[("outcome_value", metres), ("looked", "loose")]).await;
        world.pass(Duration::hours(13));
    }
    practice.lead_signs_in().await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(page.contains("A little closer than 45 m next"), "{page}");
    assert!(page.contains("3 of 3, on 2 of 2 days") && page.contains("Common practice"), "{page}");
    let owner = ada.get("/progress").await.text("main");
    assert!(owner.contains("Your trainer will look at coming a little closer"), "{owner}");

    log(&mut ada, moss, &[("outcome_value", "41"), ("looked", "frozen")]).await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(page.contains("Back off") && page.contains("to 42 m or more"), "{page}");
    let owner = ada.get("/progress").await.text("main");
    assert!(owner.contains("Next time stay further away, to 42 m or more"), "{owner}");

    let told = tell(&mut ada, moss, &[("kind", "growl_or_snap"), ("towards", "child")]).await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(page.contains("A stop is open. Answer it before this goes on."), "{page} after {told}");
    assert!(!page.contains("Back off"), "while everything rests, nothing is advised: {page}");
}

#[tokio::test]
async fn the_week_is_laid_out_for_the_trainer_and_tied_to_a_habit_for_the_owner() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    practice.publish_plan(moss, &["Settle on a mat"]).await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await;
    let days = page.texts("main .table tbody tr");
    assert_eq!(days.len(), 7);
    assert!(days[0].starts_with("Monday"), "{days:?}");
    assert!(days[6].starts_with("Sunday") && days[6].contains("Rest"), "{days:?}");
    let sittings: usize = days.iter().map(|day| day.matches("Nose to hand").count()).sum();
    let asked = "select times_a_week::bigint from plan_item where name = 'Nose to hand' limit 1";
    assert_eq!(sittings as i64, world.database.count(asked).await);
    // from day to day the owner reads the same
    for day in 0..7 {
        let today = (3 + day) % 7; // the world begins on a Thursday
        let cards = ada.get("/today").await;
        let tied = cards.texts("main dd").iter().filter(|said| said.starts_with("for example")).count();
        let laid_out = days[today].matches("minute").count();
        assert_eq!(tied, laid_out, "{} on day {today}: {}", days[today], cards.text("main"));
        world.pass(Duration::days(1));
    }
}

#[tokio::test]
async fn how_practice_goes_is_said_to_trainers_alone() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    world.pass(Duration::days(14));
    log(&mut ada, moss, &[("attempts", "10"), ("left", "2"), ("minutes", "4"), ("rewarded", "6")]).await;
    world.pass(Duration::days(7));
    practice.lead_signs_in().await;
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    for words in [
        "Adherence",
        "1 of ",
        "Under half is done.",
        "Reinforcement rate",
        "1.5 a minute, over 1 counted sitting",
        "Markers paid",
        "6 of 8 (75 %",
    ] {
        assert!(page.contains(words), "{words} is not in {page}");
    }
    for path in ["/today", "/plan", "/progress"] {
        let owner = ada.get(path).await.text("main");
        assert!(!owner.contains("Adherence") && !owner.contains("arkers paid"), "{owner}");
    }
    let form = practice.lead.get(&format!("/dogs/{moss}")).await;
    let css = format!("main form[action='/dogs/{moss}/phase']");
    practice.lead.submit(&form, &css, &[("phase", "paused")]).await.expect(303);
    let page = practice.lead.get(&format!("/dogs/{moss}")).await.text("main");
    assert!(!page.contains("Adherence") && page.contains("Markers paid"), "{page}");
}

#[tokio::test]
async fn the_week_keeps_to_the_days_that_a_household_has() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let edit = format!("/dogs/{moss}/profile/edit/days");
    let page = practice.lead.get(&edit).await;
    assert_eq!(page.count("main input[name=days]"), 7);
    practice.lead.post(&edit, &[("days", "monday"), ("days", "friday")]).await.expect(303);
    let profile = practice.lead.get(&format!("/dogs/{moss}/profile")).await.text("main");
    assert!(profile.contains("Monday and Friday"), "{profile}");
    let days = practice.lead.get(&format!("/dogs/{moss}")).await.texts("main .table tbody tr");
    for (day, said) in days.iter().enumerate() {
        assert_eq!(said.contains("Rest"), ![0, 4].contains(&day), "{said}");
    }
    // the world begins on a Thursday
    let thursday = ada.get("/today").await.text("main");
    assert!(thursday.contains("Not a practice day"), "{thursday}");
    world.pass(Duration::days(1));
    let friday = ada.get("/today").await.text("main");
    assert!(friday.contains("exercise today") || friday.contains("exercises today"), "{friday}");
    practice.lead_signs_in().await;
    practice.lead.post(&edit, &[("days", "someday")]).await.expect(422);
    practice.lead.post(&edit, &[]).await.expect(303);
    let profile = practice.lead.get(&format!("/dogs/{moss}/profile")).await.text("main");
    assert!(!profile.contains("Monday and Friday"), "none ticked is not stated: {profile}");
}
