//! What came back, and questions to it. Pages are asked with CSS selectors, never by looking for text in their source.

use std::fmt;

use axum::http::response::Parts;
use axum::http::{HeaderMap, Method, StatusCode, header};
use scraper::{ElementRef, Html, Selector};

/// The answer to one request.
pub struct Answer {
    method: Method,
    path: String,
    parts: Parts,
    body: String,
}

impl Answer {
    pub(super) fn new(method: Method, path: &str, parts: Parts, body: String) -> Self {
        Self { method, path: path.to_owned(), parts, body }
    }

    /// What was asked for.
    pub fn path(&self) -> &str {
        &self.path
    }

    /// By which method it was asked for.
    pub fn method(&self) -> &Method {
        &self.method
    }

    /// Its status.
    pub fn status(&self) -> StatusCode {
        self.parts.status
    }

    /// Its headers.
    pub fn headers(&self) -> &HeaderMap {
        &self.parts.headers
    }

    /// A header's text.
    pub fn header(&self, name: &str) -> Option<&str> {
        self.headers().get(name).map(|value| value.to_str().expect("headers are plain text"))
    }

    /// Everything after the headers, for answers that are no pages.
    pub fn body(&self) -> &str {
        &self.body
    }

    /// Whether it is a page.
    pub fn is_page(&self) -> bool {
        self.header("content-type").is_some_and(|kind| kind.starts_with("text/html"))
    }

    /// Where a redirect leads.
    pub fn location(&self) -> Option<&str> {
        self.status().is_redirection().then(|| self.header(header::LOCATION.as_str())).flatten()
    }

    /// Holds the answer to this status.
    #[track_caller]
    pub fn expect(&self, status: u16) -> &Self {
        assert_eq!(self.status().as_u16(), status, "{self:?}");
        self
    }

    /// Holds the answer to being a redirect to exactly here.
    #[track_caller]
    pub fn redirects_to(&self, path: &str) -> &Self {
        assert_eq!((self.status(), self.location()), (StatusCode::SEE_OTHER, Some(path)), "{self:?}");
        self
    }

    /// The page as a tree.
    pub fn page(&self) -> Html {
        assert!(self.is_page() || self.body.is_empty(), "{self:?} is no page");
        Html::parse_document(&self.body)
    }

    /// The text of every element that `css` finds, with its white space evened out.
    pub fn texts(&self, css: &str) -> Vec<String> {
        self.page().select(&selector(css)).map(text).collect()
    }

    /// The text of the one element that `css` finds.
    #[track_caller]
    pub fn text(&self, css: &str) -> String {
        one(self, css, self.texts(css))
    }

    /// An attribute of every element that `css` finds and that has it.
    pub fn attributes(&self, css: &str, name: &str) -> Vec<String> {
        self.page().select(&selector(css)).filter_map(|e| e.attr(name)).map(str::to_owned).collect()
    }

    /// An attribute of the one element that `css` finds and that has it.
    #[track_caller]
    pub fn attribute(&self, css: &str, name: &str) -> String {
        one(self, css, self.attributes(css, name))
    }

    /// How many elements `css` finds.
    pub fn count(&self, css: &str) -> usize {
        self.page().select(&selector(css)).count()
    }

    /// The path that the one link with this text leads to.
    #[track_caller]
    pub fn link(&self, words: &str) -> String {
        let page = self.page();
        let links = selector("a[href]");
        let found = page.select(&links).filter(|a| text(*a) == words);
        one(self, words, found.filter_map(|a| a.attr("href")).map(str::to_owned).collect())
    }

    /// The message under a field of a form.
    #[track_caller]
    pub fn error_of(&self, field: &str) -> String {
        self.text(&format!("#f-{field}-error")).trim_start_matches("Error: ").to_owned()
    }
}

impl fmt::Debug for Answer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} → {}", self.method, self.path, self.status())?;
        if let Some(to) = self.location() {
            return write!(f, " to {to}");
        }
        if !self.is_page() {
            return Ok(());
        }
        let wrong = self.texts(".error-summary li");
        write!(f, " “{}”", self.texts("h1").join(" / "))?;
        if wrong.is_empty() { Ok(()) } else { write!(f, " with errors {wrong:?}") }
    }
}

#[track_caller]
fn one(answer: &Answer, css: &str, mut found: Vec<String>) -> String {
    assert_eq!(found.len(), 1, "{answer:?} has not exactly one {css}: {found:?}");
    found.remove(0)
}

/// A selector that is known to be one.
#[track_caller]
pub fn selector(css: &str) -> Selector {
    Selector::parse(css).unwrap_or_else(|error| panic!("{css} is no selector: {error}"))
}

/// An element's text, with its white space evened out.
pub fn text(element: ElementRef<'_>) -> String {
    element.text().collect::<String>().split_whitespace().collect::<Vec<_>>().join(" ")
}
