//! Who did what lately, in words, for the lead trainer.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use crate::app::App;
use crate::store::audit::{self, Noted};
use crate::web::{Answer, LeadOnly, Page, zones};

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
pub async fn show(State(app): State<App>, LeadOnly(mut who): LeadOnly) -> Answer {
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
    let said = TABLE.iter().find(|(action, ..)| *action == event.action);
    let (verb, joins) = match said {
        Some((_, verb, joins)) => ((*verb).to_owned(), *joins),
        None => (event.action.replace('_', " "), ":"),
    };
    let is_own = event.by.is_some() && event.by == event.object;
    let detail = if event.detail.is_empty() { String::new() } else { format!(" ({})", event.detail) };
    match &event.object {
        Some(object) if !is_own && !joins.is_empty() => {
            let gap = if joins == ":" { "" } else { " " };
            format!("{verb}{gap}{joins} {object}{detail}")
        }
        _ => format!("{verb}{detail}"),
    }
}

/// Action, what is said of it, and what joins it to the name of its object; empty where no name follows.
const TABLE: &[(&str, &str, &str)] = &[
    ("set_up_practice", "set up the practice", ""),
    ("edit_practice", "changed what the practice says of itself", ""),
    ("add_household", "added the household", "of"),
    ("edit_household", "changed the household", "of"),
    ("add_owner", "added an owner", ":"),
    ("edit_owner", "changed the details", "of"),
    ("remove_owner", "removed the owner", ":"),
    ("invite_trainer", "invited", ":"),
    ("remove_trainer", "removed from the team", ":"),
    ("make_link", "made a link", "for"),
    ("use_device_link", "signed a phone in by a link", ""),
    ("take_up_invitation", "took up the invitation", ""),
    ("reset_password", "set a new password by a link", ""),
    ("change_password", "changed their password", ""),
    ("set_first_password", "set a password", ""),
    ("end_sign_in", "signed a device out", ""),
    ("end_other_sign_ins", "signed all other devices out", ""),
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
        assert_eq!(sentence(&event("invite_trainer", Some("Tom"))), "invited: Tom");
        assert_eq!(sentence(&event("change_password", Some("Ines"))), "changed their password");
    }

    #[test]
    fn an_action_without_words_of_its_own_is_still_readable() {
        assert_eq!(sentence(&event("weigh_dog", Some("Bramble"))), "weigh dog: Bramble");
        assert_eq!(sentence(&event("weigh_dog", None)), "weigh dog");
    }
}
