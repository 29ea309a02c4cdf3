//! What phones kept and send later: once each, on the day it was lived, refused one by one, never another's.

use serde_json::{Value, json};
use time::format_description::well_known::Rfc3339;
use time::{Duration, OffsetDateTime};
use uuid::Uuid;

use crate::support::{Answer, Browser, Practice, World};

const PATH: &str = "/sync/logs";

/// A practice with a dog that has a counted exercise without a line, and its owner.
struct Field {
    practice: Practice,
    ada: Browser,
    account: Uuid,
    moss: Uuid,
    item: String,
}

async fn field(world: &World) -> Field {
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["A look at you"]).await;
    let today = ada.get("/today").await;
    let item = today.attributes("main input[name=item]", "value")[0].clone();
    let account = today.attribute("body", "data-account").parse().expect("an owner's page names its account");
    Field { practice, ada, account, moss, item }
}

fn said(at: OffsetDateTime) -> String {
    at.format(&Rfc3339).expect("formats")
}

impl Field {
    /// A sitting as a phone kept it at this instant of its own clock.
    fn log(&self, id: Uuid, at: OffsetDateTime) -> Value {
        json!({ "id": id, "kind": "log", "dog": self.moss, "at": said(at), "elapsed_ms": null, "zone": "Europe/London",
                "offset_minutes": 0, "form": format!("item={}&attempts=10&left=3", self.item) })
    }

    async fn send(&mut self, phone_now: OffsetDateTime, logs: &[Value]) -> Answer {
        let batch =
            json!({ "version": 1, "account": self.account, "phone_now": said(phone_now), "logs": logs });
        self.ada.post_json(PATH, &batch.to_string()).await
    }
}

/// State, status and page of each that was answered.
fn became(answer: &Answer) -> Vec<(String, u64, String)> {
    answer.expect(200);
    let said: Value = serde_json::from_str(answer.body()).expect("JSON");
    let logs = said["logs"].as_array().expect("a list");
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    logs.iter()
        .map(|log| (text(&log["state"]), log["status"].as_u64().unwrap_or(0), text(&log["page"])))
        .collect()
}

#[tokio::test]
async fn what_a_phone_kept_is_taken_once_however_often_it_is_sent() {
    let world = World::new().await;
    let mut field = field(&world).await;
    let now = world.now();
    let id = Uuid::new_v4();
    let log = field.log(id, now - Duration::days(2));
    let page = format!("/dogs/{}/log/{id}", field.moss);
    assert_eq!(
        became(&field.send(now, std::slice::from_ref(&log)).await),
        [("kept".to_owned(), 200, page.clone())]
    );
    for later in [0, 1, 90] {
        world.pass(Duration::minutes(later));
        let again = field.send(world.now() + Duration::seconds(3), &[log.clone(), log.clone()]).await;
        assert_eq!(
            became(&again),
            [("repeat".to_owned(), 200, page.clone()), ("repeat".to_owned(), 200, page.clone())]
        );
    }
    let mut other = log.clone();
    other["form"] = json!(format!("item={}&attempts=10&left=0", field.item));
    assert_eq!(became(&field.send(now, &[other]).await)[0].1, 409);
    assert_eq!(world.database.count("select count(*) from practice_log where met = 7").await, 1);
    assert_eq!(world.database.count("select count(*) from practice_log").await, 1);
    field.ada.get(&page).await.expect(200);
}

#[tokio::test]
async fn it_lands_on_the_day_that_it_was_lived_on_whatever_the_phone_s_clock_says() {
    let world = World::new().await;
    let mut field = field(&world).await;
    let now = world.now();
    let lived = now - Duration::days(2);
    for off in [Duration::ZERO, Duration::days(3), Duration::days(-3)] {
        let log = field.log(Uuid::new_v4(), lived + off);
        assert_eq!(became(&field.send(now + off, &[log]).await)[0].0, "kept");
    }
    let mut abroad = field.log(Uuid::new_v4(), lived);
    abroad["offset_minutes"] = json!(-660);
    assert_eq!(became(&field.send(now, &[abroad]).await)[0].0, "kept");
    let mut connection = world.database.as_superuser().await;
    let found: Vec<(time::Date, bool)> =
        sqlx::query_as("select local_date, clock_corrected from practice_log order by received_at")
            .fetch_all(&mut connection)
            .await
            .expect("reads");
    let wall = (lived - Duration::minutes(660)).date();
    assert_eq!(found, [(lived.date(), false), (lived.date(), true), (lived.date(), true), (wall, false)]);
    let ahead = field.log(Uuid::new_v4(), now + Duration::days(2));
    assert_eq!(became(&field.send(now, &[ahead]).await)[0].1, 422);
}

#[tokio::test]
async fn each_is_taken_or_refused_by_itself_and_told_why() {
    let world = World::new().await;
    let mut field = field(&world).await;
    let elsewhere = field.practice.household("Lund").await;
    let stranger = field.practice.dog(elsewhere, "Wren").await;
    let now = world.now();
    let fine = field.log(Uuid::new_v4(), now);
    let mut not_theirs = field.log(Uuid::new_v4(), now);
    not_theirs["dog"] = json!(stranger);
    let mut nonsense = field.log(Uuid::new_v4(), now);
    nonsense["form"] = json!(format!("item={}&attempts=10&left=12", field.item));
    let mut no_item = field.log(Uuid::new_v4(), now);
    no_item["form"] = json!("attempts=10&left=2");
    let mut live = field.log(Uuid::new_v4(), now);
    live["form"] = json!(format!("item={}&attempts=2&met=1&rewarded=1", field.item));
    live["tries"] = json!([{ "met": true, "after_ms": 900 }, { "met": false, "after_ms": 4100 }]);
    let mut wrong_tries = live.clone();
    wrong_tries["id"] = json!(Uuid::new_v4());
    wrong_tries["tries"] = json!([{ "met": true, "after_ms": 900 }]);
    let answer = field.send(now, &[not_theirs, nonsense, no_item, live, wrong_tries, fine]).await;
    let states: Vec<(String, u64)> =
        became(&answer).into_iter().map(|(state, status, _)| (state, status)).collect();
    let wanted = [
        ("refused", 404),
        ("refused", 422),
        ("refused", 404),
        ("kept", 200),
        ("refused", 422),
        ("kept", 200),
    ];
    assert_eq!(states, wanted.map(|(state, status)| (state.to_owned(), status)));
    assert!(answer.body().contains("12 is more than the 10 you put out"), "{}", answer.body());
    assert_eq!(world.database.count("select count(*) from practice_log").await, 2);
    let tries = "select count(*) from attempt a join practice_log l on l.id = a.practice_log_id
                 where l.capture = 'counted_live' and (a.position, a.met, a.after_ms) in ((1, true, 900), (2, false, 4100))";
    assert_eq!(world.database.count(tries).await, 2);
}

#[tokio::test]
async fn an_encounter_and_a_call_for_help_travel_the_same_way() {
    let world = World::new().await;
    let mut field = field(&world).await;
    let now = world.now();
    let (bite, call, moss) = (Uuid::new_v4(), Uuid::new_v4(), field.moss);
    let kept = |id: Uuid, kind: &str, form: &str| {
        json!({ "id": id, "kind": kind, "dog": moss, "at": said(now - Duration::hours(5)), "zone": "Europe/London",
                "offset_minutes": 0, "form": form })
    };
    let note = format!("message={}&note=I+cannot", Uuid::new_v4());
    let logs = [kept(bite, "encounter", "kind=bite&note=Sleeve"), kept(call, "not_coping", &note)];
    // nobody is there to be asked about skin: the bite is taken, and asks the trainer
    let states: Vec<String> =
        became(&field.send(now, &logs).await).into_iter().map(|(state, ..)| state).collect();
    assert_eq!(states, ["kept", "kept"]);
    assert_eq!(became(&field.send(now, &logs).await)[1].0, "repeat");
    // somebody is: then it is asked
    let mut asked = kept(Uuid::new_v4(), "encounter", "kind=bite");
    asked["can_ask"] = json!(true);
    assert_eq!(became(&field.send(now, &[asked]).await)[0].1, 422);
    let lived = "select count(*) from encounter where phone_zone = 'Europe/London' and happened_at < received_at - interval '4 hours'";
    assert_eq!(world.database.count(lived).await, 2);
    assert_eq!(world.database.count("select count(*) from message where body = 'I cannot'").await, 1);
    let caseload = field.practice.lead.get("/caseload?show=everyone").await.text("main");
    assert!(caseload.contains("Moss"), "{caseload}");
    assert_eq!(world.database.count("select count(*) from dog where bite_on_record").await, 1);
}

#[tokio::test]
async fn fifty_at_a_time_by_somebody_signed_in() {
    let world = World::new().await;
    let mut field = field(&world).await;
    let now = world.now();
    let logs: Vec<Value> = (0..51).map(|_| field.log(Uuid::new_v4(), now)).collect();
    field.send(now, &logs).await.expect(413);
    assert_eq!(world.database.count("select count(*) from practice_log").await, 0);
    assert_eq!(became(&field.send(now, &logs[..50]).await).len(), 50);
    assert_eq!(world.database.count("select count(*) from practice_log").await, 50);
    let batch =
        json!({ "version": 1, "account": field.account, "phone_now": said(now), "logs": [] }).to_string();
    world.visitor().post_json(PATH, &batch).await.expect(401);
    let unknown =
        json!({ "version": 9, "account": field.account, "phone_now": said(now), "logs": [] }).to_string();
    field.ada.post_json(PATH, &unknown).await.expect(422);
    field.ada.post_json(PATH, "[]").await.expect(422);
    field.ada.post(PATH, &[("logs", "x")]).await.expect(415);
}

#[tokio::test]
async fn what_one_kept_is_not_sent_as_another() {
    let world = World::new().await;
    let mut field = field(&world).await;
    let household = field.practice.things["household"];
    let mut uche = field.practice.owner(&world, household, "Uche Okoro").await;
    let now = world.now();
    let logs = [field.log(Uuid::new_v4(), now)];
    let batch = json!({ "version": 1, "account": field.account, "phone_now": said(now), "logs": logs });
    uche.post_json(PATH, &batch.to_string()).await.expect(401);
    assert_eq!(world.database.count("select count(*) from practice_log").await, 0);
}

#[tokio::test]
async fn a_change_travels_with_the_wording_that_it_was_made_on() {
    let world = World::new().await;
    let mut field = field(&world).await;
    let (now, id) = (world.now(), Uuid::new_v4());
    let log = field.log(id, now);
    field.send(now, &[log]).await.expect(200);
    let page = format!("/dogs/{}/log/{id}", field.moss);
    let edit = |note: &str, revision: i32| {
        json!({ "id": Uuid::new_v4(), "kind": "log_edit", "of": id, "dog": field.moss, "at": said(now), "zone": "Europe/London",
                "form": format!("attempts=10&left=3&note={note}&revision={revision}&started=") })
    };
    let (first, late, lost) = (
        edit("Rain", 0),
        edit("Sun", 0),
        json!({ "id": Uuid::new_v4(), "kind": "log_edit",
        "dog": field.moss, "at": said(now), "form": "attempts=10" }),
    );
    for _ in 0..2 {
        assert_eq!(
            became(&field.send(now, std::slice::from_ref(&first)).await),
            [("kept".to_owned(), 200, page.clone())]
        );
    }
    let revisions = "select count(*) from log_revision";
    assert_eq!(world.database.count(revisions).await, 1, "sent twice, changed once");
    // made on a wording that is no more: refused with nothing changed, and said so
    let refused = field.send(now, &[late]).await;
    assert!(refused.body().contains("changed again after this was kept here"), "{}", refused.body());
    assert_eq!(became(&refused)[0].1, 409);
    assert_eq!(became(&field.send(now, &[lost]).await)[0].1, 404, "a change of nothing");
    assert_eq!(world.database.count("select count(*) from practice_log where note = 'Rain'").await, 1);
    assert_eq!(world.database.count(revisions).await, 1);
    // another household's is not there
    let elsewhere = field.practice.household("Lund").await;
    let wren = field.practice.dog(elsewhere, "Wren").await;
    let theirs = json!({ "id": Uuid::new_v4(), "kind": "log_edit", "of": id, "dog": wren, "at": said(now), "form": "attempts=10&left=1&revision=1" });
    assert_eq!(became(&field.send(now, &[theirs]).await)[0].1, 404);
}
