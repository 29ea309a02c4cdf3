//! Somebody who walks every route: what they may open, how they are refused, and which methods they get nowhere by.

use std::collections::BTreeMap;

use axum::http::{HeaderMap, Method};
use settlebrook::domain::vocabulary::Role;
use settlebrook::web::routes::Who;

use super::browser::From;
use super::walk::{Stop, names};
use super::{Answer, Browser};

/// Every method that a browser can be made to send.
const METHODS: [Method; 7] =
    [Method::GET, Method::HEAD, Method::POST, Method::PUT, Method::PATCH, Method::DELETE, Method::OPTIONS];

/// Somebody who walks.
pub struct Walker {
    /// Who it is, for messages.
    pub name: &'static str,
    /// Their browser.
    pub browser: Browser,
    /// Their role; `None` for somebody who is not signed in.
    pub role: Option<Role>,
    /// Whether the things that the paths name are theirs to see.
    pub sees: bool,
}

impl Walker {
    /// Somebody who is not signed in, or is no longer.
    pub fn visitor(name: &'static str, browser: &Browser) -> Self {
        Self { name, browser: browser.clone(), role: None, sees: false }
    }

    /// Somebody for whom the things in the paths do not exist.
    pub fn stranger(name: &'static str, browser: &Browser, role: Role) -> Self {
        Self { name, browser: browser.clone(), role: Some(role), sees: false }
    }

    /// Somebody who sees the things in the paths.
    pub fn insider(name: &'static str, browser: &Browser, role: Role) -> Self {
        Self { name, browser: browser.clone(), role: Some(role), sees: true }
    }

    /// Whether a route is of their role.
    pub fn has(&self, stop: &Stop) -> bool {
        let theirs: &[Who] = match self.role {
            None => &[],
            Some(Role::Owner) => &[Who::Member, Who::Owner],
            Some(Role::Trainer) => &[Who::Member, Who::Trainer],
            Some(Role::Lead) => &[Who::Member, Who::Trainer, Who::Lead],
        };
        theirs.contains(&stop.who)
    }

    /// Asks for one route.
    pub async fn ask(&mut self, method: &Method, path: &str) -> Answer {
        self.browser.ask(method.clone(), path, &[], From::OurPage).await
    }

    /// Asks for everything that is not of their role, and is refused each time in the way that tells least.
    pub async fn is_kept_out(&mut self, stops: &[Stop]) {
        for stop in stops.iter().filter(|stop| stop.who != Who::Public) {
            if !self.has(stop) {
                self.is_refused(stop).await;
            }
        }
    }

    async fn is_refused(&mut self, stop: &Stop) {
        let answer = self.ask(&stop.method, &stop.path).await;
        let name = self.name;
        if self.role.is_some() || stop.who == Who::Link {
            assert_eq!(answer.status(), self.refusal(stop), "{name}: {answer:?}");
            return;
        }
        let next = if stop.method == Method::GET { stop.path.as_str() } else { "/" };
        let query = form_urlencoded::Serializer::new(String::new()).append_pair("next", next).finish();
        assert_eq!(answer.location(), Some(format!("/sign-in?{query}").as_str()), "{name}: {answer:?}");
    }

    /// 403 for an act on what they see; everything else of another role does not exist.
    fn refusal(&self, stop: &Stop) -> u16 {
        if stop.method == Method::GET || stop.who == Who::Link {
            return 404;
        }
        let is_owner = self.role == Some(Role::Owner);
        let sees = match names(stop.pattern).next() {
            None => !is_owner,
            Some("batch" | "exercise" | "member" | "template" | "phrase" | "view") => self.sees && !is_owner,
            Some(_) => self.sees,
        };
        if sees { 403 } else { 404 }
    }

    /// Asks for other people's things through the routes of their own role, and finds nothing.
    pub async fn finds_nothing(&mut self, stops: &[Stop]) {
        for stop in stops.iter().filter(|stop| stop.has_id) {
            if self.has(stop) {
                let answer = self.ask(&stop.method, &stop.path).await;
                assert_eq!(answer.status(), 404, "{}: {answer:?}", self.name);
            }
        }
    }

    /// Asks for the pages of their own role about things that are theirs, and gets every one.
    pub async fn finds(&mut self, stops: &[Stop]) {
        let pages = stops.iter().filter(|stop| stop.method == Method::GET && stop.has_every_id);
        self.opens(pages).await;
    }

    /// Asks for the pages of their own role that name nothing, and gets every one.
    pub async fn is_let_in(&mut self, stops: &[Stop]) {
        let pages = stops.iter().filter(|stop| stop.method == Method::GET && !stop.has_id);
        self.opens(pages).await;
    }

    async fn opens(&mut self, pages: impl Iterator<Item = &Stop>) {
        for stop in pages {
            if self.has(stop) {
                let answer = self.ask(&stop.method, &stop.path).await;
                let fine = answer.status() == 200 || answer.status() == 303;
                assert!(fine, "{}: {answer:?}", self.name);
            }
        }
    }

    /// Tries every path by every method: HEAD says what GET says, and what a path does not offer it refuses.
    pub async fn gets_nowhere_by_other_methods(&mut self, stops: &[Stop]) {
        let mut paths: BTreeMap<&str, (&str, Vec<&Method>)> = BTreeMap::new();
        for stop in stops {
            let (_, offered) = paths.entry(stop.pattern).or_insert((&stop.path, Vec::new()));
            offered.push(&stop.method);
        }
        for (path, offered) in paths.into_values() {
            for method in METHODS.iter().filter(|method| !offered.contains(method)) {
                let answer = self.ask(method, path).await;
                if *method == Method::HEAD && offered.contains(&&Method::GET) {
                    let page = self.ask(&Method::GET, path).await;
                    assert_eq!(answer.status(), page.status(), "{}: {answer:?}", self.name);
                    assert_eq!(lasting(&answer), lasting(&page), "{}: {answer:?}", self.name);
                } else {
                    assert_eq!(answer.status(), 405, "{}: {answer:?}", self.name);
                }
                assert!(*method != Method::HEAD || answer.body().is_empty(), "{answer:?} has a body");
            }
        }
    }
}

/// The headers that are the same each time.
fn lasting(answer: &Answer) -> HeaderMap {
    let mut headers = answer.headers().clone();
    for name in ["x-request-id", "content-length"] {
        headers.remove(name);
    }
    headers
}
