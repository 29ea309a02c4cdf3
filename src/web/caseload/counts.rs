//! How many dogs there are of each need: above the caseload, each a way to see those alone.

use std::collections::HashMap;

use super::query_of;
use super::view::Stands;
use crate::domain::caseload::Need;

/// One need and its dogs.
pub struct Count {
    /// What trainers read.
    pub label: &'static str,
    /// How many dogs need it first of all.
    pub dogs: usize,
    /// Where they are shown alone; for the one that is chosen, where all are again.
    pub href: String,
    /// Whether it is the one that is chosen.
    pub is_chosen: bool,
}

/// The needs that are there, the most pressing first; the one that is chosen is always among them.
pub fn of(standing: &[Stands<'_>], chosen: Option<Need>, query: &HashMap<String, String>) -> Vec<Count> {
    let counts = Need::ALL.into_iter().filter_map(|need| {
        let dogs = standing.iter().filter(|stands| stands.standing.need == need).count();
        let is_chosen = chosen == Some(need);
        let mut to = query.clone();
        to.insert("need".to_owned(), if is_chosen { String::new() } else { need.key().to_owned() });
        (dogs > 0 || is_chosen).then(|| Count {
            label: need.label(),
            dogs,
            href: match query_of(&to).as_str() {
                "" => "/caseload".to_owned(),
                query => format!("/caseload?{query}"),
            },
            is_chosen,
        })
    });
    counts.collect()
}
