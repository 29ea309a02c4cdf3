//! The form for an encounter: what happened, how strong it was; the rest is folded.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::record_encounter::record_encounter;
use crate::app::App;
use crate::domain::dog::pronouns;
use crate::domain::vocabulary::{EncounterKind, Line, Recovery, Role, Word};
use crate::ids::{DogId, EncounterId};
use crate::store::dog::Dog;
use crate::store::sign_in::SignedIn;
use crate::store::trigger::Trigger;
use crate::store::{dog, trigger};
use crate::web::encounters::fields;
use crate::web::practice_logs::ask::{Answers, answers};
use crate::web::revisions::Changing;
use crate::web::{Answer, AnyMember, At, Form, Page, WebError, own_dog};

/// Everything that the form's template reads.
struct Ask {
    id: String,
    dog: Dog,
    kinds: Answers,
    reactions: Answers,
    triggers: Vec<(String, String)>,
    lines: Answers,
    towards: Answers,
    recovery: Answers,
    recovery_question: String,
    yes_no: [(&'static str, &'static str); 2],
    skin_broken: Answers,
    /// Whether the questions about teeth come first: they were asked for and not answered.
    teeth_first: bool,
    /// What an encounter that is recorded already needs beside them.
    changing: Option<Changing>,
}

#[derive(Template, WebTemplate)]
#[template(path = "encounters/new_owner.html")]
struct OwnerForm {
    page: Page,
    form: Form,
    ask: Ask,
}

#[derive(Template, WebTemplate)]
#[template(path = "encounters/new_trainer.html")]
struct TrainerForm {
    page: Page,
    form: Form,
    ask: Ask,
}

/// The form page, with whatever is wrong in it.
pub(super) async fn form_page(
    who: &mut SignedIn,
    id: EncounterId,
    dog: Dog,
    triggers: &[Trigger],
    changing: Option<Changing>,
    form: Form,
) -> Result<Response, WebError> {
    let trainer = who.member.role != Role::Owner;
    let status = form.status();
    let title = format!("{}: something happened", dog.name);
    let pronouns = pronouns(dog.sex);
    let ask = Ask {
        id: id.to_string(),
        kinds: fields::kinds(trainer),
        reactions: fields::reactions(),
        triggers: triggers.iter().map(|trigger| (trigger.id.to_string(), trigger.what.clone())).collect(),
        lines: answers::<Line>(),
        towards: fields::towards(trainer),
        recovery: answers::<Recovery>(),
        recovery_question: format!("How long until {} was {} again?", dog.name, pronouns.reflexive),
        yes_no: [("yes", "Yes"), ("no", "No")],
        skin_broken: fields::skin_broken(),
        teeth_first: ["skin_broken", "towards"].iter().any(|field| form.error(field).is_some()),
        changing,
        dog,
    };
    if trainer {
        let page = Page::of(who, title, "caseload").with_errors(&form);
        return Ok((status, TrainerForm { page, form, ask }).into_response());
    }
    let page = own_dog::page(who, title, "today").await?.with_errors(&form);
    Ok((status, OwnerForm { page, form, ask }).into_response())
}

/// The form; `?kind=` is ticked already.
pub async fn new(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let triggers = trigger::of_dog(dog.id).read(&mut who.tx).await?;
    let kind = query.get("kind").and_then(|kind| EncounterKind::from_stored(kind));
    let form = kind.map_or_else(Form::blank, |kind| Form::blank().with("kind", kind.stored()));
    form_page(&mut who, app.moment().id(), dog, &triggers, None, form).await
}

/// Keeps the encounter and shows what to do first. Sent again, it leads to the same page.
pub async fn submit(
    State(app): State<App>,
    At(dog): At<DogId>,
    AnyMember(mut who): AnyMember,
    mut form: Form,
) -> Answer {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let id: EncounterId = form.id("id").ok_or(WebError::Status(StatusCode::BAD_REQUEST))?;
    let triggers = trigger::of_dog(dog.id).read(&mut who.tx).await?;
    let moment = app.moment();
    let read = fields::read(&mut form, id, &dog, &triggers, moment.at, None);
    let Some((encounter, stated_at)) = read.filter(|_| form.is_fine()) else {
        return form_page(&mut who, id, dog, &triggers, None, form).await;
    };
    record_encounter(who.tx, &who.actor, &encounter, stated_at, &moment).await?;
    Ok(Redirect::to(&format!("/dogs/{}/encounters/{id}", dog.id)).into_response())
}
