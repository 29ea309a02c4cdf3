//! Who did what lately, in words, for the lead trainer.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use crate::actions::authorise;
use crate::app::App;
use crate::domain::access::Action;
use crate::store::audit::{self, Noted};
use crate::web::{Answer, AnyMember, Page, zones};

/// How many of the latest are shown.
const MOST: i64 = 50;

#[derive(Template, WebTemplate)]
#[template(path = "practice/audit.html")]
struct AuditPage {
    page: Page,
    events: Vec<Event>,
}

struct Event {
    day: String,
    time: String,
    who: String,
    what: String,
}

/// The latest events.
pub async fn show(State(app): State<App>, AnyMember(mut who): AnyMember) -> Answer {
    authorise(&who.actor, Action::SeeAudit, None)?;
    let today = zones::local_date(app.moment().at, &who.practice.zone);
    let noted = audit::latest(&mut who.tx, MOST).await?;
    let events = noted.into_iter().map(|event| {
        let at = zones::local(event.at, &who.practice.zone);
        Event {
            day: zones::day(at.date(), today),
            time: format!("{:02}:{:02}", at.hour(), at.minute()),
            what: sentence(&event),
            who: event.by.unwrap_or_else(|| "Nobody signed in".to_owned()),
        }
    });
    let events = events.collect();
    Ok(AuditPage { page: Page::of(&who, "What was done", "practice"), events }.into_response())
}

/// What was done, after the name of who did it: "made a link for Ada".
fn sentence(event: &Noted) -> String {
    let object = event.object.as_deref();
    let said = match TABLE.iter().find(|(action, _)| *action == event.action) {
        Some((_, words)) => words.replace("{}", object.unwrap_or("somebody or something since gone")),
        None => match object {
            Some(object) => format!("{}: {object}", event.action.replace('_', " ")),
            None => event.action.replace('_', " "),
        },
    };
    if event.detail.is_empty() { said } else { format!("{said} ({})", event.detail) }
}

/// Action, and what is said of it; the name of what it was done to stands at the braces.
const TABLE: &[(&str, &str)] = &[
    // people
    ("set_up_practice", "set up the practice"),
    ("mend_records", "built the records of {} anew"),
    ("set_house_number", "set a number of the rules"),
    ("set_equipment_policy", "changed which equipment is not used"),
    ("look_again", "let changed rules look at {} again"),
    ("apply_import", "imported records from a file"),
    ("edit_practice", "changed what the practice says of itself"),
    ("add_household", "added the household {}"),
    ("edit_household", "changed the household {}"),
    ("add_owner", "added {} as an owner"),
    ("edit_owner", "changed the details of {}"),
    ("remove_owner", "removed {} from a household"),
    ("invite_trainer", "invited {} into the team"),
    ("remove_trainer", "removed {} from the team"),
    ("make_link", "made a link for {}"),
    ("use_device_link", "signed a phone in by a link"),
    ("take_up_invitation", "took up the invitation"),
    ("sign_in", "signed in with a password"),
    ("sign_in_by_passkey", "signed in with a passkey"),
    ("add_passkey", "added a passkey"),
    ("rename_passkey", "renamed a passkey"),
    ("remove_passkey", "removed a passkey"),
    ("edit_own_name", "changed their own name"),
    ("add_existing_owner", "added {} to one more household"),
    ("reset_password", "set a new password by a link"),
    ("change_password", "changed their password"),
    ("set_first_password", "set a password"),
    ("end_sign_in", "signed a device out"),
    ("end_other_sign_ins", "signed all other devices out"),
    // dogs
    ("add_dog", "added the dog {}"),
    ("edit_dog", "changed the profile of {}"),
    ("set_phase", "changed where {} stands"),
    ("keep_place", "kept a place for {}"),
    ("remove_place", "removed a place of {}"),
    ("keep_reinforcer", "kept a reinforcer for {}"),
    ("remove_reinforcer", "removed a reinforcer of {}"),
    ("keep_trigger", "kept a trigger of {}"),
    ("remove_trigger", "removed a trigger of {}"),
    ("record_weight", "recorded the weight of {}"),
    ("remove_weight", "removed a weight of {}"),
    ("tell_goal", "told how near the goal of {} feels"),
    ("keep_life_event", "told what goes on in the life of {}"),
    ("remove_life_event", "took out what was told of the life of {}"),
    ("grant_off_lead", "allowed {} off lead in a place"),
    ("withdraw_off_lead", "took back an off-lead permission of {}"),
    ("hand_over_dog", "handed {} to a trainer"),
    ("archive_dog", "archived {}"),
    ("restore_dog", "took {} out of the archive"),
    ("keep_lost_sheet", "wrote what others need to know if {} is gone"),
    ("approve_fit", "approved how gear sits on {}"),
    ("make_helper_link", "made a helper’s link for {}"),
    ("end_helper_link", "ended a helper’s link for {}"),
    ("remove_photo", "took a photo of {} away"),
    ("keep_lesson", "kept a lesson with {}"),
    ("book_lesson", "booked a lesson with {}"),
    ("move_lesson", "changed a booked lesson with {}"),
    ("call_off_lesson", "called off a lesson with {}"),
    ("add_package", "added a package of lessons for {}"),
    ("take_back_package", "took a package of lessons for {} back"),
    ("work_again", "began to work with {} again"),
    ("ask_intake", "asked the household about {}"),
    ("send_intake", "told about {} before the first lesson"),
    ("triage_dog", "said what they make of {}"),
    ("give_consent", "signed what lessons with {} need"),
    ("decide", "decided about a step of {}"),
    ("edit_practice_log", "changed a sitting of {}"),
    ("remove_practice_log", "removed a sitting of {}"),
    ("edit_encounter", "changed an encounter of {}"),
    ("remove_encounter", "removed an encounter of {}"),
    ("answer_flag", "answered a welfare flag"),
    ("draft_report", "began a report about {}"),
    ("edit_report", "changed the draft of a report about {}"),
    ("discard_report", "threw away the draft of a report about {}"),
    ("issue_report", "issued a report about {}"),
    ("correct_report", "began a report about {} in place of one that was issued"),
    ("share_report", "shared a report about {} by a link"),
    ("revoke_report_link", "revoked a link to a report about {}"),
    // library
    ("add_exercise", "added {} to the library"),
    ("import_exercises", "added {} to the library from a file"),
    ("edit_exercise", "changed {} in the library"),
    ("archive_exercise", "put {} away"),
    ("restore_exercise", "took {} out again"),
    // plans
    ("add_draft_item", "added to the draft plan of {}"),
    ("edit_draft_item", "changed the draft plan of {}"),
    ("move_draft_item", "reordered the draft plan of {}"),
    ("remove_draft_item", "took something out of the draft plan of {}"),
    ("note_on_draft", "wrote a note on the draft plan of {}"),
    ("restart_draft", "started the draft plan of {} again"),
    ("publish_plan", "published a plan for {}"),
];

#[cfg(test)]
mod tests {
    use super::*;

    fn event(action: &str, object: Option<&str>) -> Noted {
        Noted {
            at: time::OffsetDateTime::UNIX_EPOCH,
            by: Some("Ines".to_owned()),
            action: action.to_owned(),
            object_kind: "membership".to_owned(),
            object: object.map(str::to_owned),
            detail: String::new(),
        }
    }

    #[test]
    fn known_actions_read_as_sentences() {
        assert_eq!(sentence(&event("make_link", Some("Ada"))), "made a link for Ada");
        assert_eq!(sentence(&event("invite_trainer", Some("Tom"))), "invited Tom into the team");
        assert_eq!(sentence(&event("change_password", Some("Ines"))), "changed their password");
    }

    #[test]
    fn an_action_without_words_of_its_own_is_still_readable() {
        assert_eq!(sentence(&event("weigh_dog", Some("Bramble"))), "weigh dog: Bramble");
        assert_eq!(sentence(&event("weigh_dog", None)), "weigh dog");
    }
}
