//! Two acts that lose what was typed ask first: taking a line out, and going back to the published plan.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::{IntoResponse, Redirect};

use crate::actions::remove_draft_item::remove_draft_item;
use crate::actions::restart_draft::restart_draft;
use crate::app::App;
use crate::ids::{DogId, LineId};
use crate::store::dog::Dog;
use crate::store::{plan, plan_draft};
use crate::web::plans::{dog_of, id};
use crate::web::{Answer, At, Page, TrainerOnly, WebError};

#[derive(Template, WebTemplate)]
#[template(path = "plans/confirm.html")]
struct ConfirmPage {
    page: Page,
    dog: Dog,
    heading: String,
    lost: &'static str,
    kept: &'static str,
    action: String,
    button: &'static str,
}

/// Asks before a line is taken out.
pub async fn remove_page(At((dog, line)): At<(String, String)>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let line: LineId = id(&line)?;
    let items = plan_draft::items(&mut who.tx, dog.id).await?;
    let item = items.into_iter().find(|item| item.line_id == line).ok_or(WebError::NotFound)?;
    let heading = format!("Take “{}” out of the draft?", item.name);
    let page = ConfirmPage {
        page: Page::of(&who, heading.clone(), "caseload"),
        heading,
        lost: "What you chose for it here is lost. Added again later, it starts a fresh count.",
        kept: "The published plan stays as it is until you publish again, and everything logged is kept.",
        action: format!("/dogs/{}/plan/items/{line}/remove", dog.id),
        button: "Take it out",
        dog,
    };
    Ok(page.into_response())
}

/// Takes a line out.
pub async fn remove(
    State(app): State<App>,
    At((dog, line)): At<(String, String)>,
    TrainerOnly(who): TrainerOnly,
) -> Answer {
    let dog: DogId = id(&dog)?;
    remove_draft_item(who.tx, &who.actor, dog, id(&line)?, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/plan/edit?notice=plan-item-removed")).into_response())
}

/// Asks before the draft starts again.
pub async fn restart_page(At(dog): At<String>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    plan::current(dog.id).read(&mut who.tx).await?.ok_or(WebError::NotFound)?;
    let heading = "Start the draft again from the published plan?".to_owned();
    let page = ConfirmPage {
        page: Page::of(&who, heading.clone(), "caseload"),
        heading,
        lost: "Every change that you made in the draft since the last publication is lost.",
        kept: "The published plan stays as it is.",
        action: format!("/dogs/{}/plan/restart", dog.id),
        button: "Start again",
        dog,
    };
    Ok(page.into_response())
}

/// Starts the draft again.
pub async fn restart(State(app): State<App>, At(dog): At<String>, TrainerOnly(who): TrainerOnly) -> Answer {
    let dog: DogId = id(&dog)?;
    restart_draft(who.tx, &who.actor, dog, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/plan/edit?notice=plan-restarted")).into_response())
}
