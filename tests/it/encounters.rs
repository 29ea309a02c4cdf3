//! What happens in life, told by an owner: what they read first, and what their trainer sees.

use uuid::Uuid;

use crate::support::{Answer, Browser, World};

/// Tells what happened on the page for it, and opens what comes back.
async fn tell(phone: &mut Browser, dog: Uuid, fields: &[(&str, &str)]) -> Answer {
    let page = phone.get(&format!("/dogs/{dog}/encounters/new")).await;
    let told = phone.submit(&page, &format!("main form[action='/dogs/{dog}/encounters']"), fields).await;
    told.expect(303);
    phone.follow(told).await
}

#[tokio::test]
async fn a_bite_that_broke_skin_stops_everything_and_wounds_come_first() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    practice.dog(household, "Wren").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let bite = [("kind", "bite"), ("towards", "stranger"), ("skin_broken", "yes")];
    let read = tell(&mut ada, moss, &bite).await;
    let first = read.texts("main .watch.stop")[0].clone();
    let at = |words: &str| first.find(words).unwrap_or_else(|| panic!("{words} is not in {first}"));
    assert!(at("space") < at("Wash a person's wound"), "{first}");
    assert!(at("doctor") < at("Thank you for saying so"), "what to do comes before what was seen: {first}");
    assert!(at("vet") < at("Source:"), "{first}");
    assert!(read.text("main").contains("emergency number"));
    let caseload = practice.lead.get("/caseload").await;
    assert_eq!(caseload.texts("main .row .row-who a")[0], "Moss");
    assert!(
        caseload.texts("main .row .row-why")[0].starts_with("Stop"),
        "{:?}",
        caseload.texts("main .row-why")
    );
    assert!(caseload.texts("main h2")[0].starts_with("Before anything else"));
}

#[tokio::test]
async fn a_loose_puppy_s_teeth_that_broke_no_skin_are_no_stop() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let pip = practice.dog_born(household, "Pip", "2026-01-01").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let mouthing = [("kind", "bite"), ("towards", "handler"), ("skin_broken", "no"), ("playful", "yes")];
    let read = tell(&mut ada, pip, &mouthing).await;
    assert_eq!((read.count("main .watch"), read.count("main .watch.stop")), (1, 0), "{}", read.text("main"));
    assert!(read.text("main .watch").contains("puppy"));
    let grown = practice.dog_born(household, "Moss", "2023-01-01").await;
    let read = tell(&mut ada, grown, &mouthing).await;
    assert_eq!(read.count("main .watch.stop"), 1, "the same of a grown dog is a stop");
    let caseload = practice.lead.get("/caseload").await;
    assert_eq!(caseload.texts("main .row .row-who a"), ["Moss", "Pip"]);
}

#[tokio::test]
async fn running_off_ends_every_permission_to_be_off_lead() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let place = practice.place(moss, "Long meadow").await;
    let page = practice.lead.get(&place).await;
    let granted = practice.lead.submit(&page, &format!("form[action='{place}/off-lead']"), &[]).await;
    granted.expect(303);
    let holds = practice.lead.get(&place).await;
    assert_eq!(holds.texts("main .pill"), ["Allowed"]);
    let read = tell(&mut ada, moss, &[("kind", "bolted")]).await;
    assert!(read.text("main .watch").contains("lead"), "{}", read.text("main"));
    let lapsed = practice.lead.get(&place).await;
    assert_eq!(lapsed.texts("main .pill"), ["Lapsed"]);
    assert!(lapsed.text("main").contains("Bolted"));
    let profile = practice.lead.get(&format!("/dogs/{moss}/profile")).await;
    assert!(profile.text("section[aria-labelledby=places]").contains("Off lead lapsed"));
}

#[tokio::test]
async fn teeth_are_asked_about_and_not_sure_is_an_answer() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let css = format!("main form[action='/dogs/{moss}/encounters']");
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let unsaid = [("kind", "bite"), ("reaction", "3"), ("note", "By the gate.")];
    let asked = ada.submit(&page, &css, &unsaid).await;
    asked.expect(422);
    assert!(!asked.error_of("skin_broken").is_empty() && !asked.error_of("towards").is_empty());
    let words = asked.text(&css);
    let at = |said: &str| words.find(said).unwrap_or_else(|| panic!("{said} is not in {words}"));
    assert!(at("soap and running water") < at("What happened?"), "the question stands in front");
    assert_eq!(asked.text("textarea[name=note]").trim(), "By the gate.");
    assert_eq!(asked.attributes(".teeth button[name=reaction]", "value"), ["3"], "nothing is lost");
    assert_eq!(world.database.count("select count(*) from encounter").await, 0);
    let answers = [("skin_broken", "not_sure"), ("towards", "child"), ("reaction", "3")];
    ada.submit(&asked, &css, &answers).await.expect(303);
    let kept =
        "select count(*) from encounter where skin_broken is null and towards = 'child' and reaction = 3";
    assert_eq!(world.database.count(kept).await, 1);
    let snapped = [("kind", "growl_or_snap"), ("towards", "not_sure"), ("reaction", "2")];
    ada.submit(&page, &css, &snapped).await.expect(409);
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let touched = [("kind", "growl_or_snap"), ("towards", "dog"), ("skin_broken", "yes")];
    let asked = ada.submit(&page, &css, &touched).await;
    assert!(!asked.expect(422).error_of("skin_broken").is_empty());
    ada.submit(&page, &css, &snapped).await.expect(303);
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    ada.submit(&page, &css, &[("kind", "reaction"), ("reaction", "1")]).await.expect(303);
}

#[tokio::test]
async fn an_injury_is_never_dropped_whatever_is_said_to_have_happened() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    let css = format!("main form[action='/dogs/{moss}/encounters']");
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let hurt = [("kind", "reaction"), ("reaction", "4"), ("skin_broken", "yes")];
    let asked = ada.submit(&page, &css, &hurt).await;
    assert!(!asked.expect(422).error_of("skin_broken").is_empty(), "{}", asked.text("main"));
    let child = [("kind", "other"), ("towards", "child")];
    let asked = ada.submit(&page, &css, &child).await;
    assert!(!asked.expect(422).error_of("towards").is_empty(), "{}", asked.text("main"));
    assert_eq!(world.database.count("select count(*) from encounter").await, 0);
    let none = [("kind", "reaction"), ("reaction", "4"), ("skin_broken", "no"), ("towards", "dog")];
    ada.submit(&page, &css, &none).await.expect(303);
}
