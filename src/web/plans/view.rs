//! The published plan as a trainer sees it, and its older versions.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;

use crate::app::App;
use crate::ids::PlanVersionId;
use crate::store::dog::Dog;
use crate::store::plan::PlanVersion;
use crate::store::{plan, plan_draft, plan_version};
use crate::web::plans::card::Cards;
use crate::web::plans::{changes, checks, dog_of, id, share};
use crate::web::{Answer, At, Page, TrainerOnly, WebError, notice, zones};

/// A version in the list of all.
struct VersionRow {
    id: PlanVersionId,
    number: i32,
    when: String,
    by: String,
    is_current: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "plans/current.html")]
struct CurrentPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    version: Option<VersionRow>,
    note: String,
    cards: Cards,
    load: checks::Load,
    versions: Vec<VersionRow>,
    drafted: usize,
    changes: Vec<changes::Change>,
    despite_stop: String,
    share: String,
    address: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "plans/version.html")]
struct VersionPage {
    page: Page,
    dog: Dog,
    tab: &'static str,
    version: VersionRow,
    note: String,
    cards: Cards,
    despite_stop: String,
    /// The other versions, to compare with.
    others: Vec<VersionRow>,
    /// What this version changes against the one that it is compared with.
    compared: Option<(i32, Vec<changes::Change>)>,
}

fn row(version: &PlanVersion, current: Option<PlanVersionId>, zone: &str, app: &App) -> VersionRow {
    let today = zones::local_date(app.moment().at, zone);
    VersionRow {
        id: version.id,
        number: version.number,
        when: zones::day_and_time(version.published_at, zone, today),
        by: version.by.clone(),
        is_current: current == Some(version.id),
    }
}

/// The current plan.
pub async fn current(
    State(app): State<App>,
    At(dog): At<String>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let zone = who.practice.zone.clone();
    let versions = plan::versions(dog.id).read(&mut who.tx).await?;
    let newest = versions.first();
    let items = match newest {
        Some(version) => plan::items(version.id).read(&mut who.tx).await?,
        None => Vec::new(),
    };
    let draft = plan_draft::items(&mut who.tx, dog.id).await?;
    let has_draft = plan_draft::find(dog.id).read(&mut who.tx).await?.is_some();
    let cards = Cards::of(&items);
    let version = newest.map(|v| row(v, Some(v.id), &zone, &app));
    let from = version.as_ref().map(|v| format!("From {}, {}", v.by, v.when)).unwrap_or_default();
    let note = newest.map(|v| v.note.clone()).unwrap_or_default();
    let page = CurrentPage {
        despite_stop: newest.map(|v| v.despite_stop.clone()).unwrap_or_default(),
        page: Page::of(&who, format!("{}: plan", dog.name), "caseload").with_notice(notice::of(&query)),
        tab: "plan",
        share: share::text(&dog.name, &from, &note, &cards),
        address: format!("{}/plan?dog={}", app.base_url, dog.id),
        version,
        note,
        cards,
        load: checks::Load::of(&items),
        versions: versions.iter().map(|v| row(v, newest.map(|n| n.id), &zone, &app)).collect(),
        drafted: draft.len(),
        changes: match has_draft {
            true => changes::between(&items, &draft, changes::Reader::Trainer),
            false => Vec::new(),
        },
        dog,
    };
    Ok(page.into_response())
}

/// A version as it was published.
pub async fn version(
    State(app): State<App>,
    At((dog, version)): At<(String, String)>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let found = plan_version::find(&mut who.tx, dog.id, id(&version)?).await?.ok_or(WebError::NotFound)?;
    let current = plan::current(dog.id).read(&mut who.tx).await?.map(|v| v.id);
    let items = plan::items(found.id).read(&mut who.tx).await?;
    let compared = match query.get("against").filter(|against| !against.is_empty()) {
        Some(against) => {
            let other =
                plan_version::find(&mut who.tx, dog.id, id(against)?).await?.ok_or(WebError::NotFound)?;
            let before = plan::items(other.id).read(&mut who.tx).await?;
            Some((other.number, changes::between(&before, &items, changes::Reader::Trainer)))
        }
        None => None,
    };
    let versions = plan::versions(dog.id).read(&mut who.tx).await?;
    let others = versions.iter().filter(|v| v.id != found.id);
    let page = VersionPage {
        others: others.map(|v| row(v, current, &who.practice.zone, &app)).collect(),
        compared,
        despite_stop: found.despite_stop.clone(),
        page: Page::of(&who, format!("{}: plan {}", dog.name, found.number), "caseload"),
        tab: "plan",
        version: row(&found, current, &who.practice.zone, &app),
        note: found.note,
        cards: Cards::of(&items),
        dog,
    };
    Ok(page.into_response())
}
