//! A dog's plan: written line by line, checked, published for good, read by nobody else's eyes.

use settlebrook::actions::{add_dog, keep_place, keep_reinforcer};
use settlebrook::domain::access::Actor;
use settlebrook::domain::vocabulary::{BirthPrecision, Phase, Role};
use settlebrook::ids::{DogId, HouseholdId};
use settlebrook::store::dog_profile::{Care, Identity};
use settlebrook::store::household::{self, Household};
use settlebrook::store::place::Place;
use settlebrook::store::reinforcer::Reinforcer;
use time::Duration;

use crate::support::{Answer, Practice, World};

/// A practice with one household, and two dogs that each have a place and a reinforcer.
struct Kennel {
    world: World,
    practice: Practice,
    dog: DogId,
    other: DogId,
}

impl Kennel {
    async fn new() -> Self {
        let world = World::new().await;
        let practice = world.practice("Heath and Hollow").await;
        let household: HouseholdId = world.app.moment().id();
        let moment = world.app.moment();
        let mut tx = entered(&world, &practice).await;
        let new = Household {
            id: household,
            name: "Okafor household".into(),
            zone: "Pacific/Auckland".into(),
            note: String::new(),
            children: None,
        };
        household::add(&mut tx, &new, moment.at).await.expect("a household is added");
        tx.commit().await.expect("it stands");
        let dog = add_one(&world, &practice, household, "Bramble").await;
        let other = add_one(&world, &practice, household, "Tansy").await;
        Self { world, practice, dog, other }
    }

    fn plan(&self) -> String {
        format!("/dogs/{}/plan", self.dog)
    }

    /// Adds something from the library, and gives the page of its details.
    async fn add(&mut self, name: &str) -> Answer {
        let id = self.text("select id::text from exercise where name = $1", name).await;
        let added = self.practice.lead.post(&format!("{}/add", self.plan()), &[("exercise", &id)]).await;
        let details = self.practice.lead.follow(added).await;
        details.expect(200);
        details
    }

    async fn text(&self, query: &'static str, value: &str) -> String {
        sqlx::query_scalar(query)
            .bind(value)
            .fetch_one(&mut self.world.database.as_superuser().await)
            .await
            .expect("there is one")
    }

    async fn published_names(&self, number: i32) -> Vec<(String, uuid::Uuid)> {
        sqlx::query_as(
            "select i.name, i.line_id from plan_item i join plan_version v on v.id = i.plan_version_id
             where v.number = $1 order by i.position",
        )
        .bind(number)
        .fetch_all(&mut self.world.database.as_superuser().await)
        .await
        .expect("the items can be read")
    }

    async fn names(&mut self) -> Vec<String> {
        let path = format!("{}/edit", self.plan());
        self.practice.lead.get(&path).await.texts("article h3")
    }
}

async fn entered(world: &World, practice: &Practice) -> settlebrook::store::Tx {
    world.app.db.for_member(practice.id, practice.lead_id).await.expect("answers").expect("the lead stands")
}

async fn add_one(world: &World, practice: &Practice, household: HouseholdId, name: &str) -> DogId {
    let lead = Actor {
        practice: practice.id,
        membership: practice.lead_id,
        role: Role::Lead,
        households: Vec::new(),
    };
    let moment = world.app.moment();
    let identity = Identity {
        name: name.into(),
        breed: "lurcher".into(),
        born: None,
        birth_precision: BirthPrecision::Exact,
        sex: None,
        neutered: None,
        home_since: None,
    };
    let care = Care { trainer: practice.lead_id, phase: Phase::SettlingIn };
    let new = add_dog::NewDog { id: moment.id(), identity, care, weight: None };
    let tx = entered(world, practice).await;
    let dog = add_dog::add_dog(tx, &lead, household, &new, &moment).await.expect("a dog is added");
    let place = Place {
        id: moment.id(),
        dog,
        name: format!("{name}’s garden"),
        distraction: 2,
        secure: None,
        near_road: None,
        road_metres: None,
    };
    let tx = entered(world, practice).await;
    keep_place::keep_place(tx, &lead, &place, &moment).await.expect("a place is kept");
    let chicken = Reinforcer {
        id: moment.id(),
        dog,
        what: format!("{name}’s chicken"),
        rank: 5,
        is_toy: false,
        kcal_per_g: None,
        grams_per_piece: None,
        from_meals: None,
    };
    let tx = entered(world, practice).await;
    keep_reinforcer::keep_reinforcer(tx, &lead, &chicken, &moment).await.expect("a reinforcer is kept");
    dog
}

const RECALL: &str = "Come, on the long line";
const SEARCH: &str = "Moving search";
const GATE: &str = "Gate shut when visitors come";

#[tokio::test]
async fn a_draft_is_published_in_order_and_measured_by() {
    let mut kennel = Kennel::new().await;
    kennel.add("Timing the yes").await;
    kennel.add(RECALL).await;
    kennel.add(SEARCH).await;
    kennel.add(GATE).await;
    assert_eq!(kennel.names().await, [GATE, RECALL, SEARCH, "Timing the yes"]);
    kennel.world.pass(Duration::hours(6));
    let plan = kennel.plan();
    let check = kennel.practice.lead.get(&format!("{plan}/publish")).await;
    let published = kennel.practice.lead.submit(&check, "main form", &[("note", "Well begun.")]).await;
    published.redirects_to(&format!("{plan}?notice=plan-published-active"));
    let names: Vec<String> = kennel.published_names(1).await.into_iter().map(|(name, _)| name).collect();
    assert_eq!(names, [GATE, RECALL, SEARCH, "Timing the yes"]);
    // the day is the household's: Thursday afternoon in UTC is Friday there
    let kept =
        "select count(*) from dog_summary s join plan_version v on v.id = s.plan_version_id and v.number = 1
                where s.planned_items = 2 and s.plan_published_on = '2026-03-13' and s.planned_times_a_week =
                  (select sum(times_a_week) from plan_item where kind = 'exercise')";
    assert_eq!(kennel.world.database.count(kept).await, 1);
    assert_eq!(kennel.world.database.count("select count(*) from dog where phase = 'active'").await, 1);
    assert_eq!(
        kennel.world.database.count("select count(*) from audit_event where action = 'publish_plan'").await,
        1
    );
}

#[tokio::test]
async fn lines_outlive_versions_and_versions_outlive_edits() {
    let mut kennel = Kennel::new().await;
    kennel.add(RECALL).await;
    let publish = format!("{}/publish", kennel.plan());
    kennel.practice.lead.post(&publish, &[]).await.expect(303);
    sqlx::query("update exercise set name = 'Here' where name = $1")
        .bind(RECALL)
        .execute(&mut kennel.world.database.as_superuser().await)
        .await
        .expect("the library changes");
    kennel.practice.lead.post(&publish, &[]).await.expect(303);
    let (first, second) = (kennel.published_names(1).await, kennel.published_names(2).await);
    assert_eq!((first[0].0.as_str(), second[0].0.as_str()), (RECALL, "Here"));
    assert_eq!(first[0].1, second[0].1);
    let plan = kennel.plan();
    let versions = kennel.practice.lead.get(&plan).await.attributes(".links a", "href");
    assert_eq!(versions.len(), 2);
    let old = kennel.practice.lead.get(&versions[1]).await;
    assert_eq!(old.texts("article h3"), [RECALL]);
}

#[tokio::test]
async fn nothing_is_published_from_an_empty_draft() {
    let mut kennel = Kennel::new().await;
    let publish = format!("{}/publish", kennel.plan());
    let answer = kennel.practice.lead.post(&publish, &[("note", "Hello")]).await;
    answer.expect(422);
    assert_eq!(answer.error_of("note"), "Add at least one item before you publish.");
    assert_eq!(kennel.world.database.count("select count(*) from plan_version").await, 0);
}

#[tokio::test]
async fn a_stop_is_published_only_by_somebody_who_says_so() {
    let mut kennel = Kennel::new().await;
    let details = kennel.add(RECALL).await;
    kennel.practice.lead.submit(&details, "main form", &[("clip", "collar")]).await.expect(303);
    let publish = format!("{}/publish", kennel.plan());
    let answer = kennel.practice.lead.post(&publish, &[]).await;
    answer.expect(422);
    assert!(!answer.error_of("despite_stop").is_empty());
    let why = "The harness comes on Friday; until then only in the garden.";
    kennel.practice.lead.post(&publish, &[("despite_stop", why)]).await.expect(303);
    let plan = kennel.practice.lead.get(&kennel.plan()).await.text("main");
    assert!(plan.contains("Published despite a stop.") && plan.contains(why), "{plan}");
    let audit = kennel.practice.lead.get("/practice/audit").await.text("main");
    assert!(audit.contains("until then only in the garden"), "the lead reads it: {audit}");
    let noted = "select count(*) from audit_event where detail like 'despite planned_long_line_on_collar: The harness%'";
    assert_eq!(kennel.world.database.count(noted).await, 1);
}

#[tokio::test]
async fn a_line_names_only_what_is_its_own() {
    let mut kennel = Kennel::new().await;
    let details = kennel.add(RECALL).await;
    let theirs = kennel.other.to_string();
    let place = kennel.text("select id::text from place where dog_id::text = $1", &theirs).await;
    let chicken = kennel.text("select id::text from reinforcer where dog_id::text = $1", &theirs).await;
    let step =
        "select s.id::text from step s join exercise e on e.id = s.exercise_id where e.name = $1 limit 1";
    let step = kennel.text(step, SEARCH).await;
    for (field, value) in [("place", &place), ("reinforcer", &chicken), ("step", &step)] {
        let fields = [(field, value.as_str()), ("note", "As typed")];
        let answer = kennel.practice.lead.submit(&details, "main form", &fields).await;
        answer.expect(422);
        assert!(!answer.error_of(field).is_empty(), "{field}");
        assert_eq!(answer.text("textarea").trim(), "As typed");
    }
}

#[tokio::test]
async fn a_line_moves_among_its_kind_and_is_taken_out_only_when_confirmed() {
    let mut kennel = Kennel::new().await;
    for name in [RECALL, SEARCH, GATE] {
        kennel.add(name).await;
    }
    let plan = kennel.plan();
    let edit = kennel.practice.lead.get(&format!("{plan}/edit")).await;
    let lines = edit.attributes("article a[href*='/items/']:not([href$='remove'])", "href");
    kennel.practice.lead.post(&format!("{}/move", lines[2]), &[("way", "up")]).await.expect(303);
    assert_eq!(kennel.names().await, [GATE, SEARCH, RECALL]);
    kennel.practice.lead.post(&format!("{}/move", lines[2]), &[("way", "up")]).await.expect(303);
    assert_eq!(kennel.names().await, [GATE, SEARCH, RECALL], "the arrangement stays first");
    let asked = kennel.practice.lead.get(&format!("{}/remove", lines[0])).await;
    assert_eq!(kennel.names().await.len(), 3);
    kennel.practice.lead.submit(&asked, "main form", &[]).await.expect(303);
    assert_eq!(kennel.names().await, [SEARCH, RECALL]);
}

#[tokio::test]
async fn an_owners_skill_is_no_practice_of_the_dog_on_either_side() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Nose to hand", "Timing the yes"]).await;
    let skill: uuid::Uuid = sqlx::query_scalar("select id from plan_item where kind = 'owner_skill'")
        .fetch_one(&mut world.database.as_superuser().await)
        .await
        .expect("the skill");
    let form = ada.get(&format!("/dogs/{moss}/log/new?item={skill}")).await;
    ada.submit(&form, &format!("main form[action='/dogs/{moss}/log']"), &[]).await.expect(303);
    let planned = world.database.count("select planned_times_a_week::bigint from dog_summary").await;
    let today = ada.get("/today").await;
    let why = today.text("main .lead");
    assert!(why.contains(&format!("0 of {planned} this week")), "{why}");
    assert!(today.text("main").contains("For you, without the dog"));
    let week = practice.lead.get("/caseload").await.text("main .row-week");
    assert_eq!(week, format!("0 of {planned} this week"));
    assert_eq!(world.database.count("select count(*) from dog_day where sittings > 0").await, 0);
    assert_eq!(world.database.count("select logs::bigint from dog_summary").await, 1, "it was heard from");
    crate::rebuild::is_built_anew(&world, &mut practice).await;
}

#[tokio::test]
async fn what_was_practised_of_a_line_that_left_the_plan_counts_on_both_sides() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Nose to hand", "A look at you"]).await;
    let line = practice.things["line"];
    let items: Vec<uuid::Uuid> = sqlx::query_scalar("select id from plan_item")
        .fetch_all(&mut world.database.as_superuser().await)
        .await
        .expect("the items");
    for item in items {
        let form = ada.get(&format!("/dogs/{moss}/log/new?item={item}")).await;
        ada.submit(&form, &format!("main form[action='/dogs/{moss}/log']"), &[]).await.expect(303);
    }
    world.pass(Duration::days(1));
    practice.lead_signs_in().await;
    let asked = practice.lead.get(&format!("/dogs/{moss}/plan/items/{line}/remove")).await;
    practice.lead.submit(&asked, "main form", &[]).await.expect(303);
    practice.publish_plan(moss, &[]).await;
    let planned = world.database.count("select planned_times_a_week::bigint from dog_summary").await;
    let week = practice.lead.get("/caseload").await.text("main .row-week");
    assert_eq!(week, format!("2 of {planned} this week"));
    let why = ada.get("/today").await.text("main .lead");
    assert!(why.contains(&week), "{why}");
}

#[tokio::test]
async fn what_changes_is_said_item_by_item_to_trainer_and_owner() {
    let world = World::new().await;
    let mut practice = world.practice("Heath and Hollow").await;
    let household = practice.household("Okoro").await;
    let moss = practice.dog(household, "Moss").await;
    let mut ada = practice.owner(&world, household, "Ada Okoro").await;
    practice.publish_plan(moss, &["Nose to hand"]).await;
    practice.place(moss, "Orchard").await;
    let owners = ada.get("/plan").await;
    assert!(!owners.text("main").contains("What is new in this plan"), "the first plan is all new");
    let line = practice.things["line"];
    let item = practice.lead.get(&format!("/dogs/{moss}/plan/items/{line}")).await;
    let option = |name: &str, nth: usize| {
        item.attributes(&format!("select[name={name}] option"), "value")[nth].clone()
    };
    let (step, place) = (option("step", 2), option("place", 1));
    let fields = [
        ("times_a_week", "6"),
        ("attempts", "7"),
        ("minutes", "4"),
        ("step", step.as_str()),
        ("place", place.as_str()),
    ];
    practice.lead.submit(&item, "main form", &fields).await.expect(303);
    let page = practice.lead.get(&format!("/dogs/{moss}/plan/publish")).await;
    let said = page.text("main .changes");
    for part in ["Changed Nose to hand", "Tries", "→ 7", "→ 6", "→ 4", "Place: Orchard"] {
        assert!(said.contains(part), "{part:?} in {said}");
    }
    let preview = practice.lead.get(&format!("/dogs/{moss}/plan/preview")).await;
    let promised = preview.text("main .changes");
    assert!(preview.text("main").contains("What is new in this plan") && promised.contains("Where: Orchard"));
    practice.publish_plan(moss, &["A look at you"]).await;
    let owners = ada.get("/plan").await;
    let said = owners.text("main .changes");
    for part in ["Changed Nose to hand", "Step 1 → ", "Where: Orchard", "New A look at you"] {
        assert!(said.contains(part), "{part:?} in {said}");
    }
    assert!(owners.text("main").contains("Small and often."));
}
