//! Check before you publish, then publish.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::Refusal;
use crate::actions::check_plan::Measure;
use crate::actions::note_on_draft::note_on_draft;
use crate::actions::publish_plan::{Publication, publish_plan};
use crate::app::App;
use crate::clock::Moment;
use crate::domain::intake::triage::Publishing;
use crate::domain::vocabulary::Phase;
use crate::ids::DogId;
use crate::store::dog::Dog;
use crate::store::sign_in::SignedIn;
use crate::store::{plan_draft, triage};
use crate::web::plans::{changes, checks, dog_of, id};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice};

/// The longest note to the owner.
const LONGEST_NOTE: usize = 2000;

#[derive(Template, WebTemplate)]
#[template(path = "plans/publish.html")]
struct PublishPage {
    page: Page,
    dog: Dog,
    form: Form,
    number: i32,
    checks: Vec<checks::Check>,
    has_stop: bool,
    load: checks::Load,
    changes: Vec<changes::Change>,
    keeper: String,
    /// What the intake has to say to it.
    intake: Publishing,
}

async fn page(who: &mut SignedIn, dog: Dog, form: Form, moment: &Moment) -> Result<PublishPage, WebError> {
    let items = plan_draft::items(&mut who.tx, dog.id).await?;
    let measure = Measure::of(dog.id).read(&mut who.tx).await?;
    let findings = measure.check(&items, moment);
    let (number, published) =
        measure.published.map_or((1, Vec::new()), |plan| (plan.version.number + 1, plan.items));
    let intake = triage::publishing_of(&mut who.tx, dog.id).await?;
    let checks = checks::of(findings, &items);
    Ok(PublishPage {
        page: Page::of(who, format!("{}: check before you publish", dog.name), "caseload").with_errors(&form),
        dog,
        form,
        number,
        has_stop: checks::any_stop(&checks),
        checks,
        load: checks::Load::of(&items),
        changes: changes::between(&published, &items, changes::Reader::Trainer),
        keeper: who.actor.membership.to_string(),
        intake,
    })
}

/// The page to check.
pub async fn publish_page(
    State(app): State<App>,
    At(dog): At<String>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let note = plan_draft::find(dog.id).read(&mut who.tx).await?.map(|draft| draft.note).unwrap_or_default();
    let mut page = page(&mut who, dog, Form::blank().with("note", note), &app.moment()).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Publishes the draft. Sent again it leads to the same plan; where somebody else published first, the page comes again.
pub async fn publish(
    State(app): State<App>,
    At(dog): At<String>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let note = form.text("note", LONGEST_NOTE);
    let items = plan_draft::items(&mut who.tx, dog.id).await?;
    let number = form.text("number", 9).parse().ok();
    let moment = app.moment();
    let findings = Measure::of(dog.id).read(&mut who.tx).await?.check(&items, &moment);
    let publication = Publication {
        note,
        despite_stop: form.text("despite_stop", 1000),
        number,
        knows_vet_first: form.tick("vet_first"),
    };
    if let Some(Refusal::Field { field, message }) = publication.objection(&items, &findings) {
        form.refuse(field, message);
    }
    if !form.is_fine() {
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page(&mut who, dog, form, &app.moment()).await?)
            .into_response());
    }
    match publish_plan(who.tx, &who.actor, dog.id, &publication, &moment).await {
        Ok(published) => {
            let notice = if published.is_now_active { "plan-published-active" } else { "plan-published" };
            Ok(Redirect::to(&format!("/dogs/{}/plan?notice={notice}", dog.id)).into_response())
        }
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            who.tx = app.db.for_member(who.practice.id, who.member.id).await?.ok_or(WebError::NotFound)?;
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page(&mut who, dog, form, &app.moment()).await?)
                .into_response())
        }
        Err(other) => Err(other.into()),
    }
}

/// Keeps the note and publishes later.
pub async fn keep_note(
    State(app): State<App>,
    At(dog): At<String>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let note = form.text("note", LONGEST_NOTE);
    if !form.is_fine() {
        let dog = dog_of(&mut who, &dog).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page(&mut who, dog, form, &app.moment()).await?)
            .into_response());
    }
    let dog: DogId = id(&dog)?;
    note_on_draft(who.tx, &who.actor, dog, &note, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/plan/edit?notice=plan-note-kept")).into_response())
}
