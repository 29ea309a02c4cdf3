//! Households, dogs and weights from a file: checking it. Nothing is kept of a file with a mistake in it; one without waits to be
//! imported (`import_batch`).

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::http::header;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::stage_import::stage_import;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::import::{Column, Fault, MOST_BYTES, MOST_ROWS, Setting, faults_as_text, read};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, Form, LeadOnly, Page, zones};

/// Where a file is sent to be checked.
pub const PATH: &str = "/practice/import";
/// The most that the form may send, in bytes: a file of the longest kind, with its separators escaped.
pub const FORM_BYTES: usize = 2 * MOST_BYTES;
/// How many faults a page shows.
const FAULTS_ON_A_PAGE: usize = 200;
/// How far ahead of UTC a day can be anywhere.
const FURTHEST_AHEAD: time::Duration = time::Duration::hours(14);

#[derive(Template, WebTemplate)]
#[template(path = "practice/import.html")]
struct ImportPage {
    page: Page,
    form: Form,
    faults: Option<Faults>,
    columns: &'static [Column],
    most_rows: usize,
    most_mb: usize,
}
form_pages!(ImportPage);

/// Some of the faults of a file.
struct Faults {
    shown: Vec<Fault>,
    all: usize,
    first: usize,
    last: usize,
    before: Option<usize>,
    after: Option<usize>,
}

fn page(page: Page, form: Form) -> ImportPage {
    ImportPage {
        page,
        form,
        faults: None,
        columns: Column::ALL,
        most_rows: MOST_ROWS,
        most_mb: MOST_BYTES / 1_000_000,
    }
}

/// What a file is read against at this moment.
pub(super) fn setting(moment: &Moment) -> Setting {
    Setting { today: (moment.at + FURTHEST_AHEAD).date(), knows_zone: zones::is_known }
}

/// What a file holds, and a form that takes one.
pub async fn show(LeadOnly(who): LeadOnly) -> Answer {
    Ok(page(Page::of(&who, "Import and export", "practice"), Form::blank()).into_response())
}

/// Checks a file: its preview where it is fine, everything that is wrong in it where it is not.
pub async fn check(State(app): State<App>, LeadOnly(who): LeadOnly, mut form: Form) -> Answer {
    let moment = app.moment();
    let text = form.verbatim("rows");
    if text.trim().is_empty() {
        form.refuse("rows", "Paste the rows of your file, with the names of the columns in the first.");
    } else if text.len() > MOST_BYTES {
        let most = MOST_BYTES / 1_000_000;
        form.refuse(
            "rows",
            format!("Rows of the file: this is too long. Split it into files of up to {most} MB."),
        );
    }
    let mut page = page(Page::of(&who, "Import and export", "practice"), form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let found = read(&text, setting(&moment)).err().unwrap_or_default();
    if page.form.value("do") == "faults" {
        return Ok(as_file("what-to-put-right.csv", faults_as_text(&found)));
    }
    if found.is_empty() {
        let batch = stage_import(who.tx, &who.actor, &text, &moment).await?;
        return Ok(Redirect::to(&format!("{PATH}/{batch}")).into_response());
    }
    let wrong = match found.len() {
        1 => "Rows of the file: one thing to put right is listed on this page. Nothing was imported."
            .to_owned(),
        all => format!(
            "Rows of the file: {all} things to put right are listed on this page. Nothing was imported."
        ),
    };
    page.form.refuse("rows", wrong);
    page.faults = Some(some_of(found, page.form.value("page").parse().unwrap_or(1)));
    Ok(page.again())
}

/// One page of the faults, counted from 1; the nearest where there is no such page.
fn some_of(found: Vec<Fault>, wanted: usize) -> Faults {
    let all = found.len();
    let pages = all.div_ceil(FAULTS_ON_A_PAGE);
    let number = wanted.clamp(1, pages.max(1));
    let from = (number - 1) * FAULTS_ON_A_PAGE;
    let shown: Vec<Fault> = found.into_iter().skip(from).take(FAULTS_ON_A_PAGE).collect();
    Faults {
        first: from + 1,
        last: from + shown.len(),
        shown,
        all,
        before: (number > 1).then(|| number - 1),
        after: (number < pages).then(|| number + 1),
    }
}

/// A text to keep as a file.
pub(super) fn as_file(name: &str, text: String) -> Response {
    let disposition = format!("attachment; filename=\"{name}\"");
    let headers = [
        (header::CONTENT_TYPE, "text/csv; charset=utf-8"),
        (header::CONTENT_DISPOSITION, disposition.as_str()),
    ];
    (headers, text).into_response()
}
