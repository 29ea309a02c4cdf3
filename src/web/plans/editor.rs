//! The editor: the draft's items in order, what the rules say of them, and what they ask of a week.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};

use crate::actions::move_draft_item::move_draft_item;
use crate::app::App;
use crate::domain::plan_order::Way;
use crate::store::dog::Dog;
use crate::store::exercise::{self, Wanted};
use crate::store::plan_draft;
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
    id: String,
}

/// The editor.
pub async fn edit(
    State(app): State<App>,
    At(dog): At<String>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let moment = app.moment();
    let draft = plan_draft::find(&mut who.tx, dog.id).await?;
    let (panel, items) = Panel::of(&mut who.tx, &dog, &moment).await?;
    let zone = &who.practice.zone;
    let today = zones::local_date(moment.at, zone);
    let changed = draft
        .map(|d| format!("Last changed by {}, {}.", d.by, zones::day_and_time(d.updated_at, zone, today)))
        .unwrap_or_default();
    let library = exercise::list(&mut who.tx, &Wanted::default()).await?;
    let page = EditPage {
        others: others::lately(&mut who, dog.id, &moment).await?,
        page: Page::of(&who, format!("{}: edit the draft", dog.name), "caseload")
            .with_notice(notice::of(&query)),
        tab: "plan",
        cards: Cards::of(&items),
        panel,
        changed,
        names: library.into_iter().map(|exercise| exercise.name).collect(),
        id: add::page_id(&moment),
        dog,
    };
    Ok(page.into_response())
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
