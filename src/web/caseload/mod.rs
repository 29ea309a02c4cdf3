//! The caseload: every dog in order of need, with the reason in words.

pub mod several;
mod view;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Duration;

use crate::actions::authorise;
use crate::app::App;
use crate::domain::access::Action;
use crate::domain::dates::counted;
use crate::domain::vocabulary::{Phase, Word};
use crate::ids::MembershipId;
use crate::store::caseload::{self, Filter};
use crate::store::house;
use crate::web::{Answer, AnyMember, Page, notice, search, zones};

use view::Group;
pub use view::strip;

#[derive(Template, WebTemplate)]
#[template(path = "caseload/show.html")]
struct CaseloadPage {
    page: Page,
    heading: String,
    today: String,
    dogs: usize,
    replies: String,
    groups: Vec<Group>,
    everyone: bool,
    phase: String,
    phases: Vec<(&'static str, &'static str)>,
    search: String,
    full: bool,
    archived: bool,
    /// The query of this page, for the page on which several are chosen.
    query: String,
}

/// Which dogs a query asks for: one's own, unless it says everyone's or searches.
fn wanted(query: &HashMap<String, String>, me: MembershipId) -> Filter {
    let text = |name: &str| query.get(name).map_or("", String::as_str);
    let search = search::text(query);
    let everyone = matches!(text("show"), "everyone" | "archived");
    Filter {
        trainer: (!everyone && search.is_empty()).then_some(me),
        phase: Phase::from_stored(text("phase")),
        archived: text("show") == "archived",
        search,
        today: None,
    }
}

/// The caseload.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    authorise(&who.actor, Action::SeeCaseload, None)?;
    let text = |name: &str| query.get(name).cloned().unwrap_or_default();
    let (everyone, search, phase) = (text("show") == "everyone", search::text(&query), text("phase"));
    let now = app.moment().at;
    let filter = Filter { today: Some(now.date()), ..wanted(&query, who.member.id) };
    let archived = filter.archived;
    let rows = caseload::rows(&mut who.tx, &filter).await?;
    let since = zones::local_date(now, &who.practice.zone) - Duration::days(15);
    let marks = caseload::days(&mut who.tx, since).await?;
    let numbers = house::find(&mut who.tx).await?.numbers;
    let full = i64::try_from(rows.len()).unwrap_or(i64::MAX) >= caseload::MOST;
    let dogs = rows.len();
    let groups = view::groups(&rows, &marks, &numbers, now);
    let today = zones::local_date(now, &who.practice.zone);
    let page = CaseloadPage {
        heading: if search.is_empty() && filter.phase.is_none() {
            view::heading(&groups)
        } else {
            format!("{} found", counted(i64::try_from(dogs).unwrap_or(0), "dog", "dogs"))
        },
        today: zones::long_day(today),
        dogs,
        replies: who.practice.replies.clone(),
        page: Page::of(&who, "Caseload", "caseload").with_notice(notice::of(&query)),
        groups,
        everyone,
        phase,
        phases: Phase::ALL.iter().map(|p| (p.stored(), p.label())).collect(),
        search,
        full,
        archived,
        query: form_urlencoded::Serializer::new(String::new()).extend_pairs(&query).finish(),
    };
    Ok(page.into_response())
}
