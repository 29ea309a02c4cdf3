//! The editor: the draft's items in order, what the rules say of them, and what they ask of a week.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};
use uuid::Uuid;

use crate::actions::Refusal;
use crate::actions::add_draft_item::add_draft_item;
use crate::actions::move_draft_item::move_draft_item;
use crate::app::App;
use crate::domain::plan_order::Way;
use crate::store::dog::Dog;
use crate::store::exercise::{self, Wanted};
use crate::store::plan_draft;
use crate::store::sign_in::SignedIn;
use crate::web::plans::card::Cards;
use crate::web::plans::panel::Panel;
use crate::web::plans::{add, dog_of, id, others};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

#[derive(Template, WebTemplate)]
#[template(path = "plans/edit.html")]
struct EditPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    cards: Cards,
    panel: Panel,
    changed: String,
    others: String,
    /// The names of the library, to add by typing.
    names: Vec<String>,
    form: Form,
    id: String,
}

async fn page(app: &App, who: &mut SignedIn, dog: Dog, form: Form) -> Result<EditPage, WebError> {
    let moment = app.moment();
    let draft = plan_draft::find(dog.id).read(&mut who.tx).await?;
    let (panel, items) = Panel::of(&mut who.tx, &dog, &moment).await?;
    let today = zones::local_date(moment.at, &who.practice.zone);
    let others = others::lately(draft.as_ref(), who.actor.membership, &moment);
    let changed = draft
        .map(|d| {
            let when = zones::day_and_time(d.updated_at, &who.practice.zone, today);
            format!("Last changed by {}, {when}.", d.by)
        })
        .unwrap_or_default();
    let library = exercise::list(&mut who.tx, &Wanted::default()).await?;
    Ok(EditPage {
        others,
        page: Page::of(who, format!("{}: edit the draft", dog.name), "caseload").with_errors(&form),
        tab: "plan",
        cards: Cards::of(&items),
        panel,
        changed,
        names: library.into_iter().map(|exercise| exercise.name).collect(),
        id: form.value("id").parse::<Uuid>().map_or_else(|_| add::page_id(&moment), |id| id.to_string()),
        form,
        dog,
    })
}

/// The editor.
pub async fn edit(
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

/// Adds what was typed by its name, and stays in the draft; what the library does not have leads to a search for it.
pub async fn add_named(
    State(app): State<App>,
    At(dog): At<String>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let (name, page_id) = (form.text("name", add::LONGEST_SEARCH), form.id::<Uuid>("id"));
    if !form.is_fine() {
        let status = form.status();
        return Ok((status, page(&app, &mut who, dog, form).await?).into_response());
    }
    let Some(exercise) = exercise::named(&mut who.tx, &name).await? else {
        let search: String = form_urlencoded::byte_serialize(name.as_bytes()).collect();
        return Ok(Redirect::to(&format!("/dogs/{}/plan/add?q={search}", dog.id)).into_response());
    };
    let moment = app.moment();
    let line = add::line_of(page_id.unwrap_or_else(|| moment.id()), dog.id, exercise);
    let to = match add_draft_item(who.tx, &who.actor, dog.id, exercise, line, &moment).await {
        Ok(line) => format!("/dogs/{}/plan/edit?notice=plan-added-here#item-{line}", dog.id),
        Err(Refusal::Field { .. }) => format!("/dogs/{}/plan/edit?notice=plan-full", dog.id),
        Err(other) => return Err(other.into()),
    };
    Ok(Redirect::to(&to).into_response())
}

/// Moves a line up or down.
pub async fn move_item(
    State(app): State<App>,
    At((dog, line)): At<(String, String)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (dog, line_id) = (dog_of(&mut who, &dog).await?.id, id(&line)?);
    if !plan_draft::order(&mut who.tx, dog).await?.iter().any(|(known, _)| *known == line_id) {
        return Err(WebError::NotFound);
    }
    let way = match form.text("way", 4).as_str() {
        _ if !form.is_fine() => return Err(WebError::Status(axum::http::StatusCode::UNPROCESSABLE_ENTITY)),
        "up" => Way::Up,
        "down" => Way::Down,
        _ => return Err(WebError::Status(axum::http::StatusCode::BAD_REQUEST)),
    };
    move_draft_item(who.tx, &who.actor, dog, line_id, way, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/plan/edit#item-{line_id}")).into_response())
}
