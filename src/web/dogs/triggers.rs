//! What sets a dog off: a page to add, change or remove each.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use crate::actions::keep_trigger::{add_trigger, keep_trigger};
use crate::actions::remove_trigger::remove_trigger;
use crate::app::App;
use crate::ids::{DogId, TriggerId};
use crate::store::dog::Dog;
use crate::store::sign_in::SignedIn;
use crate::store::trigger::{self, Trigger};
use crate::web::dogs::load;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError};

#[derive(Template, WebTemplate)]
#[template(path = "dogs/trigger.html")]
struct TriggerPage {
    page: Page,
    form: Form,
    dog: Dog,
    id: Option<TriggerId>,
}
form_pages!(TriggerPage);

fn page(who: &SignedIn, dog: Dog, id: Option<TriggerId>, form: Form) -> TriggerPage {
    let title = if id.is_some() { "Change a trigger" } else { "Add a trigger" };
    TriggerPage { page: Page::of(who, title, "caseload"), form, dog, id }
}

fn read(form: &mut Form, dog: DogId, id: TriggerId) -> Trigger {
    let what = form.required("what", 200, "Enter what sets the dog off.");
    Trigger { id, dog, what, note: form.text("note", 500) }
}

fn filled(trigger: &Trigger) -> Form {
    Form::blank().with("what", &trigger.what).with("note", &trigger.note)
}

async fn find(who: &mut SignedIn, dog: DogId, id: TriggerId) -> Result<Trigger, WebError> {
    trigger::find(dog, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)
}

/// The page for a new one.
pub async fn new(State(app): State<App>, At(dog): At<DogId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = load(&mut who, dog).await?;
    let id: TriggerId = app.moment().id();
    Ok(page(&who, dog, None, Form::blank().with("id", id.to_string())).into_response())
}

/// Adds one.
pub async fn add(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let moment = app.moment();
    let new = form.id("id").unwrap_or_else(|| moment.id());
    let (id, new) = (dog.id, read(&mut form, dog.id, new));
    let page = page(&who, dog, None, form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = add_trigger(who.tx, &who.actor, &new, &moment).await;
    page.settle(done, &format!("/dogs/{id}/profile?notice=saved"))
}

/// The page of one.
pub async fn show(At((dog, id)): At<(DogId, TriggerId)>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = load(&mut who, dog).await?;
    let trigger = find(&mut who, dog.id, id).await?;
    Ok(page(&who, dog, Some(id), filled(&trigger)).into_response())
}

/// Changes one.
pub async fn edit(
    State(app): State<App>,
    At((dog, id)): At<(DogId, TriggerId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    find(&mut who, dog.id, id).await?;
    let changed = read(&mut form, dog.id, id);
    let page = page(&who, dog, Some(id), form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = keep_trigger(who.tx, &who.actor, &changed, &app.moment()).await;
    page.settle(done, &format!("/dogs/{}/profile?notice=saved", changed.dog))
}

/// Removes one, as long as no record names it.
pub async fn remove(
    State(app): State<App>,
    At((dog, id)): At<(DogId, TriggerId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let trigger = find(&mut who, dog.id, id).await?;
    let page = page(&who, dog, Some(id), filled(&trigger));
    let done = remove_trigger(who.tx, &who.actor, trigger.dog, id, &app.moment()).await;
    page.settle(done, &format!("/dogs/{}/profile?notice=removed", trigger.dog))
}
