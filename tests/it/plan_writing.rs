//! Writing a plan: starting points, kept plans, what stands beside the form, two at one draft, what differs.

use settlebrook::domain::starting_points;
use uuid::Uuid;

use crate::support::builders::id_in;
use crate::support::html::form;
use crate::support::{Answer, Practice, World};

/// A practice with one household and one dog, which has places, reinforcers and a weight.
async fn kennel(world: &World) -> (Practice, Uuid, Uuid) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    furnish(&mut practice, moss).await;
    (practice, household, moss)
}

async fn furnish(practice: &mut Practice, dog: Uuid) {
    for (name, level) in [("Kitchen", "1"), ("Garden", "2"), ("Green", "4")] {
        let page = practice.lead.get(&format!("/dogs/{dog}/places/new")).await;
        let fields = [("name", name), ("distraction", level), ("secure", "yes"), ("near_road", "no")];
        practice.lead.submit(&page, "main form", &fields).await.expect(303);
    }
    for (what, rank, kcal) in [("Kibble", "2", "3.6"), ("Cheese", "5", "4.0")] {
        let page = practice.lead.get(&format!("/dogs/{dog}/reinforcers/new")).await;
        let fields = [("what", what), ("rank", rank), ("kcal_per_g", kcal), ("grams_per_piece", "0.5")];
        practice.lead.submit(&page, "main form", &fields).await.expect(303);
    }
    practice
        .lead
        .post(&format!("/dogs/{dog}/weights"), &[("on", "2026-03-11"), ("kg", "15")])
        .await
        .expect(303);
}

async fn start(practice: &mut Practice, dog: Uuid, from: &[(&str, &str)]) -> Answer {
    practice.lead.post(&format!("/dogs/{dog}/plan/start"), from).await
}

/// The form of the draft's line that holds this exercise, with its address.
async fn line_of(practice: &mut Practice, dog: Uuid, name: &str) -> (String, Answer) {
    let edit = practice.lead.get(&format!("/dogs/{dog}/plan/edit")).await;
    let link = edit.link(&format!("Edit {name}"));
    let page = practice.lead.get(&link).await;
    (link, page)
}

/// Presses "Check" on a line's form with something else in it.
async fn tried(practice: &mut Practice, page: &Answer, link: &str, fields: &[(&str, &str)]) -> Answer {
    let mut sent = form(page, &format!("main form[action='{link}']")).fields;
    sent.retain(|(name, _)| !fields.iter().any(|(other, _)| other == name));
    sent.extend(fields.iter().map(|(name, value)| ((*name).to_owned(), (*value).to_owned())));
    let sent: Vec<(&str, &str)> = sent.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    practice.lead.post(&format!("{link}/check"), &sent).await
}

/// Does something to the records that no page does.
async fn behind_the_pages(world: &World, statement: &'static str) {
    sqlx::query(statement).execute(&mut world.database.as_superuser().await).await.expect(statement);
}

#[tokio::test]
async fn every_starting_point_becomes_a_plan_without_a_stop() {
    let world = World::new().await;
    let (mut practice, household, _) = kennel(&world).await;
    for point in starting_points::for_age(None) {
        let born = match point.weeks {
            Some((from, _)) => world.app.moment().at.date() - time::Duration::weeks(from.max(8)),
            None => time::macros::date!(2022 - 03 - 01),
        };
        let dog = practice.dog_born(household, point.key, &born.to_string()).await;
        furnish(&mut practice, dog).await;
        let offered = practice.lead.get(&format!("/dogs/{dog}/plan/start")).await;
        if point.weeks.is_some() {
            assert!(offered.texts("main li.row")[0].contains("For this age"), "{}", point.key);
        }
        start(&mut practice, dog, &[("point", point.key)])
            .await
            .redirects_to(&format!("/dogs/{dog}/plan/edit?notice=plan-started"));
        start(&mut practice, dog, &[("point", point.key)])
            .await
            .redirects_to(&format!("/dogs/{dog}/plan/edit?notice=plan-started-none"));
        let edit = practice.lead.get(&format!("/dogs/{dog}/plan/edit")).await;
        assert_eq!(edit.count("main article.item"), point.items.len(), "{}", point.key);
        let text = edit.text("main");
        for unsaid in ["No length planned", "No place planned", "No reinforcer", "Plan too large"] {
            assert!(!text.contains(unsaid), "{}: {unsaid} in {text}", point.key);
        }
        let publish = practice.lead.get(&format!("/dogs/{dog}/plan/publish")).await;
        assert_eq!(publish.text("#f-note"), point.note, "the owner is told why");
        assert_eq!(publish.count(".watch.stop"), 0, "{}: {}", point.key, publish.text("main"));
        practice.lead.submit(&publish, "main form", &[]).await.expect(303);
    }
    let counted = "select count(*) from plan_item i join plan_version v on v.id = i.plan_version_id join dog d on d.id = v.dog_id
        where d.name = 'new-home' and i.kind = 'exercise' and i.outcome = 'count'";
    assert_eq!(world.database.count(counted).await, 0, "nothing is counted in a new home");
}

#[tokio::test]
async fn what_the_library_does_not_have_any_more_is_put_back_and_what_was_put_away_stays_away() {
    let world = World::new().await;
    let (mut practice, _, moss) = kennel(&world).await;
    behind_the_pages(&world, "delete from exercise where name = 'No greetings for now'").await;
    behind_the_pages(
        &world,
        "update exercise set archived_at = now() where name = 'Walks at the quiet hours'",
    )
    .await;
    start(&mut practice, moss, &[("point", "new-home")]).await.expect(303);
    let edit = practice.lead.get(&format!("/dogs/{moss}/plan/edit")).await.text("main");
    assert!(edit.contains("No greetings for now") && !edit.contains("Walks at the quiet hours"), "{edit}");
    for bad in [&[][..], &[("point", "no-such")], &[("lender", "x")], &[("template", "x")]] {
        start(&mut practice, moss, bad).await.expect(422);
    }
    let nobody = Uuid::from_u128(7).to_string();
    start(&mut practice, moss, &[("lender", nobody.as_str())]).await.expect(404);
    start(&mut practice, moss, &[("template", nobody.as_str())]).await.expect(404);
}

#[tokio::test]
async fn a_line_is_fitted_to_the_dog_and_begins_where_it_stood() {
    let world = World::new().await;
    let (mut practice, _, moss) = kennel(&world).await;
    let edit = practice.lead.get(&format!("/dogs/{moss}/plan/edit")).await;
    assert!(edit.count("datalist option") > 20);
    let named = format!("main form[action='/dogs/{moss}/plan/add-named']");
    let added = practice.lead.submit(&edit, &named, &[("name", "nose TO hand")]).await;
    assert!(added.location().is_some_and(|to| to.contains("plan-added-here")), "{added:?}");
    practice.lead.submit(&edit, &named, &[("name", "nose TO hand")]).await.expect(303);
    let count = "select count(*) from plan_draft_item";
    assert_eq!(world.database.count(count).await, 1, "sent twice, added once");
    let (link, page) = line_of(&mut practice, moss, "Nose to hand").await;
    let chosen = |page: &Answer, field: &str| page.text(&format!("#f-{field} option[selected]"));
    assert_eq!(chosen(&page, "place"), "Kitchen (distraction 1 of 5)");
    assert_eq!(chosen(&page, "reinforcer"), "Kibble (worth 2 of 5)");
    let steps = page.attributes("#f-step option", "value");
    practice
        .lead
        .submit(&page, &format!("main form[action='{link}']"), &[("step", &steps[2])])
        .await
        .expect(303);
    practice.lead.post(&format!("/dogs/{moss}/plan/publish"), &[]).await.expect(303);
    practice.lead.post(&format!("{link}/remove"), &[]).await.expect(303);
    let edit = practice.lead.get(&format!("/dogs/{moss}/plan/edit")).await;
    practice.lead.submit(&edit, &named, &[("name", "Nose to hand")]).await.expect(303);
    let (_, page) = line_of(&mut practice, moss, "Nose to hand").await;
    assert_eq!(page.attributes("#f-step option[selected]", "value"), [steps[2].clone()], "where it stood");
    let unknown = practice.lead.submit(&edit, &named, &[("name", "Juggling & more")]).await;
    unknown.redirects_to(&format!("/dogs/{moss}/plan/add?q=Juggling+%26+more"));
}

#[tokio::test]
async fn what_the_rules_find_appears_while_writing_and_goes_when_it_is_mended() {
    let world = World::new().await;
    let (mut practice, _, moss) = kennel(&world).await;
    practice
        .lead
        .post(&format!("/dogs/{moss}/plan/add-named"), &[("name", "Come, on the long line")])
        .await
        .expect(303);
    let (link, page) = line_of(&mut practice, moss, "Come, on the long line").await;
    let before = world.database.fingerprint().await;
    let asked =
        tried(&mut practice, &page, &link, &[("clip", "collar"), ("times_a_week", "7"), ("attempts", "50")])
            .await;
    let panel = asked.expect(200).text("#panel");
    assert!(panel.contains("Come, on the long line"), "it names the item: {panel}");
    assert!(asked.count("#panel .watch.stop") >= 1, "{panel}");
    assert!(
        panel.contains("of the daily need") && panel.contains("minutes of practice on one day"),
        "{panel}"
    );
    assert_eq!(asked.attributes("#f-clip option[selected]", "value"), ["collar"], "what is typed stays");
    let asked = tried(&mut practice, &asked, &link, &[("clip", "harness_back"), ("attempts", "5")]).await;
    assert_eq!(asked.expect(200).count("#panel .watch.stop"), 0, "{}", asked.text("#panel"));
    let asked = tried(&mut practice, &asked, &link, &[("attempts", "500")]).await;
    assert!(asked.expect(422).error_of("attempts").contains("from 1 to 50"));
    assert_eq!(world.database.fingerprint().await, before, "checking keeps nothing");
}

#[tokio::test]
async fn two_at_one_line_lose_nothing() {
    let world = World::new().await;
    let (mut practice, _, moss) = kennel(&world).await;
    let mut wren = practice.trainer(&world, "Wren Hale").await;
    practice
        .lead
        .post(&format!("/dogs/{moss}/plan/add-named"), &[("name", "Nose to hand")])
        .await
        .expect(303);
    let (link, mine) = line_of(&mut practice, moss, "Nose to hand").await;
    let theirs = wren.get(&link).await;
    assert!(theirs.text("main").contains("is at this draft as well"), "{}", theirs.text("main"));
    let form = format!("main form[action='{link}']");
    wren.submit(&theirs, &form, &[("note", "Left hand first.")]).await.expect(303);
    wren.submit(&theirs, &form, &[("note", "Left hand first.")]).await.expect(303);
    let again = practice.lead.submit(&mine, &form, &[("note", "Right hand first."), ("minutes", "3")]).await;
    let text = again.expect(422).text("main");
    assert!(text.contains("Somebody changed this item") && text.contains("What it says now"), "{text}");
    assert!(text.contains("Left hand first."), "what the other wrote is shown: {text}");
    assert_eq!(again.text("#f-note"), "Right hand first.", "and what was typed is still there");
    let kept = "select count(*) from plan_draft_item where note = 'Left hand first.' and minutes is null";
    assert_eq!(world.database.count(kept).await, 1);
    practice.lead.submit(&again, &form, &[]).await.expect(303);
    let kept = "select count(*) from plan_draft_item where note = 'Right hand first.' and minutes = 3";
    assert_eq!(world.database.count(kept).await, 1, "sent again it stands");
}

#[tokio::test]
async fn a_draft_is_kept_for_other_dogs_without_what_is_this_dogs() {
    let world = World::new().await;
    let (mut practice, household, moss) = kennel(&world).await;
    start(&mut practice, moss, &[("point", "pulls")]).await.expect(303);
    let page = practice.lead.get(&format!("/dogs/{moss}/plan/template")).await;
    practice.lead.submit(&page, "main form", &[("name", "")]).await.expect(422);
    let fields = [("name", "Pullers, first month"), ("about", "Keen young dogs.")];
    for _ in 0..2 {
        let kept = practice.lead.submit(&page, "main form", &fields).await;
        kept.redirects_to(&format!("/dogs/{moss}/plan/edit?notice=template-kept"));
    }
    let twice = practice.lead.get(&format!("/dogs/{moss}/plan/template")).await;
    let taken = practice.lead.submit(&twice, "main form", &[("name", "pullers, First month")]).await;
    assert!(taken.expect(422).error_of("name").contains("has this name"));
    let tansy = practice.dog(household, "Tansy").await;
    let offered = practice.lead.get(&format!("/dogs/{tansy}/plan/start")).await;
    let template = offered.attribute("button[name=template]", "value");
    start(&mut practice, tansy, &[("template", &template)]).await.expect(303);
    let same = "select count(*) from plan_draft_item where dog_id = (select id from dog where name = 'Tansy')
        and place_id is null and reinforcer_id is null";
    assert_eq!(world.database.count(same).await, 4, "she has no places and reinforcers yet");
    practice.lead.post(&format!("/dogs/{moss}/plan/publish"), &[]).await.expect(303);
    let fern = practice.dog(household, "Fern").await;
    let offered = practice.lead.get(&format!("/dogs/{fern}/plan/start")).await;
    assert_eq!(offered.texts("#f-lender option"), ["Moss (Okoro)"]);
    start(&mut practice, fern, &[("lender", &moss.to_string())]).await.expect(303);
    assert_eq!(practice.lead.get(&format!("/dogs/{fern}/plan/edit")).await.count("main article.item"), 4);

    let mut elsewhere = world.practice("Moor and Mere").await;
    let house = elsewhere.household("Fry").await;
    let pip = elsewhere.dog(house, "Pip").await;
    start(&mut elsewhere, pip, &[("template", &template)]).await.expect(404);
    start(&mut elsewhere, pip, &[("lender", &moss.to_string())]).await.expect(404);
    elsewhere.lead.post(&format!("/library/templates/{template}/remove"), &[]).await.expect(404);

    let ask = practice.lead.get(&format!("/library/templates/{template}/remove")).await;
    practice.lead.submit(&ask, "main form", &[]).await.redirects_to("/library?notice=template-removed");
    practice.lead.get(&format!("/library/templates/{template}/remove")).await.expect(404);
    assert_eq!(practice.lead.get(&format!("/dogs/{tansy}/plan/edit")).await.count("main article.item"), 4);
}

#[tokio::test]
async fn any_two_versions_are_compared_in_words() {
    let world = World::new().await;
    let (mut practice, _, moss) = kennel(&world).await;
    practice.publish_plan(moss, &["Nose to hand"]).await;
    let (link, page) = line_of(&mut practice, moss, "Nose to hand").await;
    practice
        .lead
        .submit(&page, &format!("main form[action='{link}']"), &[("attempts", "6")])
        .await
        .expect(303);
    practice.publish_plan(moss, &["Settle on a mat"]).await;
    let plan = practice.lead.get(&format!("/dogs/{moss}/plan")).await;
    let versions = plan.attributes("main a[href*='/plan/versions/']", "href");
    let first = id_in(&versions[1], "versions");
    let page = practice.lead.get(&format!("{}?against={first}", versions[0])).await.text("main");
    assert!(page.contains("Against plan 1") && page.contains("Tries 10 → 6"), "{page}");
    assert!(page.contains("New") && page.contains("Settle on a mat"), "{page}");
    practice.lead.get(&format!("{}?against={}", versions[0], Uuid::from_u128(9))).await.expect(404);
    practice.lead.get(&format!("{}?against=x", versions[0])).await.expect(404);
    let update =
        sqlx::query("update plan_item set attempts = 1").execute(&mut world.database.as_app().await).await;
    assert!(update.is_err_and(|e| e.to_string().contains("permission denied")), "the database refuses");
}
