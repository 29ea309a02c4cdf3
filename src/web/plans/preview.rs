//! The draft as the owner will see it.

use askama::Template;
use askama_web::WebTemplate;
use axum::response::IntoResponse;

use crate::store::dog::Dog;
use crate::store::{plan, plan_draft};
use crate::web::plans::card::Cards;
use crate::web::plans::changes::{self, Change, Reader};
use crate::web::plans::dog_of;
use crate::web::{Answer, At, Page, TrainerOnly};

#[derive(Template, WebTemplate)]
#[template(path = "plans/preview.html")]
struct PreviewPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    note: String,
    trainer: String,
    /// What differs from the plan that the owner has, where there is one.
    changes: Vec<Change>,
    cards: Cards,
}

/// The preview.
pub async fn preview(At(dog): At<String>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let items = plan_draft::items(&mut who.tx, dog.id).await?;
    let note = plan_draft::find(dog.id).read(&mut who.tx).await?.map(|draft| draft.note).unwrap_or_default();
    let changes = match plan::current(dog.id).read(&mut who.tx).await? {
        Some(version) => {
            let published = plan::items(version.id).read(&mut who.tx).await?;
            changes::between(&published, &items, Reader::Owner)
        }
        None => Vec::new(),
    };
    let page = PreviewPage {
        page: Page::of(&who, format!("{}: as the owner will see it", dog.name), "caseload"),
        tab: "plan",
        note,
        trainer: who.member.name.clone(),
        changes,
        cards: Cards::of(&items),
        dog,
    };
    Ok(page.into_response())
}
