//! Who carries what, and what is overdue: a row a trainer, for the lead.

use std::collections::BTreeMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use super::view::{self, Stands};
use crate::app::App;
use crate::domain::caseload::Need;
use crate::ids::MembershipId;
use crate::store::caseload::{self, Filter};
use crate::store::{house, membership};
use crate::web::{Answer, LeadOnly, Page, zones};

/// What the table has a column for, beside the dogs and the overdue stops.
const COLUMNS: [Need; 9] = [
    Need::NewStop,
    Need::QuietAfterTrouble,
    Need::NotCoping,
    Need::Incident,
    Need::Question,
    Need::Decision,
    Need::Caution,
    Need::GoneQuiet,
    Need::ReviewDue,
];

/// One trainer's dogs.
struct Load {
    trainer: MembershipId,
    name: String,
    dogs: usize,
    /// Dogs whose stop was not answered in time.
    overdue: usize,
    /// Dogs of each column: the need's key and how many.
    needs: Vec<(&'static str, usize)>,
    /// Since when the oldest question waits; empty where none does.
    oldest: String,
}

#[derive(Template, WebTemplate)]
#[template(path = "caseload/team.html")]
struct TeamPage {
    page: Page,
    columns: Vec<&'static str>,
    loads: Vec<Load>,
    on_duty: String,
    full: bool,
}

/// The table.
pub async fn show(State(app): State<App>, LeadOnly(mut who): LeadOnly) -> Answer {
    let now = app.moment().at;
    let rows = caseload::rows(&mut who.tx, &Filter { today: Some(now.date()), ..Filter::default() }).await?;
    let numbers = house::find().read(&mut who.tx).await?.numbers;
    let team = membership::team(&mut who.tx).await?;
    let full = i64::try_from(rows.len()).unwrap_or(i64::MAX) >= caseload::MOST;
    let standing = view::standing(&rows, &numbers, now);
    let mut of: BTreeMap<MembershipId, Vec<&Stands<'_>>> = BTreeMap::new();
    for stands in &standing {
        of.entry(stands.row.trainer_id).or_default().push(stands);
    }
    let today = zones::local_date(now, &who.practice.zone);
    let loads = team.into_iter().map(|member| {
        let dogs = of.remove(&member.id).unwrap_or_default();
        let late = |stands: &&&Stands<'_>| stands.row.answer_due.is_some_and(|due| due <= now);
        let oldest = dogs.iter().filter_map(|stands| stands.state.waiting_since).min();
        Load {
            trainer: member.id,
            name: member.name,
            overdue: dogs.iter().filter(late).count(),
            needs: COLUMNS
                .iter()
                .map(|need| (need.key(), dogs.iter().filter(|s| s.standing.need == *need).count()))
                .collect(),
            oldest: oldest
                .map(|at| zones::day(zones::local_date(at, &who.practice.zone), today))
                .unwrap_or_default(),
            dogs: dogs.len(),
        }
    });
    let page = TeamPage {
        loads: loads.collect(),
        columns: COLUMNS.iter().map(|need| need.label()).collect(),
        on_duty: who.practice.duty.as_ref().map(|duty| duty.name.clone()).unwrap_or_default(),
        full,
        page: Page::of(&who, "Who carries what", "caseload"),
    };
    Ok(page.into_response())
}
