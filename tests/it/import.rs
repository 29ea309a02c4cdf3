//! Getting in and out: households, dogs and weights from a file, checked as a whole, taken in once or not at all, and the same
//! written as a file.

use settlebrook::web::practice::import::FORM_BYTES;
use time::Duration;

use crate::support::answer::{selector, text};
use crate::support::{Answer, Browser, Practice, World};

const PAGE: &str = "/practice/import";
const ROWS: u64 = 5_000;

/// A row of a long file: ten weighings of each of 500 dogs, two to a household. Every hundredth has a mistake, by turns in one
/// of five columns.
fn row(number: u64, is_mended: bool) -> String {
    let (dog, day) = (number / 10, number % 10 + 1);
    let (household, turn) = (dog / 2, number / 100 % 5);
    let bad = |at: u64| !is_mended && number % 100 == 99 && turn == at;
    let (household, dog) = (format!("Household {household}"), format!("Dog {dog}"));
    let household = if bad(0) { String::new() } else { household };
    let born = if bad(1) { "1/2/2023" } else { "2023-02-01" };
    let sex = if bad(2) { "boy" } else { "male" };
    let on = if bad(3) { "2026-02-30".to_owned() } else { format!("2026-01-{day:02}") };
    let kg = if bad(4) { "1,8 kg".to_owned() } else { format!("{}.5", 10 + day) };
    format!("{household};{dog};{born};{sex};\"runs, and\njumps\";{on};{kg}\r\n")
}

fn long_file(is_mended: bool) -> String {
    let rows: String = (0..ROWS).map(|number| row(number, is_mended)).collect();
    format!("\u{feff}household;dog;born;sex;goal;weighed_on;kg\r\n{rows}")
}

async fn check(lead: &mut Browser, rows: &str) -> Answer {
    let page = lead.get(PAGE).await;
    lead.submit(&page, "main form", &[("rows", rows)]).await
}

/// Checks a file and imports it; gives where its outcome stands.
async fn import(lead: &mut Browser, rows: &str) -> String {
    let checked = check(lead, rows).await;
    let path = checked.expect(303).location().expect("a preview").to_owned();
    let preview = lead.get(&path).await;
    lead.submit(&preview, "main form", &[]).await.redirects_to(&format!("{path}?notice=imported"));
    path
}

/// How many households, dogs, summaries of dogs and weights there are.
async fn counts(world: &World) -> [i64; 4] {
    let queries = [
        "select count(*) from household",
        "select count(*) from dog",
        "select count(*) from dog_summary",
        "select count(*) from dog_weight",
    ];
    let mut counts = [0; 4];
    for (at, query) in queries.into_iter().enumerate() {
        counts[at] = world.database.count(query).await;
    }
    counts
}

/// The rows of a table, field by field.
fn table(answer: &Answer, label: &str) -> Vec<Vec<String>> {
    let page = answer.page();
    let (rows, fields) = (selector(&format!("[aria-label='{label}'] tbody tr")), selector("th, td"));
    page.select(&rows).map(|row| row.select(&fields).map(text).collect()).collect()
}

#[tokio::test]
async fn every_mistake_of_a_long_file_is_listed_and_nothing_is_written() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let before = world.database.fingerprint().await;
    let refused = check(&mut lead, &long_file(false)).await;
    refused.expect(422);
    assert!(refused.error_of("rows").contains("50 things to put right"), "{}", refused.error_of("rows"));
    let columns = ["household", "born", "sex", "weighed_on", "kg"];
    let wanted: Vec<(String, &str)> = (0..50_u64)
        .map(|bad| {
            // each row has a line end in its quotes, so it takes two lines below the first
            let line = 2 + 2 * (bad * 100 + 99);
            (line.to_string(), columns[usize::try_from(bad % 5).expect("small")])
        })
        .collect();
    let listed = table(&refused, "What is to put right, by line");
    let found: Vec<(String, &str)> = listed.iter().map(|row| (row[0].clone(), row[1].as_str())).collect();
    assert_eq!(found, wanted);
    let sent = refused.text("#f-rows");
    assert!(
        sent.trim_start_matches('\u{feff}').starts_with("household;dog;born"),
        "what was sent is still there: {}",
        &sent[..80]
    );
    let fields = [("rows", long_file(false)), ("do", "faults".to_owned())];
    let fields = fields.each_ref().map(|(name, value)| (*name, value.as_str()));
    let file = lead.post(PAGE, &fields).await;
    file.expect(200);
    assert_eq!(file.header("content-type"), Some("text/csv; charset=utf-8"));
    assert_eq!(file.body().lines().count(), 51);
    assert_eq!(world.database.fingerprint().await, before, "nothing was written");
}

#[tokio::test]
async fn a_mended_file_is_imported_once_however_often_it_is_sent() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    check(&mut lead, &long_file(false)).await.expect(422);
    let checked = check(&mut lead, &long_file(true)).await;
    let path = checked.expect(303).location().expect("a preview").to_owned();
    assert_eq!(
        check(&mut lead, &long_file(true)).await.location(),
        Some(path.as_str()),
        "one file waits once"
    );
    assert_eq!(counts(&world).await, [0; 4]);
    let preview = lead.get(&path).await;
    assert_eq!(preview.texts("main table:first-of-type td.num")[..6], ["250", "0", "500", "0", "5000", "0"]);
    for _ in 0..2 {
        let sent = lead.submit(&preview, "main form", &[]).await;
        sent.redirects_to(&format!("{path}?notice=imported"));
        assert_eq!(counts(&world).await, [250, 500, 500, 5_000]);
    }
    let done = lead.get(&path).await;
    assert_eq!(done.texts("main dl dd"), ["250", "500", "5000"]);
    let sent = sent_again(&mut lead).await;
    let again = lead.visit(&sent).await;
    assert!(again.text("main .lead").contains("here already") && again.count("main form") == 0);
    assert_eq!(counts(&world).await, [250, 500, 500, 5_000]);
    assert_eq!(world.database.count("select count(*) from import_batch where sheet = ''").await, 1);
    let noted = lead.get("/practice/audit").await.text("main");
    assert!(
        noted.contains("imported records from a file (250 households, 500 dogs, 5000 weights)"),
        "{noted}"
    );
}

/// The same file checked anew, after it was imported.
async fn sent_again(lead: &mut Browser) -> String {
    let checked = check(lead, &long_file(true)).await;
    checked.expect(303).location().expect("a preview").to_owned()
}

#[tokio::test]
async fn what_is_exported_is_imported_into_another_practice_as_it_was() {
    let world = World::new().await;
    let mut home = world.practice("Heath and Hollow").await;
    let filled = "household,zone,children,household_note,dog,breed,born,birth_precision,sex,neutered,home_since,phase,\
                  expected_adult_kg,main_food,main_food_kcal_per_g,allergies,medicines,goal,weighed_on,kg\n\
                  Okoro,Pacific/Auckland,living,\"Gate; \"\"sticks\"\"\nring first\",Moss,lurcher,2023-05-01,month,male,no,\
                  2024-02-10,maintaining,27.3,=chicken,3.9,-beef,none known,@home,2026-01-03,18.25\n\
                  Okoro,,,,Moss,,,,,,,,,,,,,,2026-02-03,19\n\
                  Okoro,,,,Fern,,,,,,,,,,,,,,,\nVane,,,,,,,,,,,,,,,,,,,\n";
    import(&mut home.lead, filled).await;
    // two households of one name, with dogs of one name
    for _ in 0..2 {
        let lund = home.household("Lund").await;
        home.dog(lund, "Wren").await;
        home.dog(lund, "Wren").await;
    }
    let exported = export(&mut home).await;
    assert!(exported.contains("'=chicken") && exported.contains("'@home") && exported.contains("'-beef"));
    assert!(exported.contains("Lund (2)") && exported.contains("Wren (2)") && exported.contains("\r\nVane,"));
    let mut other = world.practice("Moss and Mire").await;
    import(&mut other.lead, &exported).await;
    assert_eq!(export(&mut other).await, exported);
    let path = check(&mut home.lead, &exported).await.expect(303).location().expect("a preview").to_owned();
    let at_home = home.lead.get(&path).await;
    assert_eq!(at_home.count("main form"), 0, "at home all of it is known");
}

async fn export(practice: &mut Practice) -> String {
    let file = practice.lead.get("/practice/export.csv").await;
    file.expect(200);
    assert!(
        file.header("content-disposition")
            .is_some_and(|said| said.starts_with("attachment; filename=\"households"))
    );
    file.body().to_owned()
}

#[tokio::test]
async fn what_is_here_stays_and_the_lead_chooses_who_looks_after_the_new_dogs() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    practice.trainer(&world, "Tamsin Rook").await;
    let okoro = practice.household("Okoro").await;
    practice.dog(okoro, "Moss").await;
    let rows = "household,dog,breed,weighed_on,kg\nokoro,MOSS,whippet,2026-01-01,18\nOkoro,Fern,,,\n";
    let path = practice.checked_file(rows).await;
    let preview = practice.lead.get(&path).await;
    let states: Vec<String> =
        table(&preview, "Dogs of the file").into_iter().map(|row| row[4].clone()).collect();
    assert_eq!(states, ["Here already", "New dog"]);
    let refused = practice.lead.post(&path, &[("trainer", "")]).await;
    refused.expect(422);
    assert_eq!(refused.error_of("trainer"), "Choose who looks after the new dogs.");
    let tamsin = world.database.count("select count(*) from membership where name = 'Tamsin Rook'").await;
    assert_eq!(tamsin, 1);
    let trainer = preview
        .page()
        .select(&selector("select[name=trainer] option"))
        .find(|option| text(*option) == "Tamsin Rook")
        .and_then(|option| option.attr("value").map(str::to_owned))
        .expect("the trainer can be chosen");
    practice.lead.submit(&preview, "main form", &[("trainer", &trainer)]).await.expect(303);
    let of_tamsin = "select count(*) from dog d join membership m on m.id = d.trainer_id
                     where d.name = 'Fern' and m.name = 'Tamsin Rook'";
    assert_eq!(world.database.count(of_tamsin).await, 1);
    let moss = "select count(*) from dog join dog_weight on dog_id = id where name = 'Moss' and breed = 'lurcher' and kg = 18";
    assert_eq!(world.database.count(moss).await, 1, "the weight is added, the breed stays");
}

#[tokio::test]
async fn a_file_is_the_practice_s_own_and_waits_for_a_day() {
    let world = World::new().await;
    let mut home = world.practice("Heath and Hollow").await;
    let mut other = world.practice("Moss and Mire").await;
    let mut trainer = home.trainer(&world, "Tamsin Rook").await;
    let household = home.household("Okoro").await;
    home.dog(household, "Moss").await;
    let mut owner = home.owner(&world, household, "Ada Okoro").await;
    let path = home.checked_file("household\nLund\n").await;
    let before = world.database.fingerprint().await;
    for (who, get, post) in [(&mut other.lead, 404, 404), (&mut trainer, 404, 403), (&mut owner, 404, 404)] {
        who.get(&path).await.expect(get);
        who.post(&path, &[]).await.expect(post);
    }
    for (who, post) in [(&mut trainer, 403), (&mut owner, 404)] {
        who.get(PAGE).await.expect(404);
        who.get("/practice/export.csv").await.expect(404);
        who.post(PAGE, &[("rows", "household\nLund\n")]).await.expect(post);
    }
    assert_eq!(world.database.fingerprint().await, before, "nothing was written");
    world.pass(Duration::hours(25));
    home.lead_signs_in().await;
    let gone = home.lead.get(&path).await;
    gone.expect(404);
    assert!(gone.text("main").contains("waits no more") && gone.link("Check a file") == PAGE);
    home.lead.post(&path, &[]).await.expect(404);
    check(&mut home.lead, "household\nVane\n").await.expect(303);
    assert_eq!(world.database.count("select count(*) from import_batch").await, 1, "the old one is deleted");
}

#[tokio::test]
async fn many_mistakes_are_shown_by_pages_and_a_file_that_is_too_long_is_refused() {
    let world = World::new().await;
    let mut lead = world.lead().await;
    let rows = format!("household,dog,sex\n{}", "Okoro,Moss,boy\n".repeat(450));
    let first = check(&mut lead, &rows).await;
    let said = first.text("section[aria-labelledby=faults] > p");
    assert!(said.starts_with("1 to 200 of 450."), "{said}");
    let last = lead.submit(&first, "main form", &[("page", "3")]).await;
    let listed = table(&last, "What is to put right, by line");
    assert_eq!((listed.len(), listed[49][0].as_str()), (50, "451"));
    let long = format!("household\n{}", "a".repeat(4_000_000));
    let refused = check(&mut lead, &long).await;
    refused.expect(422);
    assert!(refused.error_of("rows").contains("up to 4 MB"), "{}", refused.error_of("rows"));
    check(&mut lead, &"a".repeat(FORM_BYTES)).await.expect(413);
    check(&mut lead, " ").await.expect(422);
    assert_eq!(world.database.count("select count(*) from import_batch").await, 0);
}
