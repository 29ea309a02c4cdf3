//! Keeping a draft to start other plans from, and removing what was kept.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::{IntoResponse, Redirect};

use crate::actions::keep_template::{keep_template, remove_template};
use crate::app::App;
use crate::ids::PlanTemplateId;
use crate::store::dog::Dog;
use crate::store::plan_template::{self, NewTemplate, PlanTemplate};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::plans::dog_of;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError};

#[derive(Template, WebTemplate)]
#[template(path = "plans/template.html")]
struct KeepPage {
    page: Page,
    form: Form,
    dog: Dog,
}
form_pages!(KeepPage);

/// Asks for a name.
pub async fn keep_page(
    State(app): State<App>,
    At(dog): At<String>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let id: PlanTemplateId = app.moment().id();
    let form = Form::blank().with("id", id.to_string());
    let page = Page::of(&who, format!("{}: keep as a template", dog.name), "caseload");
    Ok(KeepPage { page, form, dog }.into_response())
}

/// Keeps the draft.
pub async fn keep(
    State(app): State<App>,
    At(dog): At<String>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let moment = app.moment();
    let new = NewTemplate {
        id: form.id("id").unwrap_or_else(|| moment.id()),
        name: form.required("name", 120, "Enter a name for it."),
        about: form.text("about", 1000),
    };
    let (id, page) = (dog.id, Page::of(&who, format!("{}: keep as a template", dog.name), "caseload"));
    let page = KeepPage { page, form, dog };
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = keep_template(who.tx, &who.actor, id, &new, &moment).await;
    page.settle(done, &format!("/dogs/{id}/plan/edit?notice=template-kept"))
}

#[derive(Template, WebTemplate)]
#[template(path = "plans/template_remove.html")]
struct RemovePage {
    page: Page,
    template: PlanTemplate,
}

/// Asks whether to remove it.
pub async fn remove_page(At(template): At<PlanTemplateId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let template = plan_template::find(&mut who.tx, template).await?.ok_or(WebError::NotFound)?;
    Ok(RemovePage { page: Page::of(&who, "Remove a kept plan", "library"), template }.into_response())
}

/// Removes it.
pub async fn remove(
    State(app): State<App>,
    At(template): At<PlanTemplateId>,
    TrainerOnly(who): TrainerOnly,
) -> Answer {
    remove_template(who.tx, &who.actor, template, &app.moment()).await?;
    Ok(Redirect::to("/library?notice=template-removed").into_response())
}
