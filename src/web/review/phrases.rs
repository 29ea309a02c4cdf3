//! Phrases of one's own, for answers.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use crate::actions::review::{keep_phrase, remove_phrase};
use crate::app::App;
use crate::ids::PhraseId;
use crate::store::phrase::{self, Phrase};
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice};

/// The longest phrase.
const LONGEST: usize = 500;

#[derive(Template, WebTemplate)]
#[template(path = "review/phrases.html")]
struct PhrasesPage {
    page: Page,
    form: Form,
    phrases: Vec<Phrase>,
}
form_pages!(PhrasesPage);

async fn page(who: &mut SignedIn, form: Form) -> Result<PhrasesPage, WebError> {
    Ok(PhrasesPage {
        page: Page::of(who, "Your phrases", "caseload").with_errors(&form),
        phrases: phrase::of_member(&mut who.tx, who.member.id).await?,
        form,
    })
}

/// The phrases.
pub async fn show(Query(query): Query<HashMap<String, String>>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let mut page = page(&mut who, Form::blank()).await?;
    page.page.notice = notice::of(&query);
    Ok(page.into_response())
}

/// Keeps one.
pub async fn keep(State(app): State<App>, TrainerOnly(mut who): TrainerOnly, mut form: Form) -> Answer {
    let body = form.required("body", LONGEST, "Write the phrase first.");
    let page = page(&mut who, form).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = keep_phrase(who.tx, &who.actor, &body, &app.moment()).await;
    page.settle(done, "/review/phrases?notice=saved")
}

/// Takes one away.
pub async fn remove(At(id): At<PhraseId>, TrainerOnly(who): TrainerOnly) -> Answer {
    remove_phrase(who.tx, &who.actor, id).await?;
    Ok(Redirect::to("/review/phrases?notice=phrase-removed").into_response())
}
