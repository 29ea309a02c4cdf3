//! A checked file: what it would add, the button that adds it, and afterwards what was added.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::apply_import::{Wanted, apply_import};
use crate::actions::stage_import::WAITS;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::import::{Additions, Already, HouseholdEntry, HouseholdOf, compare, read};
use crate::ids::ImportBatchId;
use crate::store::import;
use crate::store::import_batch::{self, ImportBatch};
use crate::store::sign_in::SignedIn;
use crate::web::choices::Choices;
use crate::web::dogs::trainers;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::practice::import::setting;
use crate::web::{Answer, At, Form, LeadOnly, Page, WebError, notice};

/// How many rows the preview shows.
const SHOWN: usize = 20;

#[derive(Template, WebTemplate)]
#[template(path = "practice/import_batch.html")]
struct PreviewPage {
    page: Page,
    form: Form,
    batch: ImportBatchId,
    trainers: Choices,
    households: usize,
    dogs: usize,
    weights: usize,
    already: Already,
    first: Vec<Shown>,
    is_cut: bool,
}
form_pages!(PreviewPage);

#[derive(Template, WebTemplate)]
#[template(path = "practice/import_done.html")]
struct DonePage {
    page: Page,
    batch: ImportBatch,
}

#[derive(Template, WebTemplate)]
#[template(path = "practice/import_gone.html")]
struct GonePage {
    page: Page,
}

/// A dog of the preview, or a household without one.
struct Shown {
    household: String,
    dog: String,
    breed: String,
    weights: usize,
    state: &'static str,
}

impl PreviewPage {
    fn is_empty(&self) -> bool {
        self.households + self.dogs + self.weights == 0
    }
}

fn gone(who: &SignedIn) -> Response {
    let page = GonePage { page: Page::of(who, "This file waits no more", "practice") };
    (StatusCode::NOT_FOUND, page).into_response()
}

/// The first dogs of the file, each with what becomes of it.
fn first(file: &[HouseholdEntry], additions: &Additions<'_>) -> (Vec<Shown>, bool) {
    let is_new_household =
        |household: &HouseholdEntry| additions.households.iter().any(|new| std::ptr::eq(*new, household));
    let mut shown = Vec::new();
    for household in file {
        if shown.len() > SHOWN {
            break;
        }
        let name = &household.name;
        if household.dogs.is_empty() {
            let state = if is_new_household(household) { "New household" } else { "Here already" };
            shown.push(Shown {
                household: name.clone(),
                dog: String::new(),
                breed: String::new(),
                weights: 0,
                state,
            });
        }
        for dog in household.dogs.iter().take(SHOWN + 1) {
            let new = additions.dogs.iter().find(|new| std::ptr::eq(new.entry, dog));
            let state = match new.map(|new| new.household) {
                Some(HouseholdOf::New(_)) => "New household and dog",
                Some(HouseholdOf::Here(_)) => "New dog",
                None => "Here already",
            };
            let breed = dog.breed.clone().unwrap_or_default();
            let (dog, weights) = (dog.name.clone(), dog.weights.len());
            shown.push(Shown { household: name.clone(), dog, breed, weights, state });
        }
    }
    let is_cut = shown.len() > SHOWN;
    shown.truncate(SHOWN);
    (shown, is_cut)
}

/// The preview of a file that waits; `None` where it cannot be read any more.
async fn preview(
    who: &mut SignedIn,
    batch: &ImportBatch,
    form: Form,
    moment: &Moment,
) -> Result<Option<PreviewPage>, WebError> {
    let Ok(file) = read(&batch.sheet, setting(moment)) else { return Ok(None) };
    let known = import::known(&mut who.tx).await?;
    let additions = compare(&file, &known);
    let (first, is_cut) = first(&file, &additions);
    Ok(Some(PreviewPage {
        page: Page::of(who, "Look before you import", "practice"),
        form,
        batch: batch.id,
        trainers: trainers(&mut who.tx).await?,
        households: additions.households.len(),
        dogs: additions.dogs.len(),
        weights: additions.weights.len(),
        already: additions.already,
        first,
        is_cut,
    }))
}

/// What the file would add, or what it added.
pub async fn show(
    State(app): State<App>,
    At(id): At<ImportBatchId>,
    LeadOnly(mut who): LeadOnly,
    Query(query): Query<HashMap<String, String>>,
) -> Answer {
    let moment = app.moment();
    let Some(batch) = import_batch::find(&mut who.tx, id, moment.at - WAITS).await? else {
        return Ok(gone(&who));
    };
    if batch.applied_at.is_some() {
        let page = Page::of(&who, "What was imported", "practice").with_notice(notice::of(&query));
        return Ok(DonePage { page, batch }.into_response());
    }
    let form = Form::blank().with("trainer", who.actor.membership.to_string());
    let page = preview(&mut who, &batch, form, &moment).await?;
    Ok(page.map_or_else(|| gone(&who), IntoResponse::into_response))
}

/// Adds it. Sent again, it adds nothing more.
pub async fn apply(
    State(app): State<App>,
    At(id): At<ImportBatchId>,
    LeadOnly(mut who): LeadOnly,
    form: Form,
) -> Answer {
    let moment = app.moment();
    let to = format!("/practice/import/{id}?notice=imported");
    let Some(batch) = import_batch::find(&mut who.tx, id, moment.at - WAITS).await? else {
        return Ok(gone(&who));
    };
    if batch.applied_at.is_some() {
        return Ok(Redirect::to(&to).into_response());
    }
    let Some(mut page) = preview(&mut who, &batch, form, &moment).await? else { return Ok(gone(&who)) };
    let trainer = page.form.id("trainer");
    let trainer = if page.dogs == 0 { Some(who.actor.membership) } else { trainer };
    if trainer.is_none() {
        page.form.refuse("trainer", "Choose who looks after the new dogs.");
    }
    let Some(trainer) = trainer.filter(|_| page.form.is_fine()) else { return Ok(page.again()) };
    let wanted = Wanted { batch: id, trainer, usual_zone: &who.practice.zone };
    let done = apply_import(who.tx, &who.actor, wanted, setting(&moment), &moment).await;
    page.settle(done, &to)
}
