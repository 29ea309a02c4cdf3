//! The form for a sitting, and the choice of what was practised.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Response};

use crate::app::App;
use crate::domain::vocabulary::{ItemKind, Role};
use crate::ids::{DogId, PlanItemId, PracticeLogId};
use crate::store::dog::Dog;
use crate::store::plan::PlanItem;
use crate::store::sign_in::SignedIn;
use crate::store::{dog, place, plan};
use crate::web::practice_logs::ask::Ask;
use crate::web::{Answer, AnyMember, At, Form, Page, WebError, own_dog};

#[derive(Template, WebTemplate)]
#[template(path = "practice_logs/new_owner.html")]
struct OwnerForm {
    page: Page,
    form: Form,
    ask: Ask,
}

#[derive(Template, WebTemplate)]
#[template(path = "practice_logs/new_trainer.html")]
struct TrainerForm {
    page: Page,
    form: Form,
    ask: Ask,
}

#[derive(Template, WebTemplate)]
#[template(path = "practice_logs/choose_owner.html")]
struct OwnerChoice {
    page: Page,
    dog: Dog,
    items: Vec<PlanItem>,
}

#[derive(Template, WebTemplate)]
#[template(path = "practice_logs/choose_trainer.html")]
struct TrainerChoice {
    page: Page,
    dog: Dog,
    items: Vec<PlanItem>,
}

/// The form page, with whatever is wrong in it.
pub async fn form_page(who: &mut SignedIn, ask: Ask, form: Form) -> Result<Response, WebError> {
    let status = form.status();
    let title = format!("{}: how it went", ask.dog.name);
    if ask.trainer {
        let page = Page::of(who, title, "caseload").with_errors(&form);
        return Ok((status, TrainerForm { page, form, ask }).into_response());
    }
    let page = own_dog::page(who, title, "today").await?.with_errors(&form);
    Ok((status, OwnerForm { page, form, ask }).into_response())
}

/// An instruction that can be practised. What holds all the time is not logged by the sitting.
pub async fn practised(who: &mut SignedIn, dog: DogId, id: PlanItemId) -> Result<PlanItem, WebError> {
    let item = plan::item(dog, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    if item.kind == ItemKind::StandingArrangement { Err(WebError::NotFound) } else { Ok(item) }
}

/// The form for `?item=`; without one, the choice of what was practised.
pub async fn new(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let Some(wanted) = query.get("item") else { return choice(&mut who, dog).await };
    let wanted = wanted.parse().map_err(|_| WebError::NotFound)?;
    let item = practised(&mut who, dog.id, wanted).await?;
    let mut form = Form::blank();
    if let Some(attempts) = item.attempts {
        form = form.with("attempts", attempts.to_string());
    }
    if !super::is_line_work(&item) {
        form = form.with("clip", super::fields::AS_PLANNED);
    }
    let id: PracticeLogId = app.moment().id();
    let trainer = who.member.role != Role::Owner;
    let places = place::of_dog(dog.id).read(&mut who.tx).await?;
    form_page(&mut who, Ask::new(id.to_string(), dog, item, &places, trainer), form).await
}

async fn choice(who: &mut SignedIn, dog: Dog) -> Answer {
    let mut items = plan::newest(dog.id).read(&mut who.tx).await?.map(|plan| plan.items).unwrap_or_default();
    items.retain(|item| item.kind != ItemKind::StandingArrangement);
    let title = format!("{}: what did you practise?", dog.name);
    if who.member.role == Role::Owner {
        let page = own_dog::page(who, title, "today").await?;
        return Ok(OwnerChoice { page, dog, items }.into_response());
    }
    let page = Page::of(who, title, "caseload");
    Ok(TrainerChoice { page, dog, items }.into_response())
}
