//! Booked lessons: on the household's clocks, one at a time for a trainer unless it is wanted, called off, held, read by the household.

use sqlx::AssertSqlSafe;
use time::Duration;
use uuid::Uuid;

use crate::incidents::{beginning, log, tell};
use crate::support::builders::id_in;
use crate::support::{Answer, Practice, World};

const BOOK: &str = "main form[action$='/lessons/book']";
const NOTE: &str = "main form[data-keep]";

async fn book(practice: &mut Practice, dog: Uuid, fields: &[(&str, &str)]) -> Answer {
    let page = practice.lead.get(&format!("/dogs/{dog}/lessons")).await;
    practice.lead.submit(&page, BOOK, fields).await
}

#[tokio::test]
async fn a_lesson_is_on_the_households_clocks_on_both_sides_of_summer_time() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    // the clocks go forward at one in the morning of 29 March
    for (day, instant) in [("2026-03-28", "2026-03-28 10:00Z"), ("2026-03-29", "2026-03-29 09:00Z")] {
        practice.lesson(moss, &[("day", day), ("time", "10:00"), ("place", "The green")]).await;
        let kept = format!(
            "select count(*) from appointment where starts_at = '{instant}' and local_date = '{day}'"
        );
        assert_eq!(count(&world, &kept).await, 1, "{day}");
    }
    let gap = book(&mut practice, moss, &[("day", "2026-03-29"), ("time", "01:30")]).await;
    assert!(gap.expect(422).error_of("time").contains("clocks go forward"), "{gap:?}");
    let said = ada.get("/today").await.text("main .next-lesson p:first-of-type");
    assert_eq!(said, "Your next lesson: Saturday 28 March, 10:00, 60 minutes, The green, with Rowan Airey.");
    world.pass(Duration::days(16) + Duration::hours(1));
    let said = ada.get("/today").await.text("main .next-lesson p:first-of-type");
    assert!(said.contains("Saturday 28 March"), "it is on: {said}");
    world.pass(Duration::minutes(31));
    let said = ada.get("/today").await.text("main .next-lesson p:first-of-type");
    assert!(said.contains("Sunday 29 March, 10:00"), "the first is over: {said}");
}

#[tokio::test]
async fn a_household_elsewhere_reads_its_own_clocks_and_the_trainer_both() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let page = practice.lead.get("/households/new").await;
    let filled = [("name", "Lund"), ("zone", "America/New_York")];
    let made = practice.lead.submit(&page, "main form", &filled).await;
    let household = id_in(made.location().expect("a household"), "households");
    let wren = practice.dog(household, "Wren").await;
    practice.lesson(wren, &[("day", "2026-03-20"), ("time", "09:00")]).await;
    assert_eq!(
        count(&world, "select count(*) from appointment where starts_at = '2026-03-20 13:00Z' and zone = 'America/New_York'").await,
        1
    );
    let list = practice.lead.get("/lessons").await;
    assert_eq!(list.texts("main .links .meta"), ["13:00–14:00 09:00–10:00 there"]);
    assert_eq!(list.texts("main .group h2"), ["Friday 20 March"]);
}

#[tokio::test]
async fn sent_twice_makes_one_and_other_content_is_refused() {
    let world = World::new().await;
    let (mut practice, moss, _) = beginning(&world).await;
    let page = practice.lead.get(&format!("/dogs/{moss}/lessons")).await;
    for _ in 0..2 {
        practice.lead.submit(&page, BOOK, &[("place", "The green")]).await.expect(303);
    }
    practice.lead.submit(&page, BOOK, &[("place", "The lane")]).await.expect(409);
    assert_eq!(count(&world, "select count(*) from appointment where place_name = 'The green'").await, 1);
    assert_eq!(count(&world, "select count(*) from appointment").await, 1);
    for (fields, field) in [
        (("day", "2026-03-11"), "day"),
        (("day", "2029-03-11"), "day"),
        (("day", ""), "day"),
        (("time", ""), "time"),
        (("minutes", "14"), "minutes"),
        (("minutes", "241"), "minutes"),
        (("minutes", ""), "minutes"),
        (("trainer", "00000000-0000-4000-8000-000000000001"), "trainer"),
    ] {
        let refused = book(&mut practice, moss, &[fields]).await;
        assert!(!refused.expect(422).error_of(field).is_empty(), "{fields:?}");
        assert_eq!(
            refused.attribute("main form [name=minutes]", "value").is_empty(),
            fields == ("minutes", "")
        );
    }
    assert_eq!(count(&world, "select count(*) from appointment").await, 1);
}

#[tokio::test]
async fn a_clash_is_a_warning_and_no_wall() {
    let world = World::new().await;
    let (mut practice, moss, _) = beginning(&world).await;
    practice.trainer(&world, "Tamsin Rook").await;
    let household = practice.household("Lund").await;
    let wren = practice.dog(household, "Wren").await;
    let ten = [("day", "2026-03-20"), ("time", "10:00"), ("minutes", "60")];
    practice.lesson(moss, &ten).await;
    let half = [("day", "2026-03-20"), ("time", "10:30"), ("minutes", "60")];
    let warned = book(&mut practice, wren, &half).await;
    let said = warned.expect(422).error_of("anyway");
    assert!(said.contains("a lesson with Moss then, 10:00–11:00"), "{said}");
    assert_eq!(count(&world, "select count(*) from appointment").await, 1);
    // before, after, and with somebody else there is none
    for time in ["09:00", "11:00"] {
        book(&mut practice, wren, &[("day", "2026-03-20"), ("time", time), ("minutes", "60")])
            .await
            .expect(303);
    }
    let offered = warned.texts("#f-trainer option").into_iter().position(|name| name == "Tamsin Rook");
    let tamsin = warned.attributes("#f-trainer option", "value")[offered.expect("is offered")].clone();
    let other = [half[0], half[1], half[2], ("trainer", tamsin.as_str())];
    book(&mut practice, wren, &other).await.expect(303);
    // and both are kept where that is wanted
    practice.lead.submit(&warned, "main form", &[("anyway", "yes")]).await.expect(303);
    assert_eq!(count(&world, "select count(*) from appointment").await, 5);
    // one that is moved onto another is warned of as well, and not of itself
    let lessons = practice.lead.get("/lessons").await;
    let path = lessons.attributes("main .links a", "href").remove(0);
    let page = practice.lead.get(&path).await;
    let form = format!("main form[action='{path}']");
    let moved = practice.lead.submit(&page, &form, &[("time", "09:15")]).await;
    assert!(moved.expect(422).error_of("anyway").contains("Moss"), "{moved:?}");
    practice.lead.submit(&page, &form, &[("time", "08:00")]).await.expect(303);
}

#[tokio::test]
async fn a_lesson_is_moved_and_a_page_that_was_open_for_long_overwrites_nobody() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let path = practice.lesson(moss, &[("day", "2026-03-20"), ("time", "10:00")]).await;
    let form = format!("main form[action='{path}']");
    let (first, second) = (practice.lead.get(&path).await, practice.lead.get(&path).await);
    for _ in 0..2 {
        let moved = practice.lead.submit(&first, &form, &[("time", "14:00"), ("place", "The lane")]).await;
        moved.redirects_to(&format!("{path}?notice=lesson-moved"));
    }
    let late = practice.lead.submit(&second, &form, &[("time", "16:00")]).await;
    assert!(late.expect(422).error_of("day").contains("changed after you opened"), "{late:?}");
    assert_eq!(count(&world, "select revision::bigint from appointment").await, 1);
    assert!(ada.get("/today").await.text("main .next-lesson").contains("14:00, 60 minutes, The lane"));
}

#[tokio::test]
async fn what_is_called_off_is_gone_from_today_and_from_the_list() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let path = practice.lesson(moss, &[("day", "2026-03-13"), ("time", "10:00")]).await;
    let form = format!("main form[action='{path}/call-off']");
    let page = practice.lead.get(&path).await;
    let fields = [("called_off_by", "household"), ("why", "Canary: a cold")];
    for _ in 0..2 {
        practice.lead.submit(&page, &form, &fields).await.expect(303);
    }
    practice.lead.submit(&page, &form, &[("why", "Something else")]).await.expect(409);
    let page = practice.lead.get(&path).await;
    assert!(page.text("main .facts").contains("Called off by the household: Canary: a cold"));
    assert_eq!(page.count("main form"), 0, "there is nothing left to change");
    assert_eq!(practice.lead.get("/lessons").await.count("main .links a"), 0);
    let today = ada.get("/today").await;
    assert_eq!(today.count("main .next-lesson"), 0);
    world.pass(Duration::days(1));
    practice.lead_signs_in().await;
    let id = practice.things["appointment"].to_string();
    let lessons = format!("/dogs/{moss}/lessons");
    let note = [("appointment", id.as_str()), ("on", "2026-03-13"), ("summary", "Well done.")];
    let refused = practice.lead.post(&lessons, &note).await;
    assert!(refused.expect(422).error_of("on").contains("was called off"), "{refused:?}");
    assert_eq!(count(&world, "select count(*) from lesson").await, 0);
    let file = ada.get(&format!("{path}/lesson.ics")).await;
    assert!(file.body().contains("STATUS:CANCELLED\r\n") && file.body().contains("SEQUENCE:1\r\n"));
    assert!(!file.body().contains("Canary"));
}

#[tokio::test]
async fn the_note_of_a_lesson_marks_it_held_and_its_private_part_stays_with_trainers() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let path = practice.lesson(moss, &[("day", "2026-03-14"), ("time", "10:00")]).await;
    let id = practice.things["appointment"];
    assert_eq!(practice.lead.get(&path).await.count(&format!("main a[href*='after={id}']")), 0, "not yet");
    world.pass(Duration::days(3));
    practice.lead_signs_in().await;
    let list = practice.lead.get("/lessons").await;
    assert_eq!(list.texts("main .group h2"), ["Over, and without a note 1"]);
    let link = list.attributes("main .links a", "href").remove(0);
    let after = practice.lead.get(link.split('#').next().expect("a path")).await;
    assert_eq!(after.attribute("#f-on", "value"), "2026-03-14", "its day is filled in");
    // sorting the note keeps the lesson that it is of
    let sorted =
        practice.lead.submit(&after, NOTE, &[("note", "Calm.\n! canary, worn out"), ("do", "sort")]).await;
    for _ in 0..2 {
        practice.lead.submit(&sorted, NOTE, &[]).await.expect(303);
    }
    let held = "select count(*) from lesson l join appointment a on a.id = l.appointment_id
                where a.state = 'held' and l.held_on = '2026-03-14' and l.private_note = 'canary, worn out'";
    assert_eq!(count(&world, held).await, 1);
    let again = practice
        .lead
        .submit(&after, NOTE, &[("id", &Uuid::new_v4().to_string()), ("summary", "Twice")])
        .await;
    assert!(again.expect(422).error_of("on").contains("has its note already"), "{again:?}");
    assert_eq!(count(&world, "select count(*) from lesson").await, 1);
    assert_eq!(practice.lead.get("/lessons").await.count("main .links a"), 0);
    for page in ["/today", "/messages", "/plan", "/progress"] {
        assert!(!ada.get(page).await.body().contains("canary"), "{page}");
    }
    assert!(!ada.get(&format!("{path}/lesson.ics")).await.body().contains("canary"));
    for page in [path.clone(), format!("/dogs/{moss}/lessons"), "/lessons".to_owned()] {
        ada.get(&page).await.expect(404);
    }
    ada.post(&path, &[("day", "2026-04-01")]).await.expect(403);
}

#[tokio::test]
async fn what_changed_since_the_last_lesson_is_there_to_prepare() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    log(&mut ada, moss, &[("attempts", "10"), ("left", "5")]).await;
    let lessons = format!("/dogs/{moss}/lessons");
    let page = practice.lead.get(&lessons).await;
    practice.lead.submit(&page, NOTE, &[("summary", "A start.")]).await.expect(303);
    for left in ["0", "2"] {
        world.pass(Duration::days(1));
        log(&mut ada, moss, &[("attempts", "10"), ("left", left)]).await;
    }
    tell(&mut ada, moss, &[("kind", "reaction"), ("note", "A van.")]).await;
    let messages = ada.get("/messages").await;
    ada.submit(&messages, "main form:has(textarea)", &[("body", "May she swim?")]).await.expect(303);
    practice.lead_signs_in().await;
    let weighed = [("on", "2026-03-14"), ("kg", "18.5")];
    practice.lead.post(&format!("/dogs/{moss}/weights"), &weighed).await.expect(303);
    let path = practice.lesson(moss, &[("day", "2026-03-20")]).await;
    for page in [path, lessons] {
        let said = practice.lead.get(&page).await.text("#prepare");
        for words in [
            "Since the lesson of Thu 12 Mar",
            "2 sittings on 2 days, 18 of 20 met",
            "Nose to hand: 2 sittings on 2 days",
            "Met something that sets the dog off, Sat 14 Mar",
            "18.5 kg on Sat 14 Mar",
            "A message waits for your answer",
        ] {
            assert!(said.contains(words), "{words} is not in {said}");
        }
    }
}

#[tokio::test]
async fn a_calendar_takes_the_file_of_a_lesson() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = beginning(&world).await;
    let place = "Grüne Wiese, by the gate; second field, left of the old barn, where the beech hedge ends";
    let path = practice.lesson(moss, &[("day", "2026-03-30"), ("time", "10:00"), ("place", place)]).await;
    let link = ada.get("/today").await.attribute("main .next-lesson a", "href");
    assert_eq!(link, format!("{path}/lesson.ics"));
    let file = ada.get(&link).await;
    assert_eq!(file.expect(200).header("content-type"), Some("text/calendar; charset=utf-8"));
    let id = practice.things["appointment"];
    for line in
        [&format!("UID:{id}@settlebrook"), "SEQUENCE:0", "DTSTART:20260330T090000Z", "DTEND:20260330T100000Z"]
    {
        assert!(file.body().contains(&format!("{line}\r\n")), "{line}: {}", file.body());
    }
    assert!(file.body().split("\r\n").all(|line| line.len() <= 75), "{}", file.body());
    let unfolded = file.body().replace("\r\n ", "");
    assert!(unfolded.contains("LOCATION:Grüne Wiese\\, by the gate\\; second field\\, left"), "{unfolded}");
    let household = practice.household("Lund").await;
    practice.dog(household, "Wren").await;
    let mut bo = practice.owner(&world, household, "Bo Lund").await;
    bo.get(&link).await.expect(404);
    let form = format!("main form[action='{path}']");
    let page = practice.lead.get(&path).await;
    practice.lead.submit(&page, &form, &[("minutes", "90")]).await.expect(303);
    let moved = ada.get(&link).await;
    assert!(moved.body().contains("SEQUENCE:1\r\n") && moved.body().contains("DTEND:20260330T103000Z\r\n"));
    assert!(moved.body().contains(&format!("UID:{id}@settlebrook\r\n")));
}

#[tokio::test]
async fn the_list_goes_on_from_page_to_page_and_is_ones_own_or_everybodys() {
    let world = World::new().await;
    let (mut practice, moss, _) = beginning(&world).await;
    let mut tamsin = practice.trainer(&world, "Tamsin Rook").await;
    practice.lesson(moss, &[("day", "2026-03-20"), ("time", "10:00")]).await;
    let more = "insert into appointment select (jsonb_populate_record(a, jsonb_build_object(
        'id', gen_random_uuid(), 'starts_at', a.starts_at + n * interval '1 day'))).*
        from appointment a, generate_series(1, 35) n";
    let mut everything = world.database.as_superuser().await;
    sqlx::raw_sql(AssertSqlSafe(more)).execute(&mut everything).await.expect("books more");
    let first = practice.lead.get("/lessons").await;
    let second = practice.lead.get(&first.link("Later")).await;
    let shown = [&first, &second].map(|page| page.attributes("main .links a", "href"));
    assert_eq!(shown.each_ref().map(Vec::len), [30, 6]);
    assert!(shown[0].iter().all(|href| !shown[1].contains(href)));
    assert_eq!(second.count("main .pages a"), 0);
    assert_eq!(tamsin.get("/lessons").await.count("main .links a"), 0);
    let everyones = tamsin.get("/lessons?show=everyone").await;
    assert_eq!(everyones.count("main .links a"), 30);
    assert_eq!(tamsin.get(&everyones.link("Later")).await.count("main .links a"), 6);
    for after in
        ["abc", "1_abc", "9999999999999999999_abc", "-99999999999999_00000000-0000-4000-8000-000000000001"]
    {
        tamsin.get(&format!("/lessons?after={after}")).await.expect(404);
    }
}

#[tokio::test]
async fn another_dogs_lesson_is_not_found_and_a_trainer_who_leaves_hands_theirs_over() {
    let world = World::new().await;
    let (mut practice, moss, _) = beginning(&world).await;
    let household = practice.household("Lund").await;
    let wren = practice.dog(household, "Wren").await;
    let mut tamsin = practice.trainer(&world, "Tamsin Rook").await;
    let page = tamsin.get(&format!("/dogs/{moss}/lessons")).await;
    tamsin.submit(&page, BOOK, &[]).await.expect(303);
    let path = tamsin.get("/lessons").await.attributes("main .links a", "href").remove(0);
    let elsewhere = path.replace(&moss.to_string(), &wren.to_string());
    practice.lead.get(&elsewhere).await.expect(404);
    practice.lead.post(&elsewhere, &[("day", "2026-04-01")]).await.expect(404);
    practice.lead.post(&format!("{elsewhere}/call-off"), &[]).await.expect(404);
    practice.lead.get(&format!("{elsewhere}/lesson.ics")).await.expect(404);
    let id = path.rsplit('/').next().expect("an id");
    practice.lead.get(&format!("/dogs/{wren}/lessons?after={id}")).await.expect(404);
    assert_eq!(practice.lead.get("/lessons").await.count("main .links a"), 0);
    let team = practice.lead.get("/practice").await;
    let remove = team.attributes("main a[href$='/remove']", "href").remove(0);
    practice.lead.post(&remove, &[]).await.expect(303);
    assert_eq!(practice.lead.get("/lessons").await.count("main .links a"), 1);
}

async fn count(world: &World, query: &str) -> i64 {
    let mut everything = world.database.as_superuser().await;
    sqlx::query_scalar(AssertSqlSafe(query)).fetch_one(&mut everything).await.expect("counts")
}
