//! The numbers of the rules: a lead sets them within their safe bounds, and the rules go by them from then on.

use settlebrook::domain::welfare::parameters;

use crate::incidents::{beginning, log};
use crate::support::World;

const PAGE: &str = "/practice/numbers";

async fn kept(world: &World) -> i64 {
    world.database.count("select count(*) from house_number").await
}

#[tokio::test]
async fn every_number_is_asked_for_once_with_its_bounds() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let page = lead.get(PAGE).await;
    for parameter in parameters() {
        assert_eq!(page.count(&format!("main input[name={}]", parameter.key)), 1, "{}", parameter.key);
        let hint = page.text(&format!("main #f-{}-hint", parameter.key));
        let bounds = format!("From {} to {}", parameter.low, parameter.high);
        let usual = format!("; {} where you", parameter.value);
        assert!(hint.starts_with(&bounds) && hint.contains(&usual), "{}: {hint}", parameter.key);
    }
}

#[tokio::test]
async fn a_rule_goes_by_the_number_that_was_set() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let high = "select count(*) from welfare_flag where rule = 'still_high'";
    log(&mut ada, moss, &[("arousal_end", "3")]).await;
    assert_eq!(world.database.count(high).await, 0);
    let page = practice.lead.get(PAGE).await;
    practice.lead.submit(&page, "main form", &[("high_arousal", "3")]).await.expect(303);
    log(&mut ada, moss, &[("arousal_end", "3")]).await;
    assert_eq!(world.database.count(high).await, 1);
}

#[tokio::test]
async fn nothing_is_set_beyond_the_safe_bounds() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let page = lead.get(PAGE).await;
    let refused = lead.submit(&page, "main form", &[("high_arousal", "6"), ("quiet_days", "9")]).await;
    refused.expect(422);
    assert!(refused.error_of("high_arousal").contains("from 3 to 5"), "{}", refused.error_of("high_arousal"));
    assert_eq!(refused.attribute("main input[name=quiet_days]", "value"), "9", "what was typed stays");
    assert_eq!(kept(&world).await, 0);
}

#[tokio::test]
async fn a_number_is_reset_by_leaving_it_open_and_each_change_is_noted() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let page = lead.get(PAGE).await;
    let set = [("high_arousal", "3"), ("quiet_days", "7")];
    lead.submit(&page, "main form", &set).await.expect(303);
    assert_eq!(kept(&world).await, 1, "what is as the catalogue says is not kept");
    lead.submit(&page, "main form", &set).await.expect(303);
    let page = lead.get(PAGE).await;
    assert_eq!(page.attribute("main input[name=high_arousal]", "value"), "3");
    lead.submit(&page, "main form", &[("high_arousal", "")]).await.expect(303);
    assert_eq!(kept(&world).await, 0);
    let noted = lead.get("/practice/audit").await.text("main");
    assert_eq!(noted.matches("set a number of the rules").count(), 2, "{noted}");
    assert!(noted.contains("Arousal that counts as high: 4 to 3"), "{noted}");
}

#[tokio::test]
async fn a_page_that_was_open_for_long_overwrites_nobody() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let old = lead.get(PAGE).await;
    lead.submit(&old, "main form", &[("high_arousal", "3")]).await.expect(303);
    let refused = lead.submit(&old, "main form", &[("high_arousal", "5")]).await;
    refused.expect(422);
    assert!(refused.text("main .error-summary").contains("Somebody else changed these numbers"));
    assert_eq!(refused.attribute("main input[name=high_arousal]", "value"), "5");
    assert_eq!(world.database.count("select count(*) from house_number where value = 3").await, 1);
}

#[tokio::test]
async fn equipment_that_is_not_used_is_the_practice_s_to_say() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let outside = "select count(*) from welfare_flag where rule = 'clip_not_used'";
    let on_a_head_collar = [("line", "short_lead"), ("clip", "head_collar")];
    log(&mut ada, moss, &on_a_head_collar).await;
    assert_eq!(world.database.count(outside).await, 0);
    let page = practice.lead.get(PAGE).await;
    let ticked = page.attributes("main input[name=clips_not_used][checked]", "value");
    assert_eq!(ticked, ["slip_or_choke", "prong"], "what a practice that works with rewards leaves out");
    practice.lead.submit(&page, "main form", &[("clips_not_used", "head_collar")]).await.expect(303);
    log(&mut ada, moss, &on_a_head_collar).await;
    assert_eq!(world.database.count(outside).await, 1);
}
