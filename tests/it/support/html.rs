//! What every page must be: valid, named, wired up, without anything inline, and silent about our insides.

use std::collections::{BTreeSet, HashSet};

use axum::http::{Method, StatusCode};
use scraper::node::Node;
use scraper::{ElementRef, Html};

use super::answer::{Answer, selector, text};
use super::words;

/// Fails unless the page is right. Answers that are no pages pass.
pub fn check(answer: &Answer) {
    opaque(answer);
    if !answer.is_page() || *answer.method() == Method::HEAD {
        return;
    }
    let page = answer.page();
    let wrong = [structure(answer, &page), wiring(&page), names(&page), forms(&page), inline(&page)].concat();
    assert!(wrong.is_empty(), "{answer:?} is not right:\n  {}", wrong.join("\n  "));
    words::check(answer);
}

/// A failure never shows what failed.
fn opaque(answer: &Answer) {
    if !answer.status().is_server_error() {
        return;
    }
    for inside in
        ["sqlx", "panicked", "src/", "postgres", "database error", "relation", "rust", "stack", "::"]
    {
        let said = answer.body().to_lowercase();
        assert!(!said.contains(inside), "{answer:?} speaks of {inside}");
    }
}

fn structure(answer: &Answer, page: &Html) -> Vec<String> {
    let mut wrong: Vec<String> = page.errors.iter().map(|error| format!("does not parse: {error}")).collect();
    let count = |css: &str| page.select(&selector(css)).count();
    for (css, wanted) in [
        ("html[lang=en-GB]", 1),
        ("head title", 1),
        ("meta[charset=utf-8]", 1),
        ("meta[name=viewport][content='width=device-width, initial-scale=1']", 1),
        ("h1", 1),
        ("main#main", 1),
        ("main", 1),
        ("main h1", 1),
    ] {
        if count(css) != wanted {
            wrong.push(format!("has {} {css} rather than {wanted}", count(css)));
        }
    }
    let title: String = page.select(&selector("head title")).map(text).collect();
    let subject = title.trim_start_matches("Error: ").split(" · ").next().unwrap_or_default();
    if subject.is_empty() || subject == "Settlebrook" {
        wrong.push(format!("has a title that says nothing: {title:?}"));
    }
    if page.select(&selector("h1")).any(|h1| text(h1).is_empty()) {
        wrong.push("has an empty h1".into());
    }
    let summary = count("[data-error-summary]") > 0;
    if summary != title.starts_with("Error: ") {
        wrong.push(format!("has the title {title:?}, and error summary: {summary}"));
    }
    if summary && answer.status() != StatusCode::UNPROCESSABLE_ENTITY {
        wrong.push(format!("shows errors with the status {}", answer.status()));
    }
    wrong.extend(headings(page));
    wrong
}

/// Headings never skip a level on the way down.
fn headings(page: &Html) -> Vec<String> {
    let mut last = 0;
    let mut wrong = Vec::new();
    for heading in page.select(&selector("h1, h2, h3, h4, h5, h6")) {
        let level: usize = heading.value().name()[1..].parse().expect("the level of a heading");
        if level > last + 1 && last > 0 {
            wrong.push(format!("goes from h{last} to h{level} at “{}”", text(heading)));
        }
        last = level;
    }
    wrong
}

/// Ids are unique, and whatever points at one finds it.
fn wiring(page: &Html) -> Vec<String> {
    let mut ids = HashSet::new();
    let mut wrong = Vec::new();
    for element in page.select(&selector("[id]")) {
        let id = element.attr("id").unwrap_or_default();
        if id.is_empty() || id.contains(char::is_whitespace) || !ids.insert(id.to_owned()) {
            wrong.push(format!("has the id {id:?} twice, or it is none"));
        }
    }
    let pointers = [
        "for",
        "aria-describedby",
        "aria-labelledby",
        "aria-controls",
        "aria-owns",
        "list",
        "form",
        "headers",
    ];
    for name in pointers {
        for element in page.select(&selector(&format!("[{name}]"))) {
            for id in element.attr(name).unwrap_or_default().split_whitespace() {
                if !ids.contains(id) {
                    wrong.push(format!("points by {name} at #{id}, which is not there"));
                }
            }
        }
    }
    for link in page.select(&selector("a[href^='#']")) {
        let id = &link.attr("href").unwrap_or_default()[1..];
        if !ids.contains(id) {
            wrong.push(format!("links to #{id}, which is not there"));
        }
    }
    wrong
}

/// Everything that can be used or looked at has a name.
fn names(page: &Html) -> Vec<String> {
    let mut wrong = Vec::new();
    for field in page.select(&selector("input:not([type=hidden]):not([hidden]), select, textarea")) {
        let labelled = field.attr("aria-label").is_some_and(|l| !l.trim().is_empty())
            || field.attr("aria-labelledby").is_some()
            || ancestors(field).any(|a| a.value().name() == "label" && !text(a).is_empty())
            || field.attr("id").is_some_and(|id| {
                page.select(&selector("label[for]")).any(|l| l.attr("for") == Some(id) && !text(l).is_empty())
            });
        if !labelled {
            wrong.push(format!("has a field without a label: {}", field.html()));
        }
        // what a script sends by itself has none
        let by_script = ["data-photo", "data-photo-now"].iter().any(|name| field.attr(name).is_some());
        let is_sent = field.attr("readonly").is_none() && !by_script;
        if is_sent && field.attr("name").is_none_or(str::is_empty) {
            wrong.push(format!("has a field without a name: {}", field.html()));
        }
    }
    for element in page.select(&selector("button, a[href], summary, legend, th")) {
        let named =
            !text(element).is_empty() || element.attr("aria-label").is_some_and(|l| !l.trim().is_empty());
        if !named {
            wrong.push(format!("has something without a name: {}", element.html()));
        }
    }
    for element in page.select(&selector("fieldset")) {
        let first = element.children().filter_map(ElementRef::wrap).next();
        if first.is_none_or(|f| f.value().name() != "legend") {
            wrong.push(format!("has a group without a legend: {}", element.html()));
        }
    }
    for image in page.select(&selector("img:not([alt]), svg:not([aria-hidden=true]):not([role=img])")) {
        wrong.push(format!("has a picture without words: <{}>", image.value().name()));
    }
    wrong
}

fn ancestors(element: ElementRef<'_>) -> impl Iterator<Item = ElementRef<'_>> {
    element.ancestors().filter_map(ElementRef::wrap)
}

/// Forms say how and where they are sent, and it is to us.
fn forms(page: &Html) -> Vec<String> {
    let ours = |path: &str| path.starts_with('/') && !path.starts_with("//");
    let mut wrong = Vec::new();
    for form in page.select(&selector("form")) {
        let (method, action) = (form.attr("method").unwrap_or_default(), form.attr("action"));
        if !matches!(method, "get" | "post" | "dialog") || !action.is_none_or(ours) {
            wrong.push(format!("has a form sent by {method:?} to {action:?}"));
        }
        let inside = form.select(&selector("button:not([type=button])")).count();
        let outside = form.attr("id").map_or(0, |id| {
            page.select(&selector("button[form]")).filter(|b| b.attr("form") == Some(id)).count()
        });
        if inside + outside == 0 {
            wrong.push(format!("has a form to {action:?} that cannot be sent"));
        }
    }
    for button in page.select(&selector("[formaction], [formmethod], [target]")) {
        if button.attr("formaction").is_some_and(|action| !ours(action)) || button.attr("target").is_some() {
            wrong.push(format!("sends elsewhere: {}", button.html()));
        }
    }
    wrong
}

/// Nothing inline that the content security policy would stop, nothing from elsewhere.
fn inline(page: &Html) -> Vec<String> {
    let mut wrong = Vec::new();
    for element in page.tree.nodes().filter_map(ElementRef::wrap) {
        for (name, value) in element.value().attrs() {
            let script =
                name.starts_with("on") || value.trim_start().to_lowercase().starts_with("javascript:");
            if name == "style" || script {
                wrong.push(format!("has {name}={value:?} on <{}>", element.value().name()));
            }
            let fetched =
                matches!(element.value().name(), "script" | "link" | "img" | "source" | "use" | "image");
            if fetched
                && matches!(name, "src" | "href" | "srcset")
                && !value.starts_with("/static/")
                && value != "/manifest.webmanifest"
                && !(value.starts_with("/dogs/") && value.contains("/photos/"))
            {
                wrong.push(format!("fetches {value:?}"));
            }
        }
        if matches!(element.value().name(), "style" | "iframe" | "object" | "embed" | "base") {
            wrong.push(format!("has <{}>", element.value().name()));
        }
        if element.value().name() == "script" && (element.attr("src").is_none() || !text(element).is_empty())
        {
            wrong.push("has an inline script".into());
        }
    }
    let comments = page.tree.nodes().filter(|node| matches!(node.value(), Node::Comment(_))).count();
    if comments > 0 {
        wrong.push(format!("has {comments} comments that readers can see in its source"));
    }
    wrong
}

/// A form as its page filled it in.
#[derive(Debug)]
pub struct Form {
    /// How it is sent.
    pub method: Method,
    /// Where to.
    pub action: String,
    /// Names that it knows.
    pub names: BTreeSet<String>,
    /// What would be sent if nobody touched it.
    pub fields: Vec<(String, String)>,
}

/// The one form that `css` finds.
#[track_caller]
pub fn form(answer: &Answer, css: &str) -> Form {
    let page = answer.page();
    let forms: Vec<ElementRef<'_>> = page.select(&selector(css)).collect();
    let [form] = forms[..] else { panic!("{answer:?} has {} forms at {css}", forms.len()) };
    let mut names = BTreeSet::new();
    let mut fields = Vec::new();
    for field in form.select(&selector("input[name], select[name], textarea[name], button[name]")) {
        let name = field.attr("name").unwrap_or_default().to_owned();
        fields.extend(as_filled_in(field).into_iter().map(|value| (name.clone(), value)));
        names.insert(name);
    }
    let method = if form.attr("method") == Some("post") { Method::POST } else { Method::GET };
    Form { method, action: form.attr("action").unwrap_or(answer.path()).to_owned(), names, fields }
}

/// What a browser would send of a field that nobody touched.
pub fn as_filled_in(field: ElementRef<'_>) -> Option<String> {
    let value = field.attr("value").unwrap_or_default().to_owned();
    match (field.value().name(), field.attr("type").unwrap_or("text")) {
        ("button", _) => None,
        ("input", "checkbox" | "radio") => field.attr("checked").map(|_| value),
        ("input", _) => Some(value),
        ("textarea", _) => Some(field.text().collect()),
        _ => {
            let options: Vec<ElementRef<'_>> = field.select(&selector("option")).collect();
            let chosen = options.iter().find(|o| o.attr("selected").is_some()).or(options.first());
            chosen.map(|o| o.attr("value").map_or_else(|| text(*o), str::to_owned))
        }
    }
}
