//! Lists that are longer than a page.

use sqlx::AssertSqlSafe;
use uuid::Uuid;

use crate::support::{Browser, Practice, World};

async fn say(world: &World, statement: &str) {
    let mut all = world.database.as_superuser().await;
    sqlx::raw_sql(AssertSqlSafe(statement.to_owned())).execute(&mut all).await.expect("is done");
}

/// A practice with one dog, Moss, and its owner's phone.
async fn moss(world: &World) -> (Practice, Uuid, Browser) {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let phone = practice.owner(world, household, "Ada Okoro").await;
    (practice, moss, phone)
}

#[tokio::test]
async fn a_dog_with_a_stop_is_never_among_those_left_out_of_the_caseload() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = moss(&world).await;
    let id = "('00000000-0000-4000-8000-' || lpad(to_hex(n), 12, '0'))::uuid";
    say(
        &world,
        &format!(
            "insert into dog select (jsonb_populate_record(d, jsonb_build_object('id', {id}, 'name', 'Quiet ' || n))).*
               from dog d, generate_series(1, 400) n;
             insert into dog_summary select (jsonb_populate_record(s, jsonb_build_object('dog_id', {id}))).*
               from dog_summary s, generate_series(1, 400) n;"
        ),
    )
    .await;
    let page = ada.get(&format!("/dogs/{moss}/encounters/new")).await;
    let bite = [("kind", "bite"), ("towards", "child"), ("skin_broken", "no")];
    ada.submit(&page, &format!("main form[action='/dogs/{moss}/encounters']"), &bite).await.expect(303);
    let caseload = practice.lead.get("/caseload").await;
    assert_eq!(caseload.texts("main .row .row-who a")[0], "Moss");
    assert_eq!(caseload.count("main .row"), 400);
}

#[tokio::test]
async fn a_log_goes_on_from_page_to_page_and_other_addresses_lead_nowhere() {
    let world = World::new().await;
    let (mut practice, moss, mut ada) = moss(&world).await;
    practice.publish_plan(moss, &["Settle on a mat"]).await;
    let today = ada.get("/today").await;
    let mut links = today.attributes("main a", "href").into_iter();
    let link = links.find(|href| href.contains("/log/new?item=")).expect("a log form");
    let form = ada.get(&link).await;
    ada.submit(&form, &format!("main form[action='/dogs/{moss}/log']"), &[]).await.expect(303);
    say(
        &world,
        "insert into practice_log select (jsonb_populate_record(l, jsonb_build_object(
           'id', gen_random_uuid(), 'started_at', l.started_at - n * interval '1 minute'))).*
         from practice_log l, generate_series(1, 35) n",
    )
    .await;
    let first = practice.lead.get(&format!("/dogs/{moss}/log")).await;
    let second = practice.lead.get(&first.link("Older")).await;
    let shown = [&first, &second].map(|page| page.attributes("main .log a", "href"));
    assert_eq!(shown.each_ref().map(Vec::len), [30, 6]);
    assert!(shown[0].iter().all(|href| !shown[1].contains(href)));
    let nobody = Uuid::new_v4().to_string();
    for before in ["abc", "-9999999999999999999_abc", nobody.as_str()] {
        practice.lead.get(&format!("/dogs/{moss}/log?before={before}")).await.expect(404);
    }
}
