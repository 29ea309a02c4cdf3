//! A report by its link: first a page that says what it is and writes nothing, then the report, whose opening is noted. A link that is
//! wrong, revoked, run out, of another kind, or of a dog that left is the same 404.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use super::show::Sheet;
use crate::actions::open_report::open_report;
use crate::app::App;
use crate::store::report_link;
use crate::store::token::Token;
use crate::web::reports::paragraphs::Block;
use crate::web::{Answer, At, Page, WebError, zones};

#[derive(Template, WebTemplate)]
#[template(path = "reports/link.html")]
struct LinkPage {
    page: Page,
    sheet: Sheet,
    until: String,
    /// The address that opens it.
    open: String,
    is_replaced: bool,
}

#[derive(Template, WebTemplate)]
#[template(path = "reports/opened.html")]
struct OpenedPage {
    page: Page,
    sheet: Sheet,
    is_replaced: bool,
}

/// What the link leads to, before it is opened.
pub async fn show(State(app): State<App>, At(token): At<String>) -> Answer {
    let now = app.moment().at;
    let token = Token::shown(&token).ok_or(WebError::NotFound)?;
    let opened = report_link::open(&app.db, token.hash(), now).await?.ok_or(WebError::NotFound)?;
    let today = zones::local_date(now, &opened.zone);
    let document = opened.issued.document;
    let page = LinkPage {
        page: Page {
            practice: document.practice.clone(),
            ..Page::plain(format!("{} about {}", document.title, document.dog_name))
        },
        until: zones::day_and_time(opened.expires_at, &opened.zone, today),
        open: format!("/r/{}/open", token.text()),
        is_replaced: opened.issued.replaced_by.is_some(),
        sheet: Sheet::of(document, false),
    };
    Ok(page.into_response())
}

/// The report. That it was opened, and when, is noted; nothing of who did or from where.
pub async fn open(State(app): State<App>, At(token): At<String>) -> Answer {
    let token = Token::shown(&token).ok_or(WebError::NotFound)?;
    let issued = open_report(&app.db, &token, &app.moment()).await?;
    let document = issued.document;
    let page = OpenedPage {
        page: Page {
            practice: document.practice.clone(),
            ..Page::plain(format!("{} about {}", document.title, document.dog_name))
        },
        is_replaced: issued.replaced_by.is_some(),
        sheet: Sheet::of(document, false),
    };
    Ok(page.into_response())
}
