//! Food: the page with need, share and what fits, the household's words, and the rules on plans and logs.

use crate::incidents::{EXERCISE, beginning, log};
use crate::support::builders::id_in;
use crate::support::{Browser, Practice, World};
use time::Duration;
use uuid::Uuid;

/// Adds a reinforcer; gives its id.
async fn reinforcer(practice: &mut Practice, dog: Uuid, fields: &[(&str, &str)]) -> String {
    let page = practice.lead.get(&format!("/dogs/{dog}/reinforcers/new")).await;
    let fields: Vec<_> = fields.iter().copied().chain([("rank", "4")]).collect();
    let made = practice.lead.submit(&page, "main form", &fields).await;
    let profile = practice.lead.follow(made).await;
    let links = profile.attributes("main a[href*='/reinforcers/']", "href");
    let new = links.iter().find(|href| !href.ends_with("/new")).expect("the profile leads to it");
    id_in(new, "reinforcers").to_string()
}

/// Pays the one exercise of the draft with a reinforcer.
async fn pay_with(practice: &mut Practice, dog: Uuid, id: &str) {
    let edit = practice.lead.get(&format!("/dogs/{dog}/plan/edit")).await;
    let links = edit.attributes("main a[href*='/plan/items/']", "href");
    let line = links.iter().find(|href| !href.ends_with("/remove")).expect("the exercise");
    let item = practice.lead.get(line).await;
    practice
        .lead
        .submit(&item, &format!("main form[action='{line}']"), &[("reinforcer", id)])
        .await
        .expect(303);
}

async fn publish(practice: &mut Practice, dog: Uuid) {
    let page = practice.lead.get(&format!("/dogs/{dog}/plan/publish")).await;
    practice.lead.submit(&page, "main form", &[("note", "")]).await.expect(303);
}

async fn weigh(practice: &mut Practice, dog: Uuid, on: &str, kg: &str) {
    practice.lead.post(&format!("/dogs/{dog}/weights"), &[("on", on), ("kg", kg)]).await.expect(303);
}

const CHEDDAR: &[(&str, &str)] = &[("what", "Cheddar"), ("kcal_per_g", "4.03"), ("grams_per_piece", "1")];

/// A dog of 10 kg whose one exercise is paid with cheddar, a gram a piece.
pub async fn on_cheddar(world: &World) -> (Practice, Uuid, Browser) {
    let (mut practice, moss, ada) = beginning(world).await;
    let cheddar = reinforcer(&mut practice, moss, CHEDDAR).await;
    pay_with(&mut practice, moss, &cheddar).await;
    publish(&mut practice, moss).await;
    weigh(&mut practice, moss, "2026-03-11", "10").await;
    (practice, moss, ada)
}

async fn flags(world: &World, rule: &str, severity: &str) -> i64 {
    let flags = "select count(*) from welfare_flag where rule = $1 and severity = $2";
    let everything = &mut world.database.as_superuser().await;
    sqlx::query_scalar(flags).bind(rule).bind(severity).fetch_one(everything).await.expect("counts flags")
}

#[tokio::test]
async fn the_page_shows_need_share_and_what_fits() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = on_cheddar(&world).await;
    let path = format!("/dogs/{moss}/food");
    let calm = practice.lead.get(&path).await.text("main");
    assert!(calm.contains("roughly 530 kcal a day"), "{calm}");
    assert!(calm.contains("from memory") && calm.contains("ask the vet"), "{calm}");
    assert!(calm.contains("No extras counted"), "{calm}");
    for _ in 0..8 {
        log(&mut ada, moss, &[("attempts", "20"), ("left", "0")]).await;
        world.pass(Duration::minutes(20));
    }
    let page = practice.lead.get(&path).await;
    let text = page.text("main");
    assert_eq!(page.texts("main td")[..4], ["Cheddar", "160", "1 g, 4.0 kcal", "645"]);
    assert!(text.contains("Over 10 %") && text.contains("about 18 % of the daily need"), "{text}");
    assert!(text.contains("pieces of Cheddar of at most 0.55 g"), "{text}");
    assert!(text.contains("at most 13 pieces of Cheddar a day"), "{text}");
    let profile = practice.lead.get(&format!("/dogs/{moss}/profile")).await.text("main");
    assert!(
        profile.contains("about 18 % of the daily need") && profile.contains("most of it Cheddar"),
        "{profile}"
    );
    world.pass(Duration::days(7));
    practice.lead_signs_in().await;
    let later = practice.lead.get(&path).await.text("main");
    assert!(later.contains("No extras counted"), "seven days are looked at: {later}");
}

#[tokio::test]
async fn what_is_not_stated_is_named_and_meals_are_no_extra() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let liver = reinforcer(&mut practice, moss, &[("what", "Liver"), ("grams_per_piece", "1")]).await;
    pay_with(&mut practice, moss, &liver).await;
    publish(&mut practice, moss).await;
    log(&mut ada, moss, &[("attempts", "20"), ("left", "0")]).await;
    let page = practice.lead.get(&format!("/dogs/{moss}/food")).await.text("main");
    assert!(page.contains("Not known without a weight"), "{page}");
    assert!(page.contains("Liver: the energy is not stated"), "{page}");
    let form = practice.lead.get(&format!("/dogs/{moss}/reinforcers/{liver}")).await;
    let stated = [("kcal_per_g", "9"), ("from_meals", "yes")];
    let css = format!("main form[action='/dogs/{moss}/reinforcers/{liver}']");
    practice.lead.submit(&form, &css, &stated).await.expect(303);
    let again = practice.lead.get(&format!("/dogs/{moss}/reinforcers/{liver}")).await;
    assert_eq!(again.attributes("select[name=from_meals] option[selected]", "value"), ["yes"]);
    let page = practice.lead.get(&format!("/dogs/{moss}/food")).await.text("main");
    assert!(page.contains("Out of the daily meals, so no extra: Liver"), "{page}");
}

#[tokio::test]
async fn a_label_is_worked_out_and_nothing_typed_is_lost() {
    let world = World::new().await;
    let (mut practice, moss, _) = beginning(&world).await;
    let path = format!("/dogs/{moss}/food");
    let whole = "protein=26&fat=15&moisture=8&fibre=3&ash=7";
    let page = practice.lead.get(&format!("{path}?{whole}")).await;
    assert!(page.expect(200).text("main [role=status]").contains("3.62 kcal a gram"));
    let natural = practice.lead.get(&format!("{path}?{whole}&kind=natural")).await;
    assert!(natural.text("main [role=status]").contains("4.03 kcal a gram"));
    let open = practice.lead.get(&format!("{path}?protein=26&fat=15&moisture=8")).await;
    assert!(open.text("main [role=status]").starts_with("At most"));
    let over = practice.lead.get(&format!("{path}?protein=80&fat=15&moisture=8")).await;
    assert!(over.expect(422).error_of("protein").contains("more than 100 %"));
    assert_eq!(over.attribute("input[name=protein]", "value"), "80");
    let missing = practice.lead.get(&format!("{path}?protein=80")).await;
    assert!(missing.expect(422).error_of("fat").contains("per cent from the label"));
    let found = practice.lead.get(&format!("{path}?q=cheese")).await;
    let listed = found.texts("main section[aria-labelledby=listed] tbody tr");
    assert_eq!(listed.len(), 2);
    assert!(
        listed[0].contains("Cheddar") && listed[0].contains("4.03") && listed[0].contains("USDA"),
        "{listed:?}"
    );
    assert!(listed[1].contains("from memory"), "{listed:?}");
    assert!(practice.lead.get(&format!("{path}?q=zebra")).await.text("main").contains("No listed food"));
}

#[tokio::test]
async fn a_household_reads_the_share_in_its_own_words() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = on_cheddar(&world).await;
    let health = format!("/dogs/{moss}/health");
    let treats = ada.get(&health).await.text("main section[aria-labelledby=treats]");
    assert!(treats.contains("No treats counted"), "{treats}");
    for _ in 0..3 {
        log(&mut ada, moss, &[("attempts", "20"), ("left", "0")]).await;
    }
    let treats = ada.get(&health).await.text("main section[aria-labelledby=treats]");
    assert!(treats.contains("about 6 % of what Moss needs. Up to a tenth is fine."), "{treats}");
    for _ in 0..5 {
        log(&mut ada, moss, &[("attempts", "20"), ("left", "0")]).await;
    }
    let treats = ada.get(&health).await.text("main section[aria-labelledby=treats]");
    assert!(treats.contains("about 18 %") && treats.contains("smaller"), "{treats}");
}

#[tokio::test]
async fn treats_over_the_share_are_noticed_and_rising_weight_makes_it_a_caution() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = on_cheddar(&world).await;
    for _ in 0..4 {
        log(&mut ada, moss, &[("attempts", "20"), ("left", "0")]).await;
    }
    assert_eq!(flags(&world, "over_daily_share", "notice").await, 0);
    log(&mut ada, moss, &[("attempts", "20"), ("left", "0")]).await;
    assert_eq!(flags(&world, "over_daily_share", "notice").await, 1, "the fifth goes over a tenth");
    weigh(&mut practice, moss, "2026-03-01", "9").await;
    log(&mut ada, moss, &[("attempts", "20"), ("left", "0")]).await;
    assert_eq!(flags(&world, "over_daily_share", "caution").await, 1);
    let welfare = practice.lead.get(&format!("/dogs/{moss}/welfare")).await.text("main");
    assert!(welfare.contains("Treats over the daily share") && welfare.contains("Cheddar"), "{welfare}");
}

#[tokio::test]
async fn a_poisonous_food_stops_a_plan_and_sends_to_the_vet_where_it_was_eaten() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let raisins = reinforcer(&mut practice, moss, &[("what", "Raisins")]).await;
    pay_with(&mut practice, moss, &raisins).await;
    let check = practice.lead.get(&format!("/dogs/{moss}/plan/edit")).await.text("main");
    assert!(check.contains("Harmful food planned") && check.contains("poison line now"), "{check}");
    let page = practice.lead.get(&format!("/dogs/{moss}/plan/publish")).await;
    practice.lead.submit(&page, "main form", &[("note", "")]).await.expect(422);
    practice
        .lead
        .submit(&page, "main form", &[("note", ""), ("despite_stop", "She hides tablets in them.")])
        .await
        .expect(303);
    log(&mut ada, moss, &[("attempts", "10"), ("left", "10")]).await;
    assert_eq!(flags(&world, "harmful_food_paid", "stop").await, 0, "none was given");
    log(&mut ada, moss, &[("attempts", "10"), ("left", "6")]).await;
    assert_eq!(flags(&world, "harmful_food_paid", "stop").await, 1);
    let today = ada.get("/today").await.text("main");
    assert!(today.contains("ring your vet now") && today.contains("packet"), "{today}");
    assert!(!today.contains(&format!("Start {EXERCISE}")));
}

#[tokio::test]
async fn an_allergen_is_a_caution_in_the_plan_and_in_the_log() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = on_cheddar(&world).await;
    let form = practice.lead.get(&format!("/dogs/{moss}/profile/edit/health")).await;
    practice.lead.submit(&form, "main form", &[("allergies", "Dairy, upset stomach")]).await.expect(303);
    let check = practice.lead.get(&format!("/dogs/{moss}/plan/edit")).await.text("main");
    assert!(check.contains("Allergen planned") && check.contains("Cheddar"), "{check}");
    log(&mut ada, moss, &[("attempts", "10"), ("left", "0")]).await;
    assert_eq!(flags(&world, "allergen_paid", "caution").await, 1);
}

#[tokio::test]
async fn an_earlier_sitting_of_the_day_is_looked_at_again() {
    let world = World::new().await;
    let (_practice, moss, mut ada) = on_cheddar(&world).await;
    world.pass(Duration::days(1));
    log(&mut ada, moss, &[("attempts", "85"), ("left", "0"), ("on", "2026-03-12"), ("at", "16:00")]).await;
    let late = crate::revisions::newest_log(&world, moss).await;
    log(&mut ada, moss, &[("attempts", "85"), ("left", "0"), ("on", "2026-03-12"), ("at", "08:00")]).await;
    let open = "select count(*) from welfare_flag where rule = 'over_daily_share' and state = 'open'";
    assert_eq!(world.database.count(open).await, 1, "both together, told with the earlier one");
    crate::revisions::change(&mut ada, &late, &[("left", "80")]).await.expect(303);
    assert_eq!(world.database.count(open).await, 0, "the day holds less now");
}
