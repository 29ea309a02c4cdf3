//! Checking that the records of every dog say what its facts say, for the lead trainer.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;
use uuid::Uuid;

use crate::actions::check_records::{Checked, check_records};
use crate::app::App;
use crate::ids::DogId;
use crate::web::{Answer, Form, LeadOnly, Page};

#[derive(Template, WebTemplate)]
#[template(path = "practice/records.html")]
struct RecordsPage {
    page: Page,
    checked: Option<Checked>,
    next: String,
}

/// What a check does, and the button that begins it.
pub async fn show(LeadOnly(who): LeadOnly) -> Answer {
    let page = Page::of(&who, "Check the records", "practice");
    Ok(RecordsPage { page, checked: None, next: String::new() }.into_response())
}

/// Checks some dogs and says what was found. Sending it again checks again, which changes nothing.
pub async fn check(State(app): State<App>, LeadOnly(who): LeadOnly, form: Form) -> Answer {
    let after = form.value("after").parse::<Uuid>().ok().map(DogId);
    let page = Page::of(&who, "Check the records", "practice");
    let checked = check_records(&app.db, who.tx, &who.actor, after, &app.moment()).await?;
    let next = checked.next.map(|dog| dog.to_string()).unwrap_or_default();
    Ok(RecordsPage { page, checked: Some(checked), next }.into_response())
}
