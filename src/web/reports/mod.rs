//! Reports about a dog: the list, the form for a new one, the draft that is edited, what was issued, and the links to it.

pub mod edit;
pub mod link;
mod paragraphs;
pub mod show;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::IntoResponse;
use time::Date;

use crate::actions::draft_report::{ReportInput, draft_report};
use crate::app::App;
use crate::domain::vocabulary::{ReportKind, Word};
use crate::ids::{DogId, ReportId};
use crate::store::dog::{self, Dog};
use crate::store::report::{self, Report, ReportRow};
use crate::store::sign_in::SignedIn;
use crate::web::choices::{self, Choices};
use crate::web::dogs::past_day;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, dog_page, notice, zones};

/// Reports on one page.
const A_PAGE: i64 = 30;

/// A report in the list.
struct Row {
    id: ReportId,
    title: &'static str,
    /// Whom it is for, and the time it covers.
    about: String,
    /// "Draft", or who issued it and when.
    state: String,
    is_draft: bool,
    is_replaced: bool,
    links: i64,
}

impl Row {
    fn of(row: ReportRow, zone: &str, today: Date) -> Self {
        let mut about = vec![format!("{} to {}", zones::day(row.from, today), zones::day(row.to, today))];
        if !row.addressed_to.is_empty() {
            about.push(format!("for {}", row.addressed_to));
        }
        let state = match &row.issued {
            Some((by, on)) => format!("Issued {} by {by}", zones::day(*on, today)),
            None => {
                format!("Draft by {}, {}", row.by, zones::day(zones::local_date(row.begun_at, zone), today))
            }
        };
        Self {
            id: row.id,
            title: row.kind.label(),
            about: about.join(" · "),
            state,
            is_draft: row.issued.is_none(),
            is_replaced: row.is_replaced,
            links: row.links,
        }
    }
}

#[derive(Template, WebTemplate)]
#[template(path = "reports/list.html")]
struct ReportsPage {
    page: Page,
    form: Form,
    dog: Dog,
    tab: &'static str,
    about: String,
    kinds: Choices,
    rows: Vec<Row>,
    /// The report before which the list goes on.
    older: Option<ReportId>,
    /// Whether these are not the newest.
    is_older: bool,
}
form_pages!(ReportsPage);

/// The dog as a trainer may see it, and the day it is there.
async fn dog_of(app: &App, who: &mut SignedIn, dog: DogId) -> Result<(Dog, Date), WebError> {
    let dog = dog::find(&mut who.tx, &who.actor, dog).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    Ok((dog, today))
}

/// A report of the dog.
async fn report_of(who: &mut SignedIn, dog: DogId, id: ReportId) -> Result<Report, WebError> {
    report::find(&mut who.tx, dog, id).await?.ok_or(WebError::NotFound)
}

async fn reports_page(
    app: &App,
    who: &mut SignedIn,
    (dog, today): (Dog, Date),
    before: Option<ReportId>,
    form: Form,
) -> Result<ReportsPage, WebError> {
    let mut rows = report::of_dog(&mut who.tx, dog.id, before, app.moment().at, A_PAGE + 1).await?;
    let most = usize::try_from(A_PAGE).unwrap_or(usize::MAX);
    let goes_on = rows.len() > most;
    rows.truncate(most);
    Ok(ReportsPage {
        page: Page::of(who, format!("{}: reports", dog.name), "caseload").with_errors(&form),
        form,
        tab: "reports",
        about: dog_page::about(&dog, today),
        kinds: choices::words::<ReportKind>(),
        older: rows.last().map(|row| row.id).filter(|_| goes_on),
        rows: rows.into_iter().map(|row| Row::of(row, &dog.zone, today)).collect(),
        is_older: before.is_some(),
        dog,
    })
}

/// A dog's reports, newest first, and the form for one more; `?before=` names the one before which the list goes on.
pub async fn list(
    State(app): State<App>,
    At(dog): At<DogId>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let (dog, today) = dog_of(&app, &mut who, dog).await?;
    let before = match query.get("before") {
        Some(text) => {
            let id: ReportId = text.parse().map_err(|_| WebError::NotFound)?;
            Some(report_of(&mut who, dog.id, id).await?.id)
        }
        None => None,
    };
    let id: ReportId = app.moment().id();
    let form = Form::blank().with("id", id.to_string()).with("to", today.to_string());
    let mut page = reports_page(&app, &mut who, (dog, today), before, form).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Begins a draft, and leads to it.
pub async fn draft(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (dog, today) = dog_of(&app, &mut who, dog).await?;
    let moment = app.moment();
    let kind = form.word::<ReportKind>("kind");
    if kind.is_none() {
        form.refuse("kind", "Choose what the report is for.");
    }
    let from = past_day(&mut form, "from", today);
    let to = past_day(&mut form, "to", today).unwrap_or(today);
    if from.is_some_and(|from| from > to) {
        form.refuse("from", "From: this is after the last day. Choose an earlier one.");
    }
    let input = ReportInput {
        id: form.id("id").unwrap_or_else(|| moment.id()),
        kind: kind.unwrap_or(ReportKind::Progress),
        from,
        to,
        addressed_to: form.text("addressed_to", 200),
        with_notes: form.tick("with_notes"),
    };
    let (to, id) = (format!("/dogs/{}/reports/{}/edit", dog.id, input.id), dog.id);
    let page = reports_page(&app, &mut who, (dog, today), None, form).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = draft_report(who.tx, &who.actor, id, &input, today, &moment).await;
    page.settle(done, &to)
}
