//! The caseload: every dog in order of need, with the reason in words.

mod counts;
pub mod several;
pub mod team;
mod view;
pub mod views;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::{Duration, OffsetDateTime};

use crate::actions::authorise;
use crate::app::App;
use crate::domain::access::Action;
use crate::domain::caseload::Need;
use crate::domain::caseload::search::is_found;
use crate::domain::dates::counted;
use crate::domain::vocabulary::{Phase, Role, Word};
use crate::ids::MembershipId;
use crate::store::caseload::{self, Filter};
use crate::store::caseload_view::{self, CaseloadView};
use crate::store::sign_in::SignedIn;
use crate::store::{dog, house, membership};
use crate::web::flags::Duty;
use crate::web::{Answer, AnyMember, Page, WebError, notice, search, zones};

use counts::Count;
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
    /// How many there are of each need, to choose from.
    counts: Vec<Count>,
    show: &'static str,
    phase: String,
    phases: Vec<(&'static str, &'static str)>,
    search: String,
    full: bool,
    /// The need that was chosen, or empty.
    need: &'static str,
    /// The trainer whose dogs are shown, where one was chosen.
    trainer: String,
    is_lead: bool,
    /// Whether whoever reads is on duty.
    is_on_duty: bool,
    /// The query of this page, for the page on which several are chosen.
    query: String,
    /// The views that whoever reads keeps.
    views: Vec<CaseloadView>,
}

impl CaseloadPage {
    fn is_narrowed(&self) -> bool {
        !self.search.is_empty() || !self.phase.is_empty() || !self.need.is_empty() || !self.trainer.is_empty()
    }
}

/// Which dogs a query asks for.
pub(in crate::web) struct Wanted {
    /// Of which rows are read.
    pub filter: Filter,
    /// Of which only those that need this are shown.
    need: Option<Need>,
    /// "mine", "everyone" or "archived".
    show: &'static str,
    search: String,
    trainer: Option<MembershipId>,
}

/// Reads a query: one's own dogs, unless it says everyone's, names a trainer or searches. With one's own come those whose stop was
/// not answered in time, for whoever is on duty.
pub(in crate::web) async fn wanted(
    who: &mut SignedIn,
    query: &HashMap<String, String>,
    now: OffsetDateTime,
) -> Result<Wanted, WebError> {
    let text = |name: &str| query.get(name).map_or("", String::as_str);
    let search = search::text(query);
    let show = match text("show") {
        "everyone" => "everyone",
        "archived" => "archived",
        _ => "mine",
    };
    let trainer: Option<MembershipId> = text("trainer").parse().ok();
    let own = trainer.is_none() && show == "mine" && search.is_empty();
    let on_duty = match &who.practice.duty {
        Some(duty) => duty.id == who.member.id,
        None => who.member.role == Role::Lead,
    };
    let found = match search.as_str() {
        "" => None,
        typed => {
            let names = caseload::names(&mut who.tx).await?.into_iter();
            let fits = names.filter(|(_, texts)| is_found(typed, &texts.each_ref().map(String::as_str)));
            Some(fits.map(|(dog, _)| dog).collect())
        }
    };
    let filter = Filter {
        trainer: trainer.or(own.then_some(who.member.id)),
        due_by: (own && on_duty).then_some(now),
        phase: Phase::from_stored(text("phase")),
        archived: show == "archived",
        found,
        today: Some(now.date()),
    };
    let need = Need::ALL.into_iter().find(|need| need.key() == text("need"));
    Ok(Wanted { filter, need, show, search, trainer })
}

/// The query of an address, from what it asks for.
fn query_of(query: &HashMap<String, String>) -> String {
    const ASKED: [&str; 5] = ["show", "trainer", "phase", "need", "q"];
    let asked = ASKED.iter().filter_map(|name| query.get(*name).map(|value| (*name, value.as_str())));
    let asked = asked.filter(|(_, value)| !value.is_empty());
    form_urlencoded::Serializer::new(String::new()).extend_pairs(asked).finish()
}

/// The caseload.
pub async fn show(
    State(app): State<App>,
    Query(query): Query<HashMap<String, String>>,
    AnyMember(mut who): AnyMember,
) -> Answer {
    authorise(&who.actor, Action::SeeCaseload, None)?;
    let now = app.moment().at;
    let Wanted { filter, need, show, search, trainer } = wanted(&mut who, &query, now).await?;
    let rows = caseload::rows(&mut who.tx, &filter).await?;
    let since = zones::local_date(now, &who.practice.zone) - Duration::days(15);
    let marks = caseload::days(&mut who.tx, since).await?;
    let numbers = house::find().read(&mut who.tx).await?.numbers;
    let views = caseload_view::of_member(&mut who.tx, who.member.id).await?;
    let full = i64::try_from(rows.len()).unwrap_or(i64::MAX) >= caseload::MOST;
    let trainer = match trainer {
        Some(id) => {
            membership::find(id).read(&mut who.tx).await?.map_or("Nobody".to_owned(), |member| member.name)
        }
        None => String::new(),
    };
    let duty = Duty::of(&who.practice, now);
    let standing = view::standing(&rows, &numbers, now);
    let counts = counts::of(&standing, need, &query);
    let groups = view::groups(standing, need, &marks, &duty);
    let dogs = groups.iter().map(|group| group.rows.len()).sum();
    let narrowed = !search.is_empty() || filter.phase.is_some() || need.is_some() || !trainer.is_empty();
    let today = zones::local_date(now, &who.practice.zone);
    // whose answer it was, so that nobody takes one dog for another
    let after = match query.get("after").and_then(|id| id.parse().ok()) {
        Some(id) => dog::find(&mut who.tx, &who.actor, id).await?,
        None => None,
    };
    let notice = notice::of(&query).map(|said| match after {
        Some(dog) => format!("{} ({} household): {said}", dog.name, dog.household_name),
        None => said,
    });
    let is_on_duty = who.practice.duty.as_ref().is_some_and(|duty| duty.id == who.member.id);
    let page = CaseloadPage {
        heading: match narrowed {
            false => view::heading(&groups),
            true => format!("{} found", counted(i64::try_from(dogs).unwrap_or(0), "dog", "dogs")),
        },
        today: zones::long_day(today),
        dogs,
        replies: who.practice.replies.clone(),
        page: Page::of(&who, "Caseload", "caseload").with_notice(notice),
        is_on_duty,
        groups,
        counts,
        show,
        phase: filter.phase.map(|phase| phase.stored().to_owned()).unwrap_or_default(),
        phases: Phase::ALL.iter().map(|p| (p.stored(), p.label())).collect(),
        search,
        full,
        need: need.map(Need::key).unwrap_or_default(),
        trainer,
        is_lead: who.member.role == Role::Lead,
        query: query_of(&query),
        views,
    };
    Ok(page.into_response())
}
