//! What `domain::access` says of an act is what HTTP answers: 404 for what one does not see, 403 for an act that one may
//! not do on what one sees.
//!
//! Every route that changes something is in [`ACTS`] with what is done there, or in [`OWN`]; a new one that is in
//! neither fails.

use std::collections::BTreeSet;

use axum::http::Method;
use settlebrook::domain::access::{Access, Action, Actor, Resource, decide};
use settlebrook::domain::vocabulary::Role;
use settlebrook::ids::MembershipId;
use settlebrook::web::routes;
use uuid::Uuid;

use crate::support::browser::From;
use crate::support::lived_in::{self, HEATH};
use crate::support::walk::{self, Stop};
use crate::support::{LivedIn, Walker, World};

/// What an act is done on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum On {
    Practice,
    Household,
}
use Action::*;
use On::{Household, Practice};

/// What is done where. Whatever takes something away comes last, since the walks do what they are allowed to.
const ACTS: &[(Action, On, &[&str])] = &[
    (SeeTeam, Practice, &["GET /practice"]),
    (SeeAudit, Practice, &["GET /practice/audit"]),
    (
        SeeCaseload,
        Practice,
        &["GET /caseload", "GET /lessons", "POST /caseload/views", "POST /review/phrases"],
    ),
    (RunPractice, Practice, &["POST /practice/edit", "POST /practice/numbers", "POST /practice/records"]),
    (ImportRecords, Practice, &["POST /practice/import", "POST /practice/import/{batch}"]),
    (KeepLibrary, Practice, &["POST /library/new", "POST /library/import", "POST /library/{exercise}/edit"]),
    (AddHousehold, Practice, &["POST /households/new"]),
    (
        KeepHousehold,
        Household,
        &[
            "POST /households/{household}/edit",
            "POST /households/{household}/owners/existing",
            "POST /households/{household}/owners/{owner}/edit",
        ],
    ),
    (
        InviteOwner,
        Household,
        &[
            "POST /households/{household}/owners/new",
            "POST /households/{household}/owners/{owner}/link",
            "POST /household/{household}/invite",
            "POST /household/people/{person}/link",
        ],
    ),
    (
        KeepDog,
        Household,
        &[
            "POST /households/{household}/dogs/new",
            "POST /dogs/{dog}/phase",
            "POST /dogs/{dog}/profile/edit/{section}",
            "POST /dogs/{dog}/triggers/new",
            "POST /dogs/{dog}/triggers/{trigger}",
            "POST /dogs/{dog}/reinforcers/new",
            "POST /dogs/{dog}/reinforcers/{reinforcer}",
            "POST /dogs/{dog}/places/new",
            "POST /dogs/{dog}/places/{place}",
            "POST /dogs/{dog}/places/{place}/off-lead",
            "POST /dogs/{dog}/places/{place}/off-lead/withdraw",
            "POST /dogs/{dog}/weights/remove",
            "POST /dogs/{dog}/photos/{photo}/fit",
        ],
    ),
    (KeepDog, Practice, &["POST /caseload/several"]),
    (KeepPlan, Household, &["POST /dogs/{dog}/lessons", "POST /dogs/{dog}/work-again"]),
    (
        KeepLessons,
        Household,
        &[
            "POST /dogs/{dog}/lessons/book",
            "POST /dogs/{dog}/lessons/{appointment}",
            "POST /dogs/{dog}/lessons/{appointment}/call-off",
            "POST /dogs/{dog}/packages",
            "POST /dogs/{dog}/packages/{package}/take-back",
        ],
    ),
    (CheckIn, Household, &["POST /dogs/{dog}/check-in", "POST /dogs/{dog}/come-back"]),
    (KeepIntake, Household, &["POST /dogs/{dog}/intake/ask", "POST /dogs/{dog}/intake/triage"]),
    (
        TellIntake,
        Household,
        &["POST /dogs/{dog}/tell/{section}", "POST /dogs/{dog}/tell", "POST /dogs/{dog}/consent"],
    ),
    (
        KeepPlan,
        Household,
        &[
            "POST /dogs/{dog}/plan/add",
            "POST /dogs/{dog}/plan/add-named",
            "POST /dogs/{dog}/plan/start",
            "POST /dogs/{dog}/plan/template",
            "POST /dogs/{dog}/plan/items/{line}/check",
            "POST /dogs/{dog}/plan/items/{line}",
            "POST /dogs/{dog}/plan/items/{line}/move",
            "POST /dogs/{dog}/plan/note",
            "POST /dogs/{dog}/plan/restart",
            "POST /dogs/{dog}/plan/publish",
        ],
    ),
    (AnswerFlag, Household, &["POST /flags/{flag}/answer"]),
    (Decide, Household, &["POST /dogs/{dog}/decide/{item}"]),
    (
        LogPractice,
        Household,
        &[
            "POST /dogs/{dog}/log",
            "POST /dogs/{dog}/weights",
            "POST /dogs/{dog}/health/weight",
            "POST /dogs/{dog}/gone",
            "POST /dogs/{dog}/fit",
            "POST /dogs/{dog}/photos",
            "POST /dogs/{dog}/not-today",
            "POST /dogs/{dog}/after-all",
            "POST /dogs/{dog}/held/{line}",
        ],
    ),
    (RecordEncounter, Household, &["POST /dogs/{dog}/encounters", "POST /dogs/{dog}/pasted"]),
    (
        LookAt,
        Household,
        &[
            "POST /dogs/{dog}/log/looked",
            "POST /dogs/{dog}/log/{log}/looked",
            "POST /dogs/{dog}/encounters/{encounter}/looked",
            "POST /dogs/{dog}/log/{log}/reviewed",
            "POST /dogs/{dog}/encounters/{encounter}/reviewed",
        ],
    ),
    (Revise, Household, &["POST /dogs/{dog}/log/{log}/edit", "POST /dogs/{dog}/encounters/{encounter}/edit"]),
    (
        Message,
        Household,
        &[
            "POST /messages",
            "POST /messages/read",
            "POST /dogs/{dog}/messages",
            "POST /dogs/{dog}/messages/settle",
        ],
    ),
    (
        TellLife,
        Household,
        &[
            "POST /dogs/{dog}/goal",
            "POST /dogs/{dog}/life",
            "POST /dogs/{dog}/life/{event}",
            "POST /dogs/{dog}/life/{event}/remove",
        ],
    ),
    (
        WriteReports,
        Household,
        &[
            "POST /dogs/{dog}/reports",
            "POST /dogs/{dog}/reports/{report}/edit",
            "POST /dogs/{dog}/reports/{report}/issue",
            "POST /dogs/{dog}/reports/{report}/correct",
            "POST /dogs/{dog}/reports/{report}/share",
            "POST /dogs/{dog}/reports/{report}/links/{report_link}/revoke",
            "POST /dogs/{dog}/reports/{report}/discard",
        ],
    ),
    (SayNotCoping, Household, &["POST /dogs/{dog}/not-coping"]),
    (
        KeepTeam,
        Practice,
        &[
            "POST /practice/team/invite",
            "POST /practice/team/{member}/link",
            "POST /practice/team/{member}/remove",
        ],
    ),
    (ArchiveExercise, Practice, &["POST /library/{exercise}/archive", "POST /library/{exercise}/restore"]),
    (
        KeepDog,
        Household,
        &[
            "POST /dogs/{dog}/triggers/{trigger}/remove",
            "POST /dogs/{dog}/reinforcers/{reinforcer}/remove",
            "POST /dogs/{dog}/places/{place}/remove",
        ],
    ),
    (KeepPlan, Household, &["POST /dogs/{dog}/plan/items/{line}/remove"]),
    (KeepLibrary, Practice, &["POST /library/templates/{template}/remove"]),
    (
        Revise,
        Household,
        &["POST /dogs/{dog}/log/{log}/remove", "POST /dogs/{dog}/encounters/{encounter}/remove"],
    ),
    (LogPractice, Household, &["POST /dogs/{dog}/photos/{photo}/remove"]),
    (KeepHelperLinks, Household, &["POST /dogs/{dog}/helpers", "POST /dogs/{dog}/helpers/{helper}/end"]),
    (RemoveOwner, Household, &["POST /households/{household}/owners/{owner}/remove"]),
];

/// What people do about themselves, whatever their role, or by a link.
const OWN: [&str; 13] = [
    "POST /sign-in",
    "POST /sign-out",
    "POST /set-up/{token}",
    "POST /l/{token}",
    // whoever holds a helper's link is nobody of the practice: tests/it/helpers.rs
    "POST /h/{token}/log",
    // the same of a report's: tests/it/report_links.rs
    "POST /r/{token}/open",
    "POST /account/devices/{sign_in}/end",
    "POST /account/devices/end-others",
    "POST /account/name",
    // each trainer's own: tests/it/review.rs
    "POST /caseload/views/{view}/remove",
    "POST /review/phrases/{phrase}/remove",
    // each thing that it holds is judged by itself: tests/it/sync.rs
    "POST /sync/logs",
    "POST /account/password",
];
/// The same of passkeys, where the service is built with them.
const OWN_PASSKEYS: [&str; 6] = [
    "POST /sign-in/passkey/begin",
    "POST /sign-in/passkey",
    "POST /account/passkeys/begin",
    "POST /account/passkeys",
    "POST /account/passkeys/{passkey}",
    "POST /account/passkeys/{passkey}/remove",
];

fn route(stop: &Stop) -> String {
    format!("{} {}", stop.method, stop.pattern)
}

#[test]
fn every_change_is_an_act_or_one_s_own_affair() {
    let table: Vec<String> = routes::table().iter().map(|r| format!("{} {}", r.method, r.path)).collect();
    let acts: Vec<String> = ACTS.iter().flat_map(|(_, _, routes)| *routes).map(|r| (*r).to_owned()).collect();
    let own: &[&str] = if cfg!(feature = "passkeys") { &OWN_PASSKEYS } else { &[] };
    let named: Vec<String> =
        acts.iter().cloned().chain(OWN.iter().chain(own).map(|r| (*r).to_owned())).collect();
    let once: BTreeSet<&String> = named.iter().collect();
    assert_eq!(once.len(), named.len(), "each is named once");
    let gone: Vec<&String> = named.iter().filter(|route| !table.contains(route)).collect();
    assert!(gone.is_empty(), "not in the table of routes: {gone:?}");
    let changes = table.iter().filter(|route| route.starts_with("POST "));
    let unknown: Vec<&String> = changes.filter(|route| !named.contains(route)).collect();
    assert!(unknown.is_empty(), "who may do this? {unknown:?}");
    let idle: Vec<&Action> =
        Action::ALL.iter().filter(|action| !ACTS.iter().any(|(act, ..)| act == *action)).collect();
    assert!(idle.is_empty(), "done by no route: {idle:?}");
}

/// Does every act on one household's things and holds each answer to the domain's. What is refused writes nothing.
async fn answers_as_the_domain_says(
    world: &World,
    home: &LivedIn,
    walker: &mut Walker,
    own: Option<&'static str>,
) {
    let (practice, things) = (home.practice.id, &home.practice.things);
    let role = walker.role.expect("somebody who is signed in");
    let elsewhere = Uuid::new_v4();
    let households = own.map(|thing| things.get(thing).copied().unwrap_or(elsewhere).into());
    let membership = MembershipId::from(Uuid::new_v4());
    let actor = Actor { practice, membership, role, households: households.into_iter().collect() };
    let stops = walk::every_route(things);
    let [dog, message] = ["dog", "message"].map(|thing| things[thing].to_string());
    let fields = [
        ("dog", dog.as_str()),
        ("seen", message.as_str()),
        ("name", "A new name"),
        ("on", lived_in::WEIGHED_ON),
    ];
    for (action, on, wanted) in ACTS {
        let household = (*on == Household).then(|| things["household"].into());
        let said = decide(&actor, *action, &Resource { practice, household });
        for wanted in *wanted {
            let stop = stops.iter().find(|stop| route(stop) == **wanted).expect(wanted);
            let name = walker.name;
            if said == Access::Allow && walker.has(stop) {
                let answer =
                    walker.browser.ask(stop.method.clone(), &stop.path, &fields, From::OurPage).await;
                let status = answer.status().as_u16();
                assert!(![403, 404, 405].contains(&status), "{name} may {action:?}: {answer:?}");
                continue;
            }
            let before = world.database.fingerprint().await;
            let answer = walker.browser.ask(stop.method.clone(), &stop.path, &fields, From::OurPage).await;
            let refusal = match said {
                Access::Hide => 404,
                // what they may do by a page of their own; this one is another role's
                Access::Allow if stop.method == Method::GET => 404,
                Access::Allow | Access::Refuse => 403,
            };
            assert_eq!(answer.status(), refusal, "{name}, {action:?}, {said:?}: {answer:?}");
            assert_eq!(world.database.fingerprint().await, before, "{name}: {answer:?} wrote something");
        }
    }
}

#[tokio::test]
async fn a_lead_may_do_what_the_domain_says() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let mut walker = Walker::insider("the lead", &home.practice.lead, Role::Lead);
    answers_as_the_domain_says(&world, &home, &mut walker, None).await;
}

#[tokio::test]
async fn a_trainer_may_do_what_the_domain_says() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let mut walker = Walker::insider("the trainer", &home.trainer, Role::Trainer);
    answers_as_the_domain_says(&world, &home, &mut walker, None).await;
    walker.is_kept_out(&walk::every_route(&home.practice.things)).await;
}

#[tokio::test]
async fn an_owner_may_do_what_the_domain_says() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let mut walker = Walker::insider("the owner", &home.owner, Role::Owner);
    answers_as_the_domain_says(&world, &home, &mut walker, Some("household")).await;
    walker.is_kept_out(&walk::every_route(&home.practice.things)).await;
}

#[tokio::test]
async fn an_owner_of_another_household_may_do_what_the_domain_says() {
    let world = World::new().await;
    let home = LivedIn::new(&world, &HEATH).await;
    let mut walker = Walker::stranger("the other household's owner", &home.other_owner, Role::Owner);
    answers_as_the_domain_says(&world, &home, &mut walker, Some("another household")).await;
}
