//! Errors as people meet them: the right status, and a page that says what to do. The inside is logged, never shown.

use askama::Template;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect, Response};

use crate::actions::Refusal;
use crate::actions::password::HashingFailed;
use crate::actions::sign_in::ProofFailed;
use crate::web::page::Page;

/// Why a handler did not answer with its page.
#[derive(Debug)]
pub enum WebError {
    /// There is no such thing, or it is not this person's to see.
    NotFound,
    /// One may see it, but not do this.
    Forbidden,
    /// Sign in first, then come back to this path.
    SignInFirst(String),
    /// A status that needs no more words than its page has.
    Status(StatusCode),
    /// Too many passwords wait to be checked.
    Busy,
    /// Something broke inside.
    Inside(anyhow::Error),
}

impl From<crate::store::Error> for WebError {
    fn from(error: crate::store::Error) -> Self {
        Self::Inside(error.into())
    }
}

impl From<ProofFailed> for WebError {
    fn from(error: ProofFailed) -> Self {
        match error {
            ProofFailed::Database(error) => error.into(),
            ProofFailed::Hashing(error) => error.into(),
        }
    }
}

impl From<HashingFailed> for WebError {
    fn from(error: HashingFailed) -> Self {
        match error {
            HashingFailed::Busy => Self::Busy,
            HashingFailed::Broken(_) => Self::Inside(error.into()),
        }
    }
}

impl From<askama::Error> for WebError {
    fn from(error: askama::Error) -> Self {
        Self::Inside(error.into())
    }
}

impl From<Refusal> for WebError {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::NotFound => Self::NotFound,
            Refusal::Forbidden => Self::Forbidden,
            Refusal::Clash => Self::Status(StatusCode::CONFLICT),
            Refusal::Field { .. } => Self::Status(StatusCode::UNPROCESSABLE_ENTITY),
            Refusal::Database(error) => error.into(),
        }
    }
}

#[derive(Template)]
#[template(path = "errors/error.html")]
struct ErrorPage {
    page: Page,
    heading: &'static str,
    advice: &'static str,
}

impl IntoResponse for WebError {
    fn into_response(self) -> Response {
        let status = match self {
            Self::SignInFirst(next) => {
                let query =
                    form_urlencoded::Serializer::new(String::new()).append_pair("next", &next).finish();
                return Redirect::to(&format!("/sign-in?{query}")).into_response();
            }
            Self::NotFound => StatusCode::NOT_FOUND,
            Self::Forbidden => StatusCode::FORBIDDEN,
            Self::Status(status) => status,
            Self::Busy => return page(StatusCode::SERVICE_UNAVAILABLE, BUSY),
            Self::Inside(error) => status_of(&error),
        };
        error_page(status)
    }
}

/// 503 when the database is away or busy, 500 for the rest; logged once, with its chain.
fn status_of(error: &anyhow::Error) -> StatusCode {
    let away = error.downcast_ref::<crate::store::Error>().is_some_and(crate::store::is_away);
    let full = error.downcast_ref::<crate::store::Error>().is_some_and(crate::store::is_full);
    let what =
        if full { "a request failed: the database's disk is full, make room" } else { "a request failed" };
    tracing::error!(error = format!("{error:#}"), "{what}");
    if away { StatusCode::SERVICE_UNAVAILABLE } else { StatusCode::INTERNAL_SERVER_ERROR }
}

/// The page for a status.
pub fn error_page(status: StatusCode) -> Response {
    page(status, words(status))
}

const BUSY: (&str, &str) =
    ("Many people are signing in just now", "Nothing was changed. Go back and try again in half a minute.");

fn page(status: StatusCode, (heading, advice): (&'static str, &'static str)) -> Response {
    let page = ErrorPage { page: Page::plain(heading), heading, advice };
    let mut response = match page.render() {
        Ok(html) => (status, axum::response::Html(html)).into_response(),
        Err(_) => (status, heading).into_response(),
    };
    if status == StatusCode::SERVICE_UNAVAILABLE || status == StatusCode::TOO_MANY_REQUESTS {
        response
            .headers_mut()
            .insert(axum::http::header::RETRY_AFTER, axum::http::HeaderValue::from_static("30"));
    }
    response
}

fn words(status: StatusCode) -> (&'static str, &'static str) {
    match status {
        StatusCode::NOT_FOUND => (
            "There is nothing here",
            "The address may be mistyped, or the page may belong to somebody else. Go back, or start again from the first page.",
        ),
        StatusCode::FORBIDDEN => (
            "This is not yours to do",
            "You can see this, but only somebody else in the practice can change it. Ask your lead trainer.",
        ),
        StatusCode::CONFLICT => (
            "This was already sent, with other answers",
            "What was sent first is kept. Open the page again to see it before you send something new.",
        ),
        StatusCode::METHOD_NOT_ALLOWED => {
            ("This page does not do that", "Go back and use the buttons on the page.")
        }
        StatusCode::PAYLOAD_TOO_LARGE => {
            ("That is too much at once", "Shorten what you typed and send it again.")
        }
        StatusCode::UNSUPPORTED_MEDIA_TYPE => {
            ("This came in a form we do not read", "Go back and use the form on the page.")
        }
        StatusCode::UNPROCESSABLE_ENTITY => {
            ("Something in the form is not right", "Go back, check the answers and send it again.")
        }
        StatusCode::TOO_MANY_REQUESTS => {
            ("Too many tries", "Wait a minute, then try again. Nothing is locked.")
        }
        StatusCode::SERVICE_UNAVAILABLE => (
            "We cannot reach our records just now",
            "What you sent may have been kept or not. In half a minute, look whether it is there. If it is not, go back: what you typed should still be in the form. Send it again.",
        ),
        StatusCode::REQUEST_TIMEOUT => ("That took too long", "Go back and try again."),
        StatusCode::BAD_REQUEST => ("We could not read that", "Go back and use the form on the page."),
        _ => (
            "Something broke on our side",
            "It has been noted. Go back and try again; if it happens twice, tell your trainer.",
        ),
    }
}
