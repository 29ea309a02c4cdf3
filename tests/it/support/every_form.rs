//! Every form of the service, found by following every link of every page, with its fields as a browser sends them.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::sync::LazyLock;

use axum::http::Method;
use scraper::ElementRef;
use settlebrook::web::routes;
use uuid::Uuid;

use super::answer::{selector, text};
use super::{Answer, Browser, html, walk};

/// How many pages of one kind are opened: enough to meet every shape of it.
const PAGES_OF_A_KIND: usize = 2;

/// Methods and paths of the table, read once: it is made with all its handlers.
static ROUTES: LazyLock<Vec<(Method, &'static str)>> =
    LazyLock::new(|| routes::table().into_iter().map(|route| (route.method, route.path)).collect());

/// What a field takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Kind {
    /// Not shown.
    Hidden,
    /// Words.
    Text,
    /// A number, typed.
    Number,
    /// A day.
    Date,
    /// A time of day.
    Time,
    /// An address.
    Email,
    /// A secret, never shown again.
    Password,
    /// One of these.
    Choice(Vec<String>),
    /// Any of these.
    Ticks(Vec<String>),
    /// A button that sends one of these.
    Button(Vec<String>),
}

/// A field of a form.
#[derive(Debug, Clone)]
pub struct Field {
    /// Its name.
    pub name: String,
    /// What it takes.
    pub kind: Kind,
    /// What the page filled in.
    pub filled: Vec<String>,
}

/// A form that is posted.
#[derive(Debug, Clone)]
pub struct Found {
    /// The page that it is on.
    pub page: String,
    /// Where it goes.
    pub action: String,
    /// The route that takes it.
    pub route: &'static str,
    /// Its fields, in the page's order.
    pub fields: Vec<Field>,
}

impl Found {
    /// What is the same for forms of one make: rows that are numbered count once.
    pub fn make(&self) -> String {
        let names: BTreeSet<String> = self.fields.iter().map(|field| numberless(&field.name)).collect();
        format!("{} {}", self.route, names.into_iter().collect::<Vec<_>>().join(","))
    }

    /// The field of this name.
    pub fn field(&self, name: &str) -> Option<&Field> {
        self.fields.iter().find(|field| field.name == name)
    }
}

/// A name without the number of its row.
pub fn numberless(name: &str) -> String {
    name.chars().map(|c| if c.is_ascii_digit() { '#' } else { c }).collect()
}

/// The forms of a page that are posted.
pub fn on(page: &Answer) -> Vec<Found> {
    if !page.is_page() {
        return Vec::new();
    }
    let (path, tree) = (page.path().to_owned(), page.page());
    let (posted, elsewhere) = (selector("form[method=post]"), selector("button[formaction]"));
    let mut found = Vec::new();
    for form in tree.select(&posted) {
        let own = form.attr("action").unwrap_or_else(|| path.split('?').next().unwrap_or_default());
        let others = form.select(&elsewhere).filter_map(|button| button.attr("formaction"));
        for action in std::iter::once(own).chain(others) {
            let route = route_of(&Method::POST, action);
            let route = route.unwrap_or_else(|| panic!("{page:?} posts to {action}, which is no route"));
            found.push(Found { page: path.clone(), action: action.to_owned(), route, fields: fields(form) });
        }
    }
    found
}

fn fields(form: ElementRef<'_>) -> Vec<Field> {
    let mut fields: Vec<Field> = Vec::new();
    for element in form.select(&selector("input[name], select[name], textarea[name], button[name]")) {
        let name = element.attr("name").unwrap_or_default().to_owned();
        let (kind, filled) = (kind_of(element), html::as_filled_in(element));
        match fields.iter_mut().find(|field| field.name == name) {
            Some(field) => {
                if let Kind::Hidden = field.kind {
                    field.filled.extend(filled);
                    continue;
                }
                let (Kind::Choice(all) | Kind::Ticks(all) | Kind::Button(all)) = &mut field.kind else {
                    panic!("{name} is there twice in the form at {:?}", form.attr("action"))
                };
                if let Kind::Choice(more) | Kind::Ticks(more) | Kind::Button(more) = kind {
                    all.extend(more);
                }
                field.filled.extend(filled);
            }
            None => {
                fields.push(Field { name, kind, filled: filled.into_iter().collect() });
            }
        }
    }
    fields
}

fn kind_of(element: ElementRef<'_>) -> Kind {
    let value = || vec![element.attr("value").unwrap_or_default().to_owned()];
    match (element.value().name(), element.attr("type").unwrap_or("text")) {
        ("button", _) => Kind::Button(value()),
        ("select", _) => {
            let options = selector("option");
            let values =
                element.select(&options).map(|o| o.attr("value").map_or_else(|| text(o), str::to_owned));
            Kind::Choice(values.collect())
        }
        ("textarea", _) => Kind::Text,
        (_, "radio") => Kind::Choice(value()),
        (_, "checkbox") => Kind::Ticks(value()),
        (_, "hidden") => Kind::Hidden,
        (_, "date") => Kind::Date,
        (_, "time") => Kind::Time,
        (_, "email") => Kind::Email,
        (_, "password") => Kind::Password,
        _ if element.attr("hidden").is_some() => Kind::Hidden,
        _ if matches!(element.attr("inputmode"), Some("numeric" | "decimal")) => Kind::Number,
        _ => Kind::Text,
    }
}

/// The route of the table that takes a path; what is literal goes before what has a name.
pub fn route_of(method: &Method, path: &str) -> Option<&'static str> {
    let path = path.split(['?', '#']).next().unwrap_or_default();
    let parts: Vec<&str> = path.split('/').collect();
    let fits = |pattern: &str| {
        let wanted: Vec<&str> = pattern.split('/').collect();
        wanted.len() == parts.len() && wanted.iter().zip(&parts).all(|(w, p)| w.starts_with('{') || w == p)
    };
    let routes = ROUTES.iter().filter(|(of, pattern)| of == method && fits(pattern));
    routes.map(|(_, pattern)| *pattern).min_by_key(|pattern| pattern.matches('{').count())
}

/// The ids that a path carries, by the names that its route gives them.
pub fn ids_in(route: &'static str, path: &str) -> Vec<(&'static str, Uuid)> {
    let path = path.split(['?', '#']).next().unwrap_or_default();
    let named = route.split('/').zip(path.split('/')).filter_map(|(wanted, part)| {
        let name = wanted.strip_prefix('{')?.strip_suffix('}')?;
        Some((name, part.parse().ok()?))
    });
    named.collect()
}

/// What somebody meets who follows every link.
#[derive(Default)]
pub struct Walked {
    /// The pages, in the order in which they were met.
    pub pages: Vec<Answer>,
    /// The forms, one of each make.
    pub forms: BTreeMap<String, Found>,
    /// Ids of things, by the names that routes give them.
    pub things: BTreeMap<&'static str, Uuid>,
}

/// Opens every kind of page that one person can reach, from what `things` name and by links.
pub async fn walk(browser: &mut Browser, things: &BTreeMap<&'static str, Uuid>) -> Walked {
    let pages = walk::every_route(things).into_iter().filter(|stop| stop.method == Method::GET);
    let known = pages.filter(|stop| !stop.has_id || stop.has_every_id).map(|stop| stop.path);
    let mut next: VecDeque<String> = known.collect();
    let mut walked = Walked { things: things.clone(), ..Walked::default() };
    let (mut seen, mut kinds) = (BTreeSet::new(), BTreeMap::<String, usize>::new());
    while let Some(path) = next.pop_front() {
        let path = path.split('#').next().unwrap_or_default().to_owned();
        let Some(route) = route_of(&Method::GET, &path) else { continue };
        if matches!(route, "/livez" | "/readyz" | "/l/{token}" | "/r/{token}" | "/set-up/{token}")
            || !seen.insert(path.clone())
        {
            continue;
        }
        let of_this_kind = kinds.entry(kind_of_page(route, &path)).or_default();
        *of_this_kind += 1;
        if *of_this_kind > PAGES_OF_A_KIND {
            continue;
        }
        let page = browser.get(&path).await;
        if let Some(to) = page.location() {
            next.push_back(to.to_owned());
        }
        if page.status() != 200 || !page.is_page() {
            continue;
        }
        next.extend(page.attributes("a[href^='/']", "href"));
        for form in on(&page) {
            walked.things.extend(ids_in(form.route, &form.action));
            walked.forms.entry(form.make()).or_insert(form);
        }
        walked.things.extend(ids_in(route, &path));
        walked.pages.push(page);
    }
    walked
}

/// Pages of one route are of one kind, unless they are asked for other things or other parts.
fn kind_of_page(route: &str, path: &str) -> String {
    let (path, query) = path.split_once('?').unwrap_or((path, ""));
    let section = if route.ends_with("{section}") { path.rsplit('/').next().unwrap_or_default() } else { "" };
    let keys: BTreeSet<String> =
        form_urlencoded::parse(query.as_bytes()).map(|(key, _)| key.into_owned()).collect();
    format!("{route} {section} {keys:?}")
}
