//! The facts that the rules ask for: stated in forms, kept, shown, and read by the rules.

use crate::incidents::{EXERCISE, beginning, log, tell};
use crate::support::World;

async fn raised(world: &World, rule: &str) -> i64 {
    sqlx::query_scalar("select count(*) from welfare_flag where rule = $1")
        .bind(rule)
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("counts flags")
}

#[tokio::test]
async fn a_child_on_the_line_is_asked_for_and_shown() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("child_held_line", "no")]).await;
    assert_eq!(raised(&world, "child_held_line").await, 0);
    log(&mut ada, moss, &[("child_held_line", "yes")]).await;
    assert_eq!(raised(&world, "child_held_line").await, 1);
    let logs = practice.lead.get(&format!("/dogs/{moss}/log")).await;
    let newest = logs.attributes("main a[href*='/log/']", "href");
    let newest = newest.iter().find(|href| !href.contains("/new")).expect("a log");
    let page = practice.lead.get(newest).await.text("main");
    assert!(page.contains("A child held the line"), "{page}");
}

#[tokio::test]
async fn guarding_with_freezing_is_a_stop_and_a_bite_unwarned_is_noted_after_a_growl() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let met = tell(&mut ada, moss, &[("kind", "guarded"), ("froze", "yes")]).await;
    let stops = "select count(*) from welfare_flag where rule = 'guarding' and severity = 'stop'";
    assert_eq!(world.database.count(stops).await, 1);
    let page = practice.lead.get(&format!("/dogs/{moss}/encounters/{met}")).await.text("main");
    assert!(page.contains("Froze or went stiff"), "{page}");
    tell(&mut ada, moss, &[("kind", "bite"), ("warned", "no")]).await;
    assert_eq!(raised(&world, "growl_gone").await, 1, "guarding was a warning before");
    tell(&mut ada, moss, &[("kind", "equipment_failed")]).await;
    assert_eq!(raised(&world, "equipment_failed").await, 1);
}

#[tokio::test]
async fn two_reactions_within_a_day_are_put_together() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = beginning(&world).await;
    let reaction = [("kind", "reaction"), ("reaction", "3")];
    tell(&mut ada, moss, &reaction).await;
    assert_eq!(raised(&world, "two_reactions").await, 0);
    world.pass(time::Duration::hours(25));
    tell(&mut ada, moss, &reaction).await;
    assert_eq!(raised(&world, "two_reactions").await, 0, "a day and an hour later");
    world.pass(time::Duration::hours(23));
    tell(&mut ada, moss, &reaction).await;
    assert_eq!(raised(&world, "two_reactions").await, 1);
}

#[tokio::test]
async fn reactions_are_put_together_over_as_many_hours_as_a_practice_has_set() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let page = practice.lead.get("/practice/numbers").await;
    practice.lead.submit(&page, "main form", &[("reaction_hours", "72")]).await.expect(303);
    let reaction = [("kind", "reaction"), ("reaction", "3")];
    tell(&mut ada, moss, &reaction).await;
    world.pass(time::Duration::hours(70));
    tell(&mut ada, moss, &reaction).await;
    assert_eq!(raised(&world, "two_reactions").await, 1);
}

#[tokio::test]
async fn a_plan_is_checked_against_home_children_place_and_line() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let household = practice.things["household"];
    let lead = &mut practice.lead;
    let page = lead.get(&format!("/households/{household}/edit")).await;
    lead.submit(&page, "main form", &[("children", "living")]).await.expect(303);
    let page = lead.get(&format!("/households/{household}/edit")).await;
    assert_eq!(page.attribute("main option[selected][value=living]", "value"), "living", "it is kept");
    tell(&mut ada, moss, &[("kind", "growl_or_snap")]).await;
    let editor = lead.get(&format!("/dogs/{moss}/plan/edit")).await.text("main");
    assert!(editor.contains("no standing arrangement keeps them apart"), "{editor}");

    let green = practice.place(moss, "The green").await;
    let page = practice.lead.get(&green).await;
    let facts = [("secure", "no"), ("near_road", "yes"), ("road_metres", "12")];
    practice.lead.submit(&page, &format!("main form[action='{green}']"), &facts).await.expect(303);
    let id = green.rsplit('/').next().expect("an id").to_owned();
    let line = practice.things["line"];
    let item = format!("/dogs/{moss}/plan/items/{line}");
    let page = practice.lead.get(&item).await;
    let chosen =
        [("place", id.as_str()), ("line", "long_line"), ("clip", "harness_back"), ("line_metres", "10")];
    practice.lead.submit(&page, &format!("main form[action='{item}']"), &chosen).await.expect(303);
    let editor = practice.lead.get(&format!("/dogs/{moss}/plan/edit")).await.text("main");
    assert!(editor.contains(&format!("“{EXERCISE}” is planned 12 metres from a road")), "{editor}");
    let page = practice.lead.get(&item).await;
    assert_eq!(page.attribute("main input[name=line_metres]", "value"), "10");
}

#[tokio::test]
async fn a_new_home_is_stated_in_the_profile() {
    let world = World::new().await;
    let (mut practice, moss, _ada) = beginning(&world).await;
    let household = practice.things["household"];
    let lead = &mut practice.lead;
    let page = lead.get(&format!("/households/{household}/edit")).await;
    lead.submit(&page, "main form", &[("children", "visiting")]).await.expect(303);
    let edit = format!("/dogs/{moss}/profile/edit/who");
    let page = lead.get(&edit).await;
    lead.submit(&page, "main form", &[("home_since", "2026-03-01")]).await.expect(303);
    let profile = lead.get(&format!("/dogs/{moss}/profile")).await.text("main");
    assert!(profile.contains("In this home since"), "{profile}");
    let editor = lead.get(&format!("/dogs/{moss}/plan/edit")).await.text("main");
    assert!(editor.contains("the dog is new at home"), "{editor}");
}

#[tokio::test]
async fn off_lead_goes_by_the_permission_that_held_when_it_was_practised() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let green = practice.place(moss, "The green").await;
    let lead = &mut practice.lead;
    let page = lead.get(&green).await;
    lead.submit(&page, &format!("main form[action='{green}']"), &[("secure", "no")]).await.expect(303);
    let id = green.rsplit('/').next().expect("an id").to_owned();
    let line = practice.things["line"];
    let item = format!("/dogs/{moss}/plan/items/{line}");
    let page = lead.get(&item).await;
    let chosen = [("place", id.as_str()), ("line", "long_line"), ("clip", "harness_back")];
    lead.submit(&page, &format!("main form[action='{item}']"), &chosen).await.expect(303);
    let page = lead.get(&format!("/dogs/{moss}/plan/publish")).await;
    lead.submit(&page, "main form", &[("note", "On the green.")]).await.expect(303);
    let off_lead = [("line", "none"), ("clip", "not_sure")];
    log(&mut ada, moss, &off_lead).await;
    assert_eq!(raised(&world, "off_lead_not_allowed").await, 1);
    world.pass(time::Duration::hours(1));
    let page = practice.lead.get(&green).await;
    practice.lead.submit(&page, &format!("form[action='{green}/off-lead']"), &[]).await.expect(303);
    world.pass(time::Duration::minutes(1));
    log(&mut ada, moss, &off_lead).await;
    assert_eq!(raised(&world, "off_lead_not_allowed").await, 1, "allowed since");
}

#[tokio::test]
async fn a_hand_in_the_loop_and_work_without_a_break_are_asked_for_and_read() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("loop_round_hand", "no"), ("had_break", "yes"), ("muzzle_worn", "yes")]).await;
    assert_eq!(raised(&world, "hand_in_loop").await + raised(&world, "no_break").await, 0);
    log(&mut ada, moss, &[("loop_round_hand", "yes"), ("line", "short_lead"), ("clip", "harness_back")])
        .await;
    assert_eq!(raised(&world, "hand_in_loop").await, 1);
    let logs = practice.lead.get(&format!("/dogs/{moss}/log")).await;
    let links = logs.attributes("main a[href*='/log/']", "href");
    let told: Vec<&String> = links.iter().filter(|href| !href.contains("/new")).collect();
    let mut pages = String::new();
    for link in told {
        pages.push_str(&practice.lead.get(link).await.text("main"));
    }
    for words in ["Loop around the hand", "Muzzle on", "A break in between"] {
        assert!(pages.contains(words), "{words} is not in {pages}");
    }
}
