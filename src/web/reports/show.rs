//! A report as it is read: the draft, to be issued; what was issued, to be printed, shared, and put right by another one.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::response::{IntoResponse, Redirect};
use time::{Date, OffsetDateTime};

use super::paragraphs::{Block, blocks};
use super::{dog_of, report_of};
use crate::actions::issue_report::{as_read, correct_report, issue_report};
use crate::actions::revoke_report_link::revoke_report_link;
use crate::actions::share_report::{DAYS, NewShare, share_report};
use crate::actions::{Done, Refusal};
use crate::app::App;
use crate::domain::dates::counted;
use crate::domain::report::Document;
use crate::ids::{DogId, ReportId, ReportLinkId};
use crate::store::dog::Dog;
use crate::store::report::{self, Report};
use crate::store::report_link::{self, ReportLink};
use crate::store::sign_in::SignedIn;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::reports::edit::asks_for_consent;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError, notice, zones};

/// Links that a page shows.
const MOST_LINKS: i64 = 100;

/// A report as templates read it.
pub(super) struct Sheet {
    /// Every word of it.
    pub document: Document,
    /// Headings and texts, in paragraphs and lists.
    pub sections: Vec<(String, Vec<Block>)>,
    /// Whether it is a draft still.
    pub is_draft: bool,
}

impl Sheet {
    /// A report to be read.
    pub fn of(document: Document, is_draft: bool) -> Self {
        let sections =
            document.sections.iter().map(|(heading, text)| (heading.clone(), blocks(text))).collect();
        Self { document, sections, is_draft }
    }
}

/// A link as trainers see it.
struct LinkView {
    id: ReportLinkId,
    for_whom: String,
    /// Until when it works, or since when it does not.
    state: String,
    works: bool,
    /// "Opened 3 times, last Thu 12 Mar, 18:04".
    opened: String,
    by: String,
}

impl LinkView {
    fn of(link: ReportLink, now: OffsetDateTime, zone: &str, today: Date) -> Self {
        let (works, state) = match link.revoked_at {
            Some(at) => (false, format!("Revoked {}", zones::day_and_time(at, zone, today))),
            None if link.expires_at <= now => {
                (false, format!("Ran out {}", zones::day_and_time(link.expires_at, zone, today)))
            }
            None => (true, format!("Works until {}", zones::day_and_time(link.expires_at, zone, today))),
        };
        let opened = match link.opened_at {
            Some(at) => format!(
                "Opened {}, last {}",
                counted(link.opened, "time", "times"),
                zones::day_and_time(at, zone, today)
            ),
            None => "Not opened yet".to_owned(),
        };
        Self { id: link.id, for_whom: link.for_whom, state, works, opened, by: link.by }
    }
}

/// What it is printed on: where the same page is on it, its words, whether it is chosen.
struct Paper {
    address: String,
    words: &'static str,
    chosen: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "reports/show.html")]
struct ShowPage {
    page: Page,
    form: Form,
    dog: Dog,
    report: Report,
    sheet: Sheet,
    papers: Vec<Paper>,
    is_letter: bool,
    links: Vec<LinkView>,
    days: Vec<(String, String)>,
    /// The one that takes its place.
    replaced_by: Option<ReportId>,
    /// The id of a draft that may be begun here.
    fresh: ReportId,
    /// Whether it goes to a vet, and the household has not agreed that it may.
    asks_for_consent: bool,
}
form_pages!(ShowPage);

#[derive(Template, WebTemplate)]
#[template(path = "reports/made.html")]
struct MadePage {
    page: Page,
    dog: Dog,
    report: ReportId,
    for_whom: String,
    link: String,
    message: String,
    until: String,
}

async fn show_page(
    app: &App,
    who: &mut SignedIn,
    (dog, today): (Dog, Date),
    report: Report,
    is_letter: bool,
    form: Option<Form>,
) -> Result<ShowPage, WebError> {
    let moment = app.moment();
    let issued = report::issued(&mut who.tx, report.id).await?;
    let replaced_by = issued.as_ref().and_then(|issued| issued.replaced_by);
    let sheet = match issued {
        Some(issued) => Sheet::of(issued.document, false),
        None => Sheet::of(as_read(&mut who.tx, &who.actor, &dog, &report, today).await?, true),
    };
    let links = match report.is_issued {
        true => report_link::of_report(&mut who.tx, report.id, MOST_LINKS).await?,
        false => Vec::new(),
    };
    let form = form.unwrap_or_else(|| {
        let id: ReportLinkId = moment.id();
        Form::blank().with("id", id.to_string()).with("days", "30").with("saw", report.stamp())
    });
    let here = format!("/dogs/{}/reports/{}", dog.id, report.id);
    let title = format!("{}: {}", sheet.document.dog_name, sheet.document.title.to_lowercase());
    Ok(ShowPage {
        page: Page::of(who, title, "caseload").with_errors(&form),
        form,
        sheet,
        papers: [("a4", "A4", false), ("letter", "US Letter", true)]
            .map(|(size, words, letter)| Paper {
                address: format!("{here}?size={size}"),
                words,
                chosen: letter == is_letter,
            })
            .into(),
        is_letter,
        links: links.into_iter().map(|link| LinkView::of(link, moment.at, &dog.zone, today)).collect(),
        days: DAYS.iter().map(|days| (days.to_string(), format!("{days} days"))).collect(),
        replaced_by,
        fresh: moment.id(),
        asks_for_consent: asks_for_consent(who, dog.id, report.kind).await?,
        report,
        dog,
    })
}

/// The report; `?size=letter` prints on US Letter.
pub async fn show(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReportId)>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let seen = dog_of(&app, &mut who, dog).await?;
    let report = report_of(&mut who, seen.0.id, id).await?;
    let is_letter = query.get("size").is_some_and(|size| size == "letter");
    let mut page = show_page(&app, &mut who, seen, report, is_letter, None).await?;
    page.page = page.page.with_notice(notice::of(&query));
    Ok(page.into_response())
}

/// Issues the draft as it was read.
pub async fn issue(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReportId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let seen = dog_of(&app, &mut who, dog).await?;
    let (dog, today) = (seen.0.id, seen.1);
    let report = report_of(&mut who, dog, id).await?;
    let saw = form.text("saw", 40);
    let stamp = report.stamp();
    let mut page = show_page(&app, &mut who, seen, report, false, Some(form)).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = issue_report(who.tx, &who.actor, dog, id, &saw, today, &app.moment()).await;
    let done: Done<()> = match done {
        // on this page the draft is read, not written
        Err(Refusal::Field { field: "saw", .. }) => Err(Refusal::Field {
            field: "issue",
            message: "Somebody changed this draft after you opened it. Read it as it stands below, then issue it.",
        }),
        other => other,
    };
    if done.is_err() {
        page.form.forget("saw");
        page.form = page.form.with("saw", stamp);
    }
    page.settle(done, &format!("/dogs/{dog}/reports/{id}?notice=report-issued"))
}

/// Begins a draft that takes the place of this report.
pub async fn correct(
    State(app): State<App>,
    At((dog, wrong)): At<(DogId, ReportId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let (dog, _) = dog_of(&app, &mut who, dog).await?;
    let (dog, wrong) = (dog.id, report_of(&mut who, dog.id, wrong).await?.id);
    let moment = app.moment();
    let id = form.id("id").unwrap_or_else(|| moment.id());
    if !form.is_fine() {
        return Err(WebError::Status(axum::http::StatusCode::BAD_REQUEST));
    }
    correct_report(who.tx, &who.actor, dog, wrong, id, &moment).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/reports/{id}/edit?notice=report-copied")).into_response())
}

/// Makes a link and shows it, once.
pub async fn share(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReportId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let seen = dog_of(&app, &mut who, dog).await?;
    let (dog, today) = (seen.0.id, seen.1);
    let report = report_of(&mut who, dog, id).await?;
    if !report.is_issued {
        return Err(WebError::NotFound);
    }
    let moment = app.moment();
    let new = NewShare {
        id: form.id("id").unwrap_or_else(|| moment.id()),
        for_whom: form.required("for_whom", 120, "Say for whom it is."),
        days: form.whole("days", "How long it works", 1, 90).unwrap_or(0),
    };
    if !DAYS.contains(&new.days) {
        form.refuse("days", "How long it works: choose one of the answers.");
    }
    let mut page = show_page(&app, &mut who, seen, report, false, Some(form)).await?;
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let (token, link) = match share_report(who.tx, &who.actor, dog, id, new, &moment).await {
        Ok(made) => made,
        Err(Refusal::Field { field, message }) => {
            page.form.refuse(field, message);
            return Ok(page.again());
        }
        Err(other) => return Err(other.into()),
    };
    let made = MadePage {
        page: Page { title: format!("A link for {}", link.for_whom), error: false, ..page.page },
        until: zones::day_and_time(link.expires_at, &page.dog.zone, today),
        link: format!("{}/r/{}", app.base_url, token.text()),
        message: format!(
            "{}, {}, from {}:",
            page.sheet.document.title, page.sheet.document.dog_name, page.sheet.document.practice
        ),
        for_whom: link.for_whom,
        report: id,
        dog: page.dog,
    };
    Ok(made.into_response())
}

/// Revokes a link at once.
pub async fn revoke(
    State(app): State<App>,
    At((dog, id, link)): At<(DogId, ReportId, ReportLinkId)>,
    TrainerOnly(who): TrainerOnly,
) -> Answer {
    revoke_report_link(who.tx, &who.actor, dog, id, link, &app.moment()).await?;
    Ok(Redirect::to(&format!("/dogs/{dog}/reports/{id}?notice=report-link-revoked")).into_response())
}
