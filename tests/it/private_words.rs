//! What trainers write for themselves never reaches an owner. Every column that words are kept in is in one of these lists; a new one
//! that is in none fails. The test puts a mark into each private one and reads everything that an owner and whoever holds a link can open:
//! pages, papers, cards, calendar files. The service sends no mail.

use std::collections::BTreeSet;

use axum::http::Method;
use settlebrook::web::routes::Who;
use uuid::Uuid;

use crate::support::every_form;
use crate::support::stage::{Setting, Stage};
use crate::support::walk;

/// Words for trainers alone.
const PRIVATE: &[&str] = &[
    "audit_event.detail",
    "caseload_view.name",
    "caseload_view.query",
    "decision.note",
    "dog.history",
    "dog_summary.decision_waits_on",
    "dog_summary.last_owner_message",
    "exercise.caution",
    "exercise.cool_down_way",
    "exercise.criterion",
    "exercise.delivery",
    "exercise.equipment_note",
    "exercise.owner_why",
    "exercise.purpose",
    "exercise.set_up",
    "exercise.source",
    "hand_over.note",
    "household.note",
    "import_batch.sheet",
    "intake_triage.reason",
    "lesson.private_note",
    "off_lead_permission.lapsed_because",
    "phrase.body",
    "plan_draft.note",
    "plan_draft_item.cool_down_way",
    "plan_draft_item.note",
    "plan_template.about",
    "plan_template.name",
    "plan_template_item.cool_down_way",
    "plan_template_item.note",
    "plan_version.despite_stop",
    "report.addressed_to",
    "report.sections",
    "report_link.for_whom",
    "trigger.note",
    "welfare_flag.facts",
    "welfare_flag.seen",
];

/// Words that the household reads, or wrote.
const SHOWN: &[&str] = &[
    "account.email",
    "appointment.called_off_why",
    "appointment.place_name",
    "consent.signed_name",
    "consent_tick.clause",
    "consent_tick.words",
    "dog.allergies",
    "dog.breed",
    "dog.goal",
    "dog.heart_or_breathing",
    "dog.main_food",
    "dog.medicines",
    "dog.must_not_meet",
    "dog.muzzle",
    "dog.name",
    "dog.orthopaedic",
    "dog.other_health",
    "dog.tried_before",
    "encounter.note",
    "encounter.place_name",
    "encounter.what",
    "encounter_revision.before",
    "encounter_revision.reason",
    "exercise.name",
    "goal_reading.note",
    "helper_link.name",
    "helper_link.note",
    "household.name",
    "intake.answers",
    "lesson.summary",
    "lesson_package.note",
    "lesson_package.taken_back_why",
    "life_event.note",
    "log_revision.before",
    "log_revision.reason",
    "lost_sheet.approach",
    "lost_sheet.chip",
    "lost_sheet.marks",
    "lost_sheet.ring",
    "membership.email",
    "membership.name",
    "membership.phone",
    "message.body",
    "passkey.name",
    "place.name",
    "plan_item.caution",
    "plan_item.cool_down_way",
    "plan_item.criterion",
    "plan_item.delivery",
    "plan_item.distance",
    "plan_item.duration",
    "plan_item.equipment_note",
    "plan_item.name",
    "plan_item.note",
    "plan_item.owner_why",
    "plan_item.place_name",
    "plan_item.reinforcer_name",
    "plan_item.set_up",
    "plan_item.source",
    "plan_item.step_name",
    "plan_version.note",
    "practice.name",
    "practice.replies",
    "practice_log.handler",
    "practice_log.note",
    "practice_log.place_name",
    "reinforcer.what",
    // what was issued is read by whoever holds its link
    "report_issued.about",
    "report_issued.addressed_to",
    "report_issued.dog_name",
    "report_issued.issued_name",
    "report_issued.period",
    "report_issued.practice_name",
    "report_issued.replaces",
    "report_issued.sections",
    "report_issued.statement",
    "report_issued.title",
    "sign_in.device",
    "step.criterion",
    "step.distance",
    "step.duration",
    "step.name",
    "trigger.what",
    "welfare_flag.answer",
    "welfare_flag.owner_seen",
];

/// No words of people's: names that the service gives, zones, keys, and what is compared with something else.
const NO_WORDS: &[&str] = &[
    "_sqlx_migrations.description",
    "appointment.zone",
    "audit_event.action",
    "audit_event.object_kind",
    "credential.kind",
    "credential.secret",
    "decision.advice",
    "encounter.phone_zone",
    "encounter.zone",
    "house_number.key",
    "household.zone",
    "passkey.key",
    "passkey_challenge.state",
    "practice.zone",
    "practice_log.health_signs",
    "practice_log.phone_zone",
    "practice_log.zone",
    "readiness.state",
    "welfare_flag.rule",
];

/// What the stage has not: a lesson, a decision, a hand-over, an answer to an intake, a report. Their words are put in below.
async fn furnish(stage: &mut Stage, dog: Uuid) {
    let lead = stage.who("the lead");
    let page = lead.get(&format!("/dogs/{dog}/lessons")).await;
    let form = format!("main form[action='/dogs/{dog}/lessons']");
    let said = [("summary", "A good hour."), ("private_note", "Between us.")];
    lead.submit(&page, &form, &said).await.expect(303);
    let dog_page = lead.get(&format!("/dogs/{dog}")).await;
    let decide = dog_page.attributes("main a[href*='/decide/']", "href")[0].clone();
    let page = lead.get(&decide).await;
    let said = [("choice", "repeat"), ("reason", "counts"), ("note", "Between us.")];
    lead.submit(&page, "main form", &said).await.expect(303);
    let several = lead.get("/caseload/several?show=everyone").await;
    let trainers = several.attributes("#f-trainer option", "value");
    let id = dog.to_string();
    for trainer in trainers.iter().filter(|value| !value.is_empty()) {
        let said =
            [("dogs", id.as_str()), ("trainer", trainer), ("note", "Between us."), ("change", "trainer")];
        lead.submit(&several, "main form", &said).await.expect(303);
    }
    stage
        .say(
            "insert into intake_triage (practice_id, id, dog_id, answer, reason, decided_by, decided_at)
               select practice_id, gen_random_uuid(), id, 'take', 'Between us.', trainer_id, now() from dog
               where not exists (select from intake_triage);",
        )
        .await;
}

#[tokio::test]
async fn words_for_trainers_alone_reach_no_owner() {
    let setting = Setting::build().await;
    let mut stage = setting.set().await;
    let dog = setting.things["dog"];
    furnish(&mut stage, dog).await;
    let columns = stage.columns_of_words().await;
    let known: BTreeSet<&str> = [PRIVATE, SHOWN, NO_WORDS].concat().into_iter().collect();
    let new: Vec<&String> = columns.iter().filter(|column| !known.contains(column.as_str())).collect();
    assert!(new.is_empty(), "whose words are these? {new:?}");
    let gone: Vec<&&str> =
        known.iter().filter(|name| !columns.iter().any(|column| column == *name)).collect();
    assert!(gone.is_empty(), "no column of words: {gone:?}");
    // a mark in every private column, and one that an owner must find, so that looking is known to work
    let marked = PRIVATE.iter().chain(&["message.body", "welfare_flag.owner_seen"]);
    for (number, column) in marked.enumerate() {
        let (table, name) = column.split_once('.').expect("a table and a column");
        let mark = match *column {
            "welfare_flag.facts" => format!("[[\"canary{number}y\", \"canary{number}y\"]]"),
            "report.sections" => {
                format!(
                    "[{{\"key\": \"x\", \"heading\": \"canary{number}y\", \"body\": \"canary{number}y\"}}]"
                )
            }
            _ => format!("canary{number}y"),
        };
        let rows = stage.mark(table, name, &mark).await;
        assert!(rows > 0, "{column} has nothing in it: the mark is nowhere");
    }
    let mut seen: BTreeSet<String> = BTreeSet::new();
    let mut read = 0;
    let found = |body: &str, path: &str, seen: &mut BTreeSet<String>| {
        let marks =
            body.split("canary").skip(1).filter_map(|rest| rest.split('y').next()?.parse::<usize>().ok());
        for number in marks {
            let column = PRIVATE.get(number).copied().unwrap_or("shown");
            seen.insert(if column == "shown" { column.to_owned() } else { format!("{column} at {path}") });
        }
    };
    let things = setting.things.clone();
    for who in ["the owner", "the other owner"] {
        let walked = every_form::walk(stage.who(who), &things).await;
        for page in &walked.pages {
            read += 1;
            found(page.body(), page.path(), &mut seen);
        }
        // files as well, which no page is
        for stop in walk::every_route(&walked.things) {
            if stop.method == Method::GET && matches!(stop.who, Who::Owner | Who::Member) {
                let answer = stage.who(who).get(&stop.path).await;
                found(answer.body(), &stop.path, &mut seen);
            }
        }
    }
    for (_, path) in &setting.links {
        let answer = stage.who("a visitor").get(path).await;
        read += 1;
        found(answer.body(), path, &mut seen);
    }
    assert!(read > 60, "only {read} pages were read");
    assert!(seen.remove("shown"), "a mark that an owner reads was not found: looking does not work");
    assert!(seen.is_empty(), "{seen:#?}");
}
