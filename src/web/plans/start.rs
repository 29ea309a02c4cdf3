//! Starting a draft from something that is there already.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::Refusal;
use crate::actions::start_plan::{StartFrom, start_plan};
use crate::app::App;
use crate::domain::dates::days_between;
use crate::domain::starting_points::{self, StartingPoint};
use crate::store::dog::Dog;
use crate::store::plan;
use crate::store::plan_template::{self, PlanTemplate};
use crate::store::sign_in::SignedIn;
use crate::web::plans::dog_of;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

/// A starting point as it is offered.
struct Offer {
    point: &'static StartingPoint,
    /// Whether it is written for the dog's age.
    for_age: bool,
    /// What it puts into the plan, by name.
    names: Vec<&'static str>,
}

#[derive(Template, WebTemplate)]
#[template(path = "plans/start.html")]
struct StartPage {
    page: Page,
    dog: Dog,
    form: Form,
    offers: Vec<Offer>,
    templates: Vec<PlanTemplate>,
    lenders: Vec<(String, String)>,
    is_published: bool,
}

async fn page(app: &App, who: &mut SignedIn, dog: Dog, form: Form) -> Result<StartPage, WebError> {
    let today = zones::local_date(app.moment().at, &dog.zone);
    let weeks = dog.born.filter(|born| *born <= today).map(|born| days_between(born, today) / 7);
    let offer = |point: &'static StartingPoint| Offer {
        point,
        for_age: point.is_for_age(weeks),
        names: point.items.iter().filter_map(|item| item.entry()).map(|entry| entry.name).collect(),
    };
    let lenders = plan_template::lenders(&mut who.tx, dog.id).await?;
    Ok(StartPage {
        page: Page::of(who, format!("{}: start from", dog.name), "caseload").with_errors(&form),
        form,
        offers: starting_points::for_age(weeks).into_iter().map(offer).collect(),
        templates: plan_template::list(&mut who.tx).await?,
        lenders: lenders
            .into_iter()
            .map(|lender| (lender.dog.to_string(), format!("{} ({})", lender.name, lender.household)))
            .collect(),
        is_published: plan::current(dog.id).read(&mut who.tx).await?.is_some(),
        dog,
    })
}

/// What there is to start from.
pub async fn start_page(
    State(app): State<App>,
    At(dog): At<String>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let mut page = page(&app, &mut who, dog, Form::blank()).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// What the form says to start from.
fn read(form: &mut Form) -> Option<StartFrom> {
    let point = form.text("point", 40);
    let (template, lender) = (form.text("template", 40), form.text("lender", 40));
    if !lender.is_empty() && point.is_empty() && template.is_empty() {
        let dog = lender.parse().ok();
        if dog.is_none() {
            form.refuse("lender", "Dog: choose one of the dogs.");
        }
        return dog.map(StartFrom::Dog);
    }
    if !template.is_empty() && point.is_empty() {
        let kept = template.parse().ok();
        if kept.is_none() {
            form.refuse("template", "Template: choose one of those that are kept.");
        }
        return kept.map(StartFrom::Template);
    }
    let found = starting_points::find(&point);
    if found.is_none() {
        form.refuse("point", "Choose what to start from.");
    }
    found.map(StartFrom::Point)
}

/// Adds it to the draft.
pub async fn start(
    State(app): State<App>,
    At(dog): At<String>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let Some(from) = read(&mut form).filter(|_| form.is_fine()) else {
        let page = page(&app, &mut who, dog, form).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    };
    let notice = match start_plan(who.tx, &who.actor, dog.id, from, &app.moment()).await {
        Ok(0) => "plan-started-none",
        Ok(_) => "plan-started",
        Err(Refusal::Field { .. }) => "plan-full",
        Err(other) => return Err(other.into()),
    };
    Ok(Redirect::to(&format!("/dogs/{}/plan/edit?notice={notice}", dog.id)).into_response())
}
