//! The invented practice: loaded as anybody would load it, then read as its lead trainer reads it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

use settlebrook::actions::check_records::check_records;
use settlebrook::demo;
use settlebrook::demo::content::{Story, dogs};
use settlebrook::domain::access::Actor;
use settlebrook::domain::caseload::Need;
use settlebrook::domain::vocabulary::Role;
use settlebrook::domain::welfare::HouseNumbers;
use settlebrook::store::Tx;
use settlebrook::store::caseload::{self, CaseloadRow, Filter};
use settlebrook::web::zones;
use time::macros::datetime;
use time::{Duration, OffsetDateTime};
use uuid::Uuid;

use crate::rebuild::{kept, wreck};
use crate::support::{World, settings};

/// A data folder that is gone when the test is over.
struct Folder(PathBuf);

impl Folder {
    fn new() -> Self {
        let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(Uuid::new_v4().to_string());
        fs::create_dir_all(&path).expect("makes a folder");
        Self(path)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

/// What the caseload has to say of a story.
fn meant(story: Story) -> Need {
    match story {
        Story::NewBite | Story::StopLongLineOnCollar | Story::VetSigns => Need::NewStop,
        Story::QuietAfterBite => Need::QuietAfterTrouble,
        Story::NotCoping => Need::NotCoping,
        Story::Bolted => Need::Incident,
        Story::BoltedAnswered => Need::AfterTrouble,
        Story::QuestionWaiting => Need::Question,
        Story::ReadyToMoveOn | Story::Stuck => Need::Decision,
        Story::CoolDownPattern | Story::StillHigh | Story::ShutDown | Story::SlippedBack => Need::Caution,
        Story::GoneQuiet => Need::GoneQuiet,
        Story::ReviewDue => Need::ReviewDue,
        Story::NewNoPlan => Need::New,
        Story::NewNoLog | Story::Progressing | Story::GoingWell => Need::GoingWell,
        Story::Maintaining | Story::Graduated | Story::Paused => Need::Resting,
    }
}

async fn lead(world: &World) -> Actor {
    let (practice, membership): (Uuid, Uuid) =
        sqlx::query_as("select practice_id, id from membership where role = 'lead'")
            .fetch_one(&mut world.database.as_superuser().await)
            .await
            .expect("there is one lead");
    let (practice, membership) = (practice.into(), membership.into());
    Actor { practice, membership, role: Role::Lead, households: Vec::new() }
}

async fn tx(world: &World, actor: &Actor) -> Tx {
    let opened = world.app.db.for_member(actor.practice, actor.membership).await;
    opened.expect("the database answers").expect("the lead is a member")
}

/// Every dog's name with its most pressing need and the reasons.
fn needs(world: &World, rows: &[CaseloadRow]) -> BTreeMap<String, (Need, String)> {
    let standing = |row: &CaseloadRow| {
        let today = zones::local_date(world.now(), &row.zone);
        let standing = row
            .state(|at| zones::local_date(at, &row.zone), today)
            .standing(today, HouseNumbers::as_catalogued());
        let seen = row.top_flag.as_ref().map_or("", |(_, seen)| seen);
        (row.name.clone(), (standing.need, format!("{}; {seen}", standing.reasons.join("; "))))
    };
    rows.iter().map(standing).collect()
}

/// Loads at an instant; fails unless every dog stands where its story puts it.
async fn loaded_at(now: OffsetDateTime) -> (World, Folder, usize) {
    let (world, folder) = (World::new().await, Folder::new());
    world.app.clock.set(now);
    demo::open(&world.app, &folder.0).await.expect("the invented practice loads");
    let lead = lead(&world).await;
    let filter = Filter { today: Some(now.date()), ..Filter::default() };
    let rows = caseload::rows(&mut tx(&world, &lead).await, &filter).await.expect("reads rows");
    let found = needs(&world, &rows);
    let wrong: Vec<String> = dogs()
        .map(|(_, dog)| (dog, &found[dog.name], meant(dog.story)))
        .filter(|(_, (need, _), meant)| need != meant)
        .map(|(dog, (need, why), meant)| format!("{} is {need:?} ({why}), not {meant:?}", dog.name))
        .collect();
    assert!(wrong.is_empty(), "at {now}: {wrong:#?}");
    let told: BTreeSet<Need> = found.values().map(|(need, _)| *need).collect();
    assert!(told.into_iter().eq(Need::ALL), "at {now} not every need is told");
    (world, folder, rows.len())
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn every_need_is_told_by_the_dogs_meant_to() {
    let (world, folder, dogs) = loaded_at(datetime!(2026-03-12 09:30 UTC)).await;
    let later = "select count(*) from practice_log where started_at > timestamptz '2026-03-12 09:30Z'";
    assert_eq!(world.database.count(later).await, 0);
    let twice =
        "select count(*) from (select dog_id, note from practice_log where note <> '' and capture <> 'lesson'
        group by 1, 2 having count(*) > 1) t";
    assert_eq!(world.database.count(twice).await, 0, "a note is used once");

    let (before, lead) = (kept(&world).await, lead(&world).await);
    wreck(&world).await;
    let checked =
        check_records(&world.app.db, tx(&world, &lead).await, &lead, None, &world.app.moment()).await;
    assert_eq!(checked.expect("checks").mended.len(), dogs);
    let after = kept(&world).await;
    let other: Vec<_> = before.iter().zip(&after).filter(|(before, after)| before != after).collect();
    assert!(
        other.is_empty() && before.len() == after.len(),
        "what is built anew is what was kept up: {other:#?}"
    );

    let passwords = fs::read_to_string(folder.0.join("demo-passwords")).expect("passwords are kept");
    let (email, password) =
        passwords.lines().next().and_then(|line| line.split_once(' ')).expect("address and password");
    let mut browser = world.visitor();
    let page = browser.get("/sign-in").await;
    let signed_in = browser.submit(&page, "main form", &[("email", email), ("password", password)]).await;
    signed_in.redirects_to("/caseload");

    let logs = world.database.count("select count(*) from practice_log").await;
    let links = "select count(*) from link_token where used_at is null and revoked_at is null";
    world.pass(Duration::hours(1));
    demo::open(&world.app, &folder.0).await.expect("opens again");
    assert_eq!(world.database.count("select count(*) from practice_log").await, logs);
    assert_eq!(world.database.count(links).await, 3, "three links wait to be opened");
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_stories_hold_on_any_day() {
    if !settings::is_long() {
        return;
    }
    for now in [
        datetime!(2026-03-30 23:50 UTC),
        datetime!(2026-07-05 06:10 UTC),
        datetime!(2026-10-26 00:20 UTC),
        datetime!(2026-12-31 18:00 UTC),
    ] {
        loaded_at(now).await;
    }
}

#[tokio::test]
async fn what_was_not_loaded_to_its_end_is_not_opened() {
    let (world, folder) = (World::new().await, Folder::new());
    world.practice("Alderlow").await;
    let refused = demo::open(&world.app, &folder.0).await.expect_err("half a practice is none");
    assert!(refused.to_string().contains("--reset"), "{refused}");
    assert_eq!(fs::read_dir(&folder.0).expect("reads the folder").count(), 0);
}
