//! Everything that happened with a dog, newest first: every kind of it, page after page, and nothing of it for owners.

use std::collections::BTreeSet;

use time::Duration;
use uuid::Uuid;

use crate::support::lived_in::HEATH;
use crate::support::{Browser, LivedIn, World};

#[tokio::test]
async fn everything_is_on_it_and_each_kind_by_itself() {
    let world = World::new().await;
    let LivedIn { mut practice, mut owner, .. } = LivedIn::new(&world, &HEATH).await;
    let moss = practice.things["dog"];
    let lead = &mut practice.lead;
    world.pass(Duration::minutes(1));
    let flag = practice.things["flag"];
    let page = lead.get(&format!("/flags/{flag}")).await;
    lead.submit(&page, "main form", &[("answer", "Rang her.")]).await.expect(303);
    let item = practice.things["item"];
    let page = lead.get(&format!("/dogs/{moss}/decide/{item}")).await;
    let decided = [("choice", "repeat"), ("reason", "counts"), ("note", "Once more.")];
    lead.submit(&page, "main form", &decided).await.expect(303);
    let page = lead.get(&format!("/dogs/{moss}/lessons")).await;
    let held = [("summary", "Lovely at the gate."), ("private_note", "They are worn out.")];
    lead.submit(&page, &format!("main form[action='/dogs/{moss}/lessons']"), &held).await.expect(303);
    lead.post(&format!("/dogs/{moss}/phase"), &[("phase", "maintaining")]).await.expect(303);
    lead.post(&format!("/dogs/{moss}/phase"), &[("phase", "maintaining")]).await.expect(303);
    owner.post(&format!("/dogs/{moss}/goal"), &[("nearness", "4"), ("confidence", "5")]).await.expect(303);
    let all = lead.get(&format!("/dogs/{moss}/timeline")).await;
    let words = all.text("main ol.log");
    for wanted in [
        "pheasant",
        HEATH.note,
        HEATH.message,
        "Rang her.",
        "Once more.",
        "Plan 1 published",
        "Lovely at the gate.",
        "They are worn out.",
        "18.5 kg",
        "Moved house",
        "How near: 4 of 10",
        "Maintaining",
    ] {
        assert!(words.contains(wanted), "{wanted} is not in {words}");
    }
    let rows = all.count("main ol.log li");
    let mut of_kinds = 0;
    for link in all.attributes("main .filters a", "href").iter().filter(|href| href.contains("kind=")) {
        let page = lead.get(link).await;
        let found = page.count("main ol.log li");
        assert!(found > 0, "{link} is empty");
        assert_eq!(page.count("main .filters [aria-current]"), 1);
        of_kinds += found;
    }
    assert_eq!(of_kinds, rows, "each row is of one kind");
    let phases = lead.get(&format!("/dogs/{moss}/timeline?kind=phases")).await;
    // active with the first plan, then maintaining; said a second time it is no change
    assert_eq!(phases.count("main ol.log li"), 2, "what is so already is no change");
    let links: BTreeSet<String> = all.attributes("main ol.log a", "href").into_iter().collect();
    for link in links {
        lead.get(&link).await.expect(200);
    }
    for wrong in ["kind=nonsense", "before=nonsense", "before=1.2.3"] {
        lead.get(&format!("/dogs/{moss}/timeline?{wrong}")).await.expect(404);
    }
    // what is the trainers' own stays theirs
    owner.get(&format!("/dogs/{moss}/timeline")).await.expect(404);
    for path in [
        "/today".to_owned(),
        "/progress".to_owned(),
        "/messages".to_owned(),
        "/plan".to_owned(),
        format!("/dogs/{moss}/life"),
        format!("/dogs/{moss}/goal"),
    ] {
        let theirs = owner.get(&path).await.expect(200).text("main");
        assert!(!theirs.contains("worn out"), "{path}: {theirs}");
    }
}

/// The rows of every page, from the newest on.
async fn all_rows(lead: &mut Browser, first: &str) -> (Vec<String>, usize) {
    let (mut rows, mut pages, mut next) = (Vec::new(), 0, Some(first.to_owned()));
    while let Some(path) = next {
        let page = lead.get(&path).await;
        rows.extend(page.texts("main ol.log li .as-typed"));
        let older =
            page.attributes("main .pages a", "href").into_iter().find(|href| href.contains("before="));
        next = older;
        pages += 1;
        assert!(pages < 20, "it goes on for ever");
    }
    (rows, pages)
}

#[tokio::test]
async fn page_after_page_nothing_is_left_out_and_nothing_comes_twice() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let (moss, wren) = (practice.dog(household, "Moss").await, practice.dog(household, "Wren").await);
    let mut raw = world.database.as_superuser().await;
    // many at one instant, of two kinds, and of another dog
    for (dog, name) in [(moss, "Moss"), (wren, "Wren")] {
        let notes = "insert into life_event (practice_id, id, dog_id, kind, from_on, note, told_by, told_at)
             select $1, gen_random_uuid(), $2, 'other', date '2026-03-01' - n / 40, $4 || ' life ' || n, $3, now() from generate_series(1, 70) n";
        let messages = "insert into message (practice_id, id, dog_id, by_membership_id, from_trainer, body, sent_at)
             select $1, gen_random_uuid(), $2, $3, true, $4 || ' message ' || n, timestamptz '2026-03-01 12:00Z' from generate_series(1, 70) n";
        for query in [notes, messages] {
            let insert = sqlx::query(query).bind(practice.id.0).bind(dog).bind(practice.lead_id.0).bind(name);
            insert.execute(&mut raw).await.expect("adds rows");
        }
    }
    let (rows, pages) = all_rows(&mut practice.lead, &format!("/dogs/{moss}/timeline")).await;
    assert_eq!((rows.len(), pages), (140, 3));
    let once: BTreeSet<&String> = rows.iter().collect();
    assert_eq!(once.len(), 140, "each once");
    assert!(rows.iter().all(|row| row.starts_with("Moss")), "of this dog alone");
    let (rows, _) = all_rows(&mut practice.lead, &format!("/dogs/{moss}/timeline?kind=life")).await;
    assert_eq!(rows.len(), 70);
    assert!(rows.iter().all(|row| row.contains("life")), "older pages stay narrowed");
    // an address of another dog's row shows nothing of that dog
    let id: Uuid = sqlx::query_scalar("select id from message where dog_id = $1 limit 1")
        .bind(wren)
        .fetch_one(&mut raw)
        .await
        .expect("a message");
    let page = practice.lead.get(&format!("/dogs/{moss}/timeline?before=1772366400000000.{id}.8")).await;
    assert!(!page.text("main").contains("Wren message"));
}
