//! The library as a file: out of one practice, into another, and what is said of a file that is not right.

use serde_json::{Value, json};

use crate::support::{Answer, Browser, World};

const HOSTILE: &str = "</textarea><script>alert(1)</script> ' \" & “x” \u{202e}";

async fn pasted(lead: &mut Browser, text: &str, button: &str) -> Answer {
    let page = lead.get("/library/import").await;
    lead.submit(&page, "main form", &[("text", text), ("do", button)]).await
}

fn file(exercises: &Value) -> String {
    json!({"format": "exercise-library", "version": 1, "exercises": exercises}).to_string()
}

fn least(name: &str) -> Value {
    json!({"kind": "exercise", "name": name, "criterion": "Looks"})
}

async fn count(world: &World) -> i64 {
    let query = "select (select count(*) from exercise) * 100000 + (select count(*) from step)";
    sqlx::query_scalar(query).fetch_one(&mut world.database.as_superuser().await).await.expect("counts")
}

#[tokio::test]
async fn a_library_goes_out_and_comes_in_as_it_was() {
    let world = World::new().await;
    let mut here = world.practice("Heath and Hollow").await;
    let odd = json!({"kind": "owner_skill", "name": HOSTILE, "criterion": "Line one\nline two", "class": "safety",
        "line": "long_line", "clip": "harness_back", "impact": true, "cool_down_minutes": 7, "caution": HOSTILE,
        "steps": [{"name": HOSTILE, "criterion": "C", "distance": "3 metres", "distraction": 5}]});
    pasted(&mut here.lead, &file(&json!([odd])), "add")
        .await
        .redirects_to("/library?notice=exercises-imported");
    let out = here.lead.get("/library/export.json").await;
    assert_eq!(out.header("content-disposition"), Some("attachment; filename=\"library.json\""));
    let mut there = world.practice("Fell and Fern").await;
    let mut everything = world.database.as_superuser().await;
    for table in ["step", "exercise"] {
        let query = format!("delete from {table} where practice_id = $1");
        sqlx::query(sqlx::AssertSqlSafe(query)).bind(there.id.0).execute(&mut everything).await.expect(table);
    }
    let checked = pasted(&mut there.lead, out.body(), "check").await;
    assert_eq!(checked.texts(".problems li"), [""; 0], "our own file is read");
    let entries: Value = serde_json::from_str(out.body()).expect("JSON");
    let entries = entries["exercises"].as_array().expect("a list").len();
    assert_eq!(checked.expect(200).count("main .pill.moss"), entries, "all are new");
    let added = there.lead.submit(&checked, "main form", &[("do", "add")]).await;
    added.redirects_to("/library?notice=exercises-imported");
    let back = there.lead.get("/library/export.json").await;
    assert_eq!(back.body(), out.body());
    let list = there.lead.get("/library?show=owner_skill").await;
    assert!(list.texts("main .links b").contains(&HOSTILE.trim().to_owned()), "hostile text is text");
}

#[tokio::test]
async fn checking_adds_nothing_and_a_name_that_is_taken_is_left_out_or_copied() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let text = file(&json!([least("Moving search"), least("Something new"), least("Timing the yes")]));
    let before = count(&world).await;
    let page = pasted(&mut lead, &text, "check").await;
    assert_eq!(count(&world).await, before, "checking writes nothing");
    assert_eq!(page.count("main select"), 2);
    assert_eq!(page.text("#f-text"), text, "what was pasted is still there");
    let options = page.attributes("select[name=entry-1] option", "value");
    assert_eq!(options, ["", "Moving search (2)"]);
    let chosen = [("entry-1", "Moving search (2)"), ("do", "add")];
    lead.submit(&page, "main form", &chosen).await.redirects_to("/library?notice=exercises-imported");
    let names = lead.get("/library?q=moving+search").await.texts("main .links b");
    assert_eq!(names, ["Moving search", "Moving search (2)"]);
    assert_eq!(count(&world).await, before + 200_000, "the copy and the new one, not the one left out");
    let again = lead.submit(&page, "main form", &chosen).await;
    again.expect(422);
    assert!(again.error_of("text").contains("library changed"), "{}", again.error_of("text"));
    assert_eq!(count(&world).await, before + 200_000, "sent twice, it is added once");
    let none = pasted(&mut lead, &file(&json!([least("Moving search")])), "add").await;
    assert!(none.expect(422).error_of("text").contains("nothing to add"));
}

#[tokio::test]
async fn what_is_wrong_is_listed_and_nothing_is_added() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let before = count(&world).await;
    let step = json!({"name": "Near", "criterion": "Looks", "distraction": 6});
    let bad = json!({"kind": "trick", "name": "Come", "criterion": "Looks", "steps": [step], "source": "x".repeat(501)});
    let unknown = json!({"kind": "exercise", "name": "Sit", "criterion": "Sits", "colour": "red"});
    let page = pasted(&mut lead, &file(&json!([least("Fine"), bad, unknown])), "add").await;
    let said = page.expect(422).texts(".problems li");
    assert_eq!(said.len(), 4, "{said:?}");
    assert!(
        said.contains(
            &"Exercise 2, “Come”, step 1, distraction: enter a whole number from 1 to 5.".to_owned()
        )
    );
    assert!(said.contains(&"Exercise 3, “Sit”: there is no field “colour” in this format.".to_owned()));
    assert!(page.error_of("text").starts_with("The file has 4 things"));
    let empty = pasted(&mut lead, " ", "check").await;
    assert_eq!(empty.expect(422).error_of("text"), "Paste a library file, or choose one.");
    let none = pasted(&mut lead, "<html>", "check").await;
    assert_eq!(none.expect(422).texts(".problems li"), ["this must be an object in curly brackets."]);
    let long = "x".repeat(1_000_001);
    let long = lead.post("/library/import", &[("text", &long), ("do", "add")]).await;
    assert!(long.expect(422).error_of("text").contains("at most 1000000"));
    let longer = "x".repeat(3 * 1024 * 1024);
    lead.post("/library/import", &[("text", &longer)]).await.expect(413);
    lead.post("/library/new", &[("name", &"x".repeat(70_000))]).await.expect(413);
    assert_eq!(count(&world).await, before);
}

#[tokio::test]
async fn it_is_the_trainers_alone() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let mut owner = practice.owner(&world, household, "Ada Okoro").await;
    let mut trainer = practice.trainer(&world, "Tamsin Rook").await;
    let entry = practice.lead.get("/library").await.attributes("main .links a", "href")[0].clone();
    let pages = ["/library/export.json", "/library/import", "/library/format"].map(str::to_owned);
    for path in pages.into_iter().chain([format!("{entry}/steps.csv"), format!("{entry}/copy")]) {
        owner.get(&path).await.expect(404);
        trainer.get(&path).await.expect(200);
    }
    owner.post("/library/import", &[("text", &file(&json!([least("A")]))), ("do", "add")]).await.expect(404);
    let mut elsewhere = world.practice("Fell and Fern").await;
    elsewhere.lead.get(&format!("{entry}/steps.csv")).await.expect(404);
    elsewhere.lead.get(&format!("{entry}/copy")).await.expect(404);
}

#[tokio::test]
async fn a_ladder_goes_through_a_spreadsheet_and_is_looked_at_before_it_is_saved() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let list = lead.get("/library?q=Moving+search").await;
    let entry = list.attributes("main .links a", "href")[0].clone();
    let out = lead.get(&format!("{entry}/steps.csv")).await;
    assert!(out.body().starts_with("name,criterion,distance,duration,distraction\r\n"), "{}", out.body());
    let steps = lead.get(&entry).await.texts(".steps li");
    let first = lead.get(&entry).await.text(".steps li:first-child b");
    let page = lead.get(&format!("{entry}/edit")).await;
    let table = format!("{}\n=Along the canal,Ears back to you,5 metres,,4\n", out.body().trim_end());
    let sent = [("csv", table.as_str()), ("do", "read-csv")];
    let looked = lead.submit(&page, "main form", &sent).await;
    assert_eq!(lead.get(&entry).await.texts(".steps li"), steps, "nothing is saved yet");
    let new = steps.len() + 1;
    assert_eq!(looked.expect(200).attribute("#f-step-1-name", "value"), first);
    assert_eq!(looked.attribute(&format!("#f-step-{new}-name"), "value"), "=Along the canal");
    assert_eq!(looked.attribute(&format!("#f-step-{new}-distraction option[selected]"), "value"), "4");
    assert_eq!(looked.text("#f-csv"), "");
    lead.submit(&looked, "main form", &[]).await.expect(303);
    let saved = lead.get(&entry).await.texts(".steps li");
    assert_eq!(saved[..steps.len()], steps[..], "what had a name already is the same step");
    assert!(saved[steps.len()].starts_with("=Along the canal"), "{saved:?}");
    let out = lead.get(&format!("{entry}/steps.csv")).await;
    assert!(out.body().contains("\n'=Along the canal,"), "no formula for a spreadsheet: {}", out.body());
}

#[tokio::test]
async fn a_table_that_cannot_be_read_changes_no_step_and_is_not_lost() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let list = lead.get("/library?q=Moving+search").await;
    let entry = list.attributes("main .links a", "href")[0].clone();
    let page = lead.get(&format!("{entry}/edit")).await;
    let table = "name,criterion,distraction\nNear,Looks,9";
    let wrong = lead.submit(&page, "main form", &[("csv", table), ("do", "read-csv")]).await;
    let said = wrong.expect(422).texts(".problems li");
    assert_eq!(said, ["Row 1, distraction: enter a whole number from 1 to 5."]);
    assert_eq!(wrong.attribute("#f-step-1-name", "value"), page.attribute("#f-step-1-name", "value"));
    let unread = lead.submit(&page, "main form", &[("csv", table)]).await;
    assert!(unread.expect(422).error_of("csv").contains("not in the steps yet"));
}
