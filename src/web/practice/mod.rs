//! The practice: what it says of itself, and who works in it.

pub mod audit;
pub mod export;
pub mod import;
pub mod import_batch;
pub mod numbers;
pub mod records;
pub mod team;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::actions::authorise;
use crate::actions::edit_practice::{PracticeInput, edit_practice};
use crate::app::App;
use crate::domain::access::Action;
use crate::domain::vocabulary::Role;
use crate::store::membership;
use crate::store::practice::Practice;
use crate::store::sign_in::SignedIn;
use crate::web::choices::Choices;
use crate::web::dogs::trainers;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::people::{self, Person};
use crate::web::zones::{self, Zones};
use crate::web::{Answer, AnyMember, Form, LeadOnly, Page, WebError, notice};

#[derive(Template, WebTemplate)]
#[template(path = "practice/show.html")]
struct PracticePage {
    page: Page,
    practice: Practice,
    team: Vec<Person>,
    is_lead: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "practice/edit.html")]
struct EditPage {
    page: Page,
    form: Form,
    zones: Zones,
    /// Who may be on duty.
    team: Choices,
}
form_pages!(EditPage);

/// The practice and its team.
pub async fn show(
    State(app): State<App>,
    AnyMember(mut who): AnyMember,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    authorise(&who.actor, Action::SeeTeam, None)?;
    let team = membership::team(&mut who.tx).await?;
    let team = people::load(&mut who.tx, team, who.member.id, app.moment().at).await?;
    let page = Page::of(&who, "Practice", "practice").with_notice(notice::of(&query));
    Ok(PracticePage { page, practice: who.practice, team, is_lead: who.member.role == Role::Lead }
        .into_response())
}

/// What the practice says of itself, to be changed.
pub async fn edit(LeadOnly(mut who): LeadOnly) -> Answer {
    let duty = who.practice.duty.as_ref().map(|duty| duty.id.to_string()).unwrap_or_default();
    let form = Form::blank()
        .with("name", &who.practice.name)
        .with("zone", &who.practice.zone)
        .with("replies", &who.practice.replies)
        .with("trainer", &duty)
        .with("was", duty);
    Ok(edit_page(&mut who, form).await?.into_response())
}

async fn edit_page(who: &mut SignedIn, form: Form) -> Result<EditPage, WebError> {
    Ok(EditPage {
        page: Page::of(who, "Change the practice", "practice").with_errors(&form),
        zones: zones::choices(&who.practice.zone),
        team: trainers(&mut who.tx).await?,
        form,
    })
}

/// Changes it.
pub async fn update(State(app): State<App>, LeadOnly(mut who): LeadOnly, mut form: Form) -> Answer {
    let wanted = PracticeInput {
        name: form.required("name", 120, "Enter the name of your practice."),
        zone: zones::read(&mut form, "zone"),
        replies: form.required("replies", 200, "Say when owners may expect an answer."),
        duty: form.id("trainer"),
    };
    // what another lead changed meanwhile stays, where this page leaves it as it was
    let is_left = form.value("trainer") == form.value("was");
    let kept = who.practice.duty.as_ref().map(|duty| duty.id);
    let wanted = PracticeInput { duty: if is_left { kept } else { wanted.duty }, ..wanted };
    let page = edit_page(&mut who, form).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = edit_practice(who.tx, &who.actor, &wanted, &app.moment()).await;
    page.settle(done, "/practice?notice=saved")
}
