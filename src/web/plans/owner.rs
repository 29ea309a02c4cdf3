//! The plan as an owner reads it, on a phone or on paper.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::app::App;
use crate::store::dog::{self, Dog};
use crate::store::plan;
use crate::web::plans::card::Cards;
use crate::web::{Answer, OwnerOnly, Page, WebError, notice, own_dog, zones};

/// A published plan in owners' words.
struct Reading {
    when: String,
    trainer: String,
    note: String,
    cards: Cards,
}

#[derive(Template, WebTemplate)]
#[template(path = "plans/owner.html")]
struct OwnerPage {
    page: Page,
    dog: Option<Dog>,
    dogs: Vec<Dog>,
    reading: Option<Reading>,
}

/// The plan of one of the owner's dogs: the one in `?dog=`, or the first by name.
pub async fn plan(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    OwnerOnly(mut who): OwnerOnly,
) -> Answer {
    let dogs = dog::of_owner(&mut who.tx, who.actor.membership).await?;
    let dog = match query.get("dog") {
        Some(wanted) => {
            Some(dogs.iter().find(|dog| dog.id.to_string() == *wanted).ok_or(WebError::NotFound)?)
        }
        None => dogs.first(),
    };
    let mut reading = None;
    if let Some(dog) = dog
        && let Some(version) = plan::current(&mut who.tx, dog.id).await?
    {
        let today = zones::local_date(app.moment().at, &dog.zone);
        reading = Some(Reading {
            when: zones::day(zones::local_date(version.published_at, &dog.zone), today),
            trainer: version.by,
            note: version.note,
            cards: Cards::of(&plan::items(&mut who.tx, version.id).await?),
        });
    }
    let title = dog.map_or_else(|| "Plan".to_owned(), |dog| format!("{}: plan", dog.name));
    let page = OwnerPage {
        page: own_dog::page(&mut who, title, "plan").await?.with_notice(notice::of(&query)),
        dog: dog.cloned(),
        dogs,
        reading,
    };
    Ok(page.into_response())
}
