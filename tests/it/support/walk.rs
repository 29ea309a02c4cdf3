//! Walking every route of the table, with ids put where a route wants them.

use std::collections::BTreeMap;

use axum::http::Method;
use settlebrook::web::routes::{self, Who};
use uuid::Uuid;

/// What a path names that is a word and no thing: a section of a dog's profile.
const SECTION: (&str, &str) = ("section", "health");

/// One stop of a walk.
#[derive(Debug, Clone)]
pub struct Stop {
    /// GET or POST.
    pub method: Method,
    /// The path as the table has it.
    pub pattern: &'static str,
    /// The path to ask for.
    pub path: String,
    /// Who may ask.
    pub who: Who,
    /// Whether the path names something that must exist.
    pub has_id: bool,
    /// Whether every one of those things is there.
    pub has_every_id: bool,
}

/// Every route, with these things' ids in the paths, and random ones for what is not among them.
pub fn every_route(things: &BTreeMap<&'static str, Uuid>) -> Vec<Stop> {
    let stops = routes::table().into_iter().map(|route| Stop {
        method: route.method.clone(),
        pattern: route.path,
        path: fill(route.path, things),
        who: route.who,
        has_id: route.path.contains('{'),
        has_every_id: names(route.path).count() > 0
            && names(route.path).all(|name| name == SECTION.0 || things.contains_key(name)),
    });
    stops.collect()
}

/// Every path that can be asked for, with `text` wherever it wants an id.
pub fn every_page_with(text: &str) -> Vec<String> {
    let pages = routes::table().into_iter().filter(|route| route.method == Method::GET);
    let part = |part: &'static str| if part.starts_with('{') { text.to_owned() } else { part.to_owned() };
    pages.map(|route| route.path.split('/').map(part).collect::<Vec<_>>().join("/")).collect()
}

/// The names of things that a path wants.
pub fn names(pattern: &'static str) -> impl Iterator<Item = &'static str> {
    pattern.split('/').filter_map(|part| part.strip_prefix('{')?.strip_suffix('}'))
}

/// `{dog}` is filled with the thing called `dog`; `/dogs/{id}` with the one called `dogs`.
fn fill(pattern: &str, things: &BTreeMap<&'static str, Uuid>) -> String {
    let mut before = "";
    let mut filled = Vec::new();
    for part in pattern.split('/') {
        match part.strip_prefix('{').and_then(|p| p.strip_suffix('}')) {
            Some(name) if name == SECTION.0 => filled.push(SECTION.1.to_owned()),
            Some(name) => {
                let thing = things.get(if name == "id" { before } else { name });
                filled.push(thing.copied().unwrap_or_else(Uuid::new_v4).to_string());
            }
            None => filled.push(part.to_owned()),
        }
        before = part;
    }
    filled.join("/")
}
