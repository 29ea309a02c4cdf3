//! Counts from sitting to sitting: the figures behind a verdict, moving on, slipping, and going back to what was sure.

use time::Duration;
use uuid::Uuid;

use crate::incidents::{beginning, log};
use crate::rebuild::is_built_anew;
use crate::support::{Browser, Practice, World};

const TEN_OF_TEN: &[(&str, &str)] = &[("attempts", "10"), ("left", "0")];
const FOUR_OF_TEN: &[(&str, &str)] = &[("attempts", "10"), ("left", "6")];

/// What the watch for decline says of itself.
const WATCH: &str = "is called back wrongly about once in";

/// A sitting a day.
async fn on_two_days(world: &World, ada: &mut Browser, moss: Uuid) {
    for _ in 0..2 {
        world.pass(Duration::days(1));
        log(ada, moss, TEN_OF_TEN).await;
    }
}

/// Decides on the dog's first exercise and publishes what came of it.
pub async fn decides(practice: &mut Practice, moss: Uuid, choice: &str) {
    practice.lead_signs_in().await;
    let overview = practice.lead.get(&format!("/dogs/{moss}")).await;
    let decide = overview.attributes("main a[href*='/decide/']", "href").remove(0);
    let page = practice.lead.get(&decide).await;
    let fields = [("choice", choice), ("reason", "seen_in_lesson")];
    let decided = practice.lead.submit(&page, "main form", &fields).await;
    decided.redirects_to(&format!("/dogs/{moss}/plan/publish?notice=step-moved"));
    practice.publish_plan(moss, &[]).await;
}

async fn overview(practice: &mut Practice, moss: Uuid) -> String {
    practice.lead_signs_in().await;
    practice.lead.get(&format!("/dogs/{moss}")).await.text("main")
}

#[tokio::test]
async fn the_figures_stand_behind_why() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    on_two_days(&world, &mut ada, moss).await;
    let page = overview(&mut practice, moss).await;
    for words in [
        "Likely ready",
        "20 of 20 met; the true share is likely between 84 % and 100 % (95 % Wilson interval)",
        "2.80; the counts speak at 2.80 (h)",
        "at most 20 % misses, and 40 % or more",
        "a dog that is not ready gets this far within 50 attempts 19 times in 100",
        "a dog that is ready gets this far within 50 attempts 95 times in 100",
        "no more are needed",
        "Biau",
        "common practice",
    ] {
        assert!(page.contains(words), "{words} is not in {page}");
    }
    assert!(!page.contains(WATCH), "nobody has moved on yet");
    let owner = ada.get("/progress").await.text("main");
    assert!(owner.contains("20 of 20 so far. This is going well."), "{owner}");
    for words in ["Wilson", "chance", "limit", "CUSUM"] {
        assert!(!owner.contains(words), "{owner}");
    }
}

#[tokio::test]
async fn after_moving_on_a_decline_leads_back_to_the_last_sure_step_and_begins_it_anew() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    on_two_days(&world, &mut ada, moss).await;
    let old_form = ada.visit(&format!("/dogs/{moss}/log/new")).await;
    let old_form = match old_form.attributes("main a[href*='/log/new?item=']", "href").first() {
        Some(detail) => ada.get(detail).await,
        None => old_form,
    };
    decides(&mut practice, moss, "move_on").await;
    let page = overview(&mut practice, moss).await;
    assert!(page.contains("Step 2 of 6") && page.contains("Nothing counted at this step yet"), "{page}");
    log(&mut ada, moss, FOUR_OF_TEN).await;
    let page = overview(&mut practice, moss).await;
    assert!(page.contains("Slipping") && page.contains(WATCH), "{page}");
    assert!(page.contains("back to the last step at which the counts were there"), "{page}");
    assert_eq!(world.database.count("select count(*) from readiness where state ? 'decline'").await, 1);
    assert_eq!(world.database.count("select decisions_waiting::bigint from dog_summary").await, 1);
    let owner = ada.get("/progress").await.text("main");
    assert!(owner.contains("The last few were harder than before."), "{owner}");
    is_built_anew(&world, &mut practice).await;

    let decide = practice.lead.get(&format!("/dogs/{moss}")).await;
    let decide = decide.attributes("main a[href*='/decide/']", "href").remove(0);
    let page = practice.lead.get(&decide).await.text("main");
    assert!(page.contains("“Make it easier” goes back to “A hand's width”."), "{page}");
    decides(&mut practice, moss, "make_easier").await;
    let page = overview(&mut practice, moss).await;
    assert!(page.contains("Step 1 of 6") && page.contains("Nothing counted at this step yet"), "{page}");
    is_built_anew(&world, &mut practice).await;

    log(&mut ada, moss, TEN_OF_TEN).await;
    let attempts = "select (state->>'attempts')::bigint from readiness where not state ? 'decline'";
    assert_eq!(world.database.count(attempts).await, 10, "the evidence of before is not counted again");
    // a sitting that is told by an older form belongs to the plan that it was practised by
    world.pass(Duration::hours(1));
    let css = format!("main form[action='/dogs/{moss}/log']");
    ada.submit(&old_form, &css, TEN_OF_TEN).await.expect(303);
    assert_eq!(world.database.count("select count(*) from practice_log").await, 5);
    assert_eq!(world.database.count(attempts).await, 10);
    is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn a_relapse_passes_over_steps_that_were_never_sure() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    on_two_days(&world, &mut ada, moss).await;
    decides(&mut practice, moss, "move_on").await;
    decides(&mut practice, moss, "move_on").await;
    log(&mut ada, moss, FOUR_OF_TEN).await;
    decides(&mut practice, moss, "make_easier").await;
    let page = overview(&mut practice, moss).await;
    assert!(page.contains("Step 1 of 6"), "step 2 was never practised: {page}");
}

#[tokio::test]
async fn a_changed_criterion_begins_the_evidence_anew_and_the_same_plan_again_does_not() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    on_two_days(&world, &mut ada, moss).await;
    practice.lead_signs_in().await;
    practice.publish_plan(moss, &[]).await;
    assert!(overview(&mut practice, moss).await.contains("20 of 20 met"));
    sqlx::raw_sql("update step set criterion = 'Touches and stays.' where name = 'A hand''s width'")
        .execute(&mut world.database.as_superuser().await)
        .await
        .expect("changes what earns the marker");
    practice.publish_plan(moss, &[]).await;
    assert!(overview(&mut practice, moss).await.contains("Nothing counted at this step yet"));
    is_built_anew(&world, &mut practice).await;
    log(&mut ada, moss, FOUR_OF_TEN).await;
    let page = overview(&mut practice, moss).await;
    assert!(page.contains("4 of 10 met") && !page.contains(WATCH), "{page}");
    is_built_anew(&world, &mut practice).await;
}
