//! The plan as an owner reads it, on a phone or on paper.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::app::App;
use crate::domain::vocabulary::ItemKind;
use crate::ids::PlanVersionId;
use crate::store::dog::{self, Dog};
use crate::store::plan::PlanItem;
use crate::store::reading::Together;
use crate::store::{flag, plan};
use crate::web::plans::card::Cards;
use crate::web::plans::changes::{self, Change, Reader};
use crate::web::today::day::{is_at_rest, is_away};
use crate::web::{Answer, OwnerOnly, Page, WebError, notice, own_dog, zones};

/// A published plan in owners' words.
struct Reading {
    version: PlanVersionId,
    when: String,
    trainer: String,
    note: String,
    /// What differs from the plan before, where there was one.
    changes: Vec<Change>,
    cards: Cards,
    /// What rests for now, by name.
    rests: Vec<String>,
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
    let dogs = dog::of_owner(who.actor.membership).read(&mut who.tx).await?;
    let dog = match query.get("dog") {
        Some(wanted) => {
            Some(dogs.iter().find(|dog| dog.id.to_string() == *wanted).ok_or(WebError::NotFound)?)
        }
        None => dogs.first(),
    };
    let mut reading = None;
    let mut versions = match dog {
        Some(dog) => plan::versions(dog.id).read(&mut who.tx).await?.into_iter(),
        None => Vec::new().into_iter(),
    };
    if let Some(dog) = dog
        && let Some(version) = versions.next()
    {
        let items = plan::items(version.id).read(&mut who.tx).await?;
        let changes = match versions.next() {
            Some(before) => {
                let before = plan::items(before.id).read(&mut who.tx).await?;
                changes::between(&before, &items, Reader::Owner)
            }
            None => Vec::new(),
        };
        let today = zones::local_date(app.moment().at, &dog.zone);
        let (resting, away) = (flag::of_dog(dog.id, flag::Wanted::Resting), is_away(dog.id, today))
            .together()
            .read(&mut who.tx)
            .await?;
        let rests = |item: &PlanItem| {
            item.kind != ItemKind::StandingArrangement && (away || is_at_rest(&resting, dog, item))
        };
        reading = Some(Reading {
            when: zones::day(zones::local_date(version.published_at, &dog.zone), today),
            version: version.id,
            trainer: version.by,
            note: version.note,
            changes,
            rests: items.iter().filter(|item| rests(item)).map(|item| item.name.clone()).collect(),
            cards: Cards::of(&items),
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
