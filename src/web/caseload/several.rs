//! Several dogs at once: handed to a trainer, put away, taken out again.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::OffsetDateTime;

use crate::actions::change_dogs::{Change, change_dogs};
use crate::app::App;
use crate::domain::vocabulary::Word;
use crate::ids::{DogId, MembershipId};
use crate::store::caseload::{self, CaseloadRow};
use crate::store::sign_in::SignedIn;
use crate::web::caseload::wanted;
use crate::web::choices::Choices;
use crate::web::dogs::trainers;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, Form, Page, TrainerOnly, WebError};

#[derive(Template, WebTemplate)]
#[template(path = "caseload/several.html")]
struct SeveralPage {
    page: Page,
    form: Form,
    rows: Vec<CaseloadRow>,
    archived: bool,
    trainers: Choices,
    query: String,
}
form_pages!(SeveralPage);

async fn page(
    who: &mut SignedIn,
    query: &HashMap<String, String>,
    form: Form,
    now: OffsetDateTime,
) -> Result<SeveralPage, WebError> {
    let filter = wanted(who, query, now).await?.filter;
    let mut rows = caseload::rows(&mut who.tx, &filter).await?;
    rows.sort_by_cached_key(|row| (row.household.to_lowercase(), row.name.to_lowercase(), row.dog));
    Ok(SeveralPage {
        page: Page::of(who, "Several dogs at once", "caseload").with_errors(&form),
        form,
        rows,
        archived: filter.archived,
        trainers: trainers(&mut who.tx).await?,
        query: form_urlencoded::Serializer::new(String::new()).extend_pairs(query).finish(),
    })
}

/// The dogs to choose from: those that the caseload showed.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    Ok(page(&mut who, &query, Form::blank(), app.moment().at).await?.into_response())
}

/// Changes those that were ticked.
pub async fn change(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dogs: Vec<DogId> = form.ids("dogs");
    let trainer: Option<MembershipId> = form.id("trainer");
    let note = form.text("note", 1000);
    let change = match (form.text("change", 20).as_str(), trainer) {
        ("trainer", Some(trainer)) => Some(Change::Trainer(trainer)),
        ("trainer", None) => {
            form.refuse("trainer", "Choose who looks after them from now on.");
            None
        }
        ("archive", _) => Some(Change::Archive),
        ("restore", _) => Some(Change::Restore),
        _ => {
            form.refuse("change", "Choose what becomes of them.");
            None
        }
    };
    if dogs.is_empty() {
        form.refuse("dogs", "Tick the dogs first.");
    }
    let Some(change) = change.filter(|_| form.is_fine()) else {
        let mut list = page(&mut who, &query, form, app.moment().at).await?;
        if list.rows.is_empty() {
            // whoever sends a form back has chosen from some list
            let everyone = HashMap::from([("show".to_owned(), "everyone".to_owned())]);
            list = page(&mut who, &everyone, list.form, app.moment().at).await?;
        }
        return Ok(list.again());
    };
    let page = page(&mut who, &query, form, app.moment().at).await?;
    let done = change_dogs(who.tx, &who.actor, &dogs, change, &note, &app.moment()).await;
    page.settle(done, "/caseload?show=everyone&notice=dogs-changed")
}
