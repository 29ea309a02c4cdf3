//! Views of the caseload that a trainer keeps under a name: what the address asked for, one press away.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use super::query_of;
use crate::actions::caseload_views::{keep_view, remove_view};
use crate::app::App;
use crate::ids::CaseloadViewId;
use crate::store::caseload_view::{self, CaseloadView};
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice};

/// The longest name of a view.
const LONGEST: usize = 60;
/// The longest query that a view keeps; what is longer asks for nothing that the caseload knows.
const LONGEST_QUERY: usize = 400;

#[derive(Template, WebTemplate)]
#[template(path = "caseload/views.html")]
struct ViewsPage {
    page: Page,
    form: Form,
    views: Vec<CaseloadView>,
    /// What the caseload showed that is to be kept.
    query: String,
}
form_pages!(ViewsPage);

async fn page(who: &mut SignedIn, query: String, form: Form) -> Result<ViewsPage, WebError> {
    Ok(ViewsPage {
        page: Page::of(who, "Your views", "caseload").with_errors(&form),
        views: caseload_view::of_member(&mut who.tx, who.member.id).await?,
        query,
        form,
    })
}

/// The views, and a form that keeps what the caseload showed.
pub async fn show(Query(query): Query<HashMap<String, String>>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let mut page = page(&mut who, query_of(&query), Form::blank()).await?;
    page.page.notice = notice::of(&query);
    Ok(page.into_response())
}

/// Keeps what was shown under a name; one of the same name gives way.
pub async fn keep(State(app): State<App>, TrainerOnly(mut who): TrainerOnly, mut form: Form) -> Answer {
    let name = form.required("name", LONGEST, "Give the view a name.");
    let asked: HashMap<String, String> =
        form_urlencoded::parse(form.value("query").as_bytes()).into_owned().collect();
    let query: String = query_of(&asked).chars().take(LONGEST_QUERY).collect();
    let page = page(&mut who, query.clone(), form).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = keep_view(who.tx, &who.actor, &name, &query, &app.moment()).await;
    let and = if query.is_empty() { "" } else { "&" };
    page.settle(done, &format!("/caseload?{query}{and}notice=view-kept"))
}

/// Takes a view away.
pub async fn remove(At(view): At<CaseloadViewId>, TrainerOnly(who): TrainerOnly) -> Answer {
    remove_view(who.tx, &who.actor, view).await?;
    Ok(Redirect::to("/caseload/views?notice=view-removed").into_response())
}
