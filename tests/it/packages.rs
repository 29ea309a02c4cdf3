//! Packages of lessons: used and left, one after another, beyond what was bought, and taken back.

use uuid::Uuid;

use crate::incidents::beginning;
use crate::support::{Practice, World};

const ADD: &str = "main form[action$='/packages']";

async fn lesson_held(practice: &mut Practice, dog: Uuid, on: &str) {
    let page = practice.lead.get(&format!("/dogs/{dog}/lessons")).await;
    let note = [("on", on), ("summary", "Well done.")];
    practice.lead.submit(&page, "main form[data-keep]", &note).await.expect(303);
}

async fn said(practice: &mut Practice, dog: Uuid) -> String {
    practice.lead.get(&format!("/dogs/{dog}/lessons")).await.text("#packages > p")
}

#[tokio::test]
async fn lessons_draw_on_the_oldest_package_with_something_left() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let lessons = format!("/dogs/{moss}/lessons");
    assert!(said(&mut practice, moss).await.contains("No package is kept"));
    assert_eq!(ada.get("/today").await.count("main .next-lesson"), 0);
    lesson_held(&mut practice, moss, "2026-02-01").await;
    practice.package(moss, &[("bought", "2"), ("from", "2026-03-01"), ("package_note", "canary")]).await;
    assert_eq!(said(&mut practice, moss).await, "0 of 2 used, 2 left.", "the first was before it");
    for day in ["2026-03-02", "2026-03-04", "2026-03-08"] {
        lesson_held(&mut practice, moss, day).await;
    }
    assert_eq!(said(&mut practice, moss).await, "2 of 2 used, 0 left; 1 beyond what was bought.");
    practice.package(moss, &[("bought", "6"), ("from", "2026-03-05")]).await;
    assert_eq!(said(&mut practice, moss).await, "3 of 8 used, 5 left.");
    let each = practice.lead.get(&lessons).await.texts("#packages li");
    assert!(each[0].contains("2 of 2 used") && each[1].contains("1 of 6 used"), "{each:?}");
    let overview = practice.lead.get(&format!("/dogs/{moss}")).await.text("main aside");
    assert!(overview.contains("3 of 8 used, 5 left."), "{overview}");
    let today = ada.get("/today").await;
    assert_eq!(today.text("main .next-lesson p"), "Lessons: 3 of 8 used, 5 left.");
    assert!(!today.body().contains("canary"), "the note is for trainers");
}

#[tokio::test]
async fn a_package_added_in_error_is_taken_back_with_a_reason_and_stays_on_record() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    practice.package(moss, &[("bought", "1"), ("from", "2026-03-01")]).await;
    let back = practice.package(moss, &[("bought", "6"), ("from", "2026-03-01")]).await;
    for day in ["2026-03-02", "2026-03-04"] {
        lesson_held(&mut practice, moss, day).await;
    }
    assert_eq!(said(&mut practice, moss).await, "2 of 7 used, 5 left.");
    let page = practice.lead.get(&back).await;
    assert!(!practice.lead.submit(&page, "main form", &[]).await.expect(422).error_of("why").is_empty());
    assert_eq!(said(&mut practice, moss).await, "2 of 7 used, 5 left.");
    for _ in 0..2 {
        practice.lead.submit(&page, "main form", &[("why", "Added twice")]).await.expect(303);
    }
    practice.lead.submit(&page, "main form", &[("why", "Another reason")]).await.expect(409);
    assert_eq!(said(&mut practice, moss).await, "1 of 1 used, 0 left; 1 beyond what was bought.");
    let shown = practice.lead.get(&format!("/dogs/{moss}/lessons")).await.text("#packages ul");
    assert!(shown.contains("taken back by Rowan Airey") && shown.contains("Added twice"), "{shown}");
    assert_eq!(practice.lead.get(&back).await.count("main form"), 0);
    let audit = practice.lead.get("/practice/audit").await.text("main");
    assert!(audit.contains("took a package of lessons for Moss back (Added twice)"), "{audit}");
    let kept = "select count(*) from audit_event where action = 'take_back_package'";
    assert_eq!(world.database.count(kept).await, 1, "once");
    assert!(ada.get("/today").await.text("main").contains("1 beyond what was bought"));
    ada.get(&back).await.expect(404);
    ada.post(&back, &[("why", "No")]).await.expect(403);
}

#[tokio::test]
async fn sent_twice_makes_one_and_numbers_have_bounds() {
    let world = World::new().await;
    let (mut practice, moss, _) = beginning(&world).await;
    let page = practice.lead.get(&format!("/dogs/{moss}/lessons")).await;
    for _ in 0..2 {
        practice.lead.submit(&page, ADD, &[("bought", "6")]).await.expect(303);
    }
    practice.lead.submit(&page, ADD, &[("bought", "7")]).await.expect(409);
    for (fields, field) in [
        (("bought", "0"), "bought"),
        (("bought", "51"), "bought"),
        (("bought", ""), "bought"),
        (("from", ""), "from"),
        (("from", "2020-01-01"), "from"),
    ] {
        let all = [("bought", "6"), fields];
        let sent = if fields.0 == "bought" { &all[1..] } else { &all[..] };
        let page = practice.lead.get(&format!("/dogs/{moss}/lessons")).await;
        let refused = practice.lead.submit(&page, ADD, sent).await;
        assert!(!refused.expect(422).error_of(field).is_empty(), "{fields:?}");
    }
    assert_eq!(world.database.count("select count(*) from lesson_package").await, 1);
    // another dog's package is not found there
    let household = practice.household("Lund").await;
    let wren = practice.dog(household, "Wren").await;
    let back = practice.package(moss, &[("bought", "2")]).await.replace(&moss.to_string(), &wren.to_string());
    practice.lead.get(&back).await.expect(404);
    practice.lead.post(&back, &[("why", "No")]).await.expect(404);
}
