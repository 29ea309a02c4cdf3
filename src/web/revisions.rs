//! What was changed of a log or an encounter, as its page says it; and what its forms need for changing it.

use std::collections::BTreeSet;

use askama::Template;
use askama_web::WebTemplate;
use axum::response::{IntoResponse, Response};
use time::Date;

use crate::domain::vocabulary::Role;
use crate::store::dog::Dog;
use crate::store::revision::Revision;
use crate::store::sign_in::SignedIn;
use crate::web::{Form, Page, WebError, own_dog, zones};

/// What to say where something was removed while it was being changed.
pub const REMOVED_MEANWHILE: &str = "This was removed after you opened the page, so nothing of yours was kept. What you wrote is still in \
    the form. If it did take place, copy what you need and tell it anew.";

/// What was stated, label and value.
pub type Facts = Vec<(&'static str, String)>;

/// One change.
pub struct Change {
    /// Who changed it and when: "Changed on Thu 12 Mar, 18:04 by Ada".
    pub said: String,
    /// Why; may be empty.
    pub reason: String,
    /// What it said before, where it says something else since.
    pub before: Facts,
}

/// What was done to something, the newest first. `now` is what it says today, and `told` what it said in an earlier one.
pub fn changes<T>(
    revisions: &[Revision<T>],
    now: &T,
    told: impl Fn(&T) -> Facts,
    zone: &str,
    today: Date,
) -> Vec<Change> {
    let mut after = told(now);
    let mut changes = Vec::new();
    for revision in revisions {
        let before = told(&revision.before);
        let verb = if revision.removes { "Removed" } else { "Changed" };
        changes.push(Change {
            said: format!("{verb} on {} by {}", zones::day_and_time(revision.at, zone, today), revision.by),
            reason: revision.reason.clone(),
            before: if revision.removes { Facts::new() } else { differing(&before, &after) },
        });
        after = before;
    }
    changes
}

/// What `before` said that `after` does not, and what it left open.
fn differing(before: &Facts, after: &Facts) -> Facts {
    let said: BTreeSet<&str> = before.iter().map(|(label, _)| *label).collect();
    let unsaid = after.iter().filter(|(label, _)| !said.contains(label));
    let unsaid = unsaid.map(|(label, _)| (*label, "Not said".to_owned()));
    before.iter().filter(|fact| !after.contains(fact)).cloned().chain(unsaid).collect()
}

/// What the form for changing something needs beside what the form for a new one asks.
pub struct Changing {
    /// Where it goes.
    pub action: String,
    /// Where it leads back to.
    pub back: String,
    /// The revision that the form was made on.
    pub revision: i32,
    /// What it says now, where somebody has changed it while the form was open.
    pub meanwhile: Facts,
}

/// What is asked before something is removed.
pub struct Removal {
    /// The question.
    pub heading: &'static str,
    /// What it is about.
    pub about: String,
    /// Where the form goes.
    pub action: String,
    /// Where it leads back to.
    pub back: String,
    /// The revision that the page was made on.
    pub revision: i32,
    /// What it says now.
    pub facts: Facts,
    /// Whether a reason must be given.
    pub is_asked_why: bool,
    /// The dog.
    pub dog: Dog,
}

#[derive(Template, WebTemplate)]
#[template(path = "revisions/remove_owner.html")]
struct OwnerRemoval {
    page: Page,
    form: Form,
    removal: Removal,
}

#[derive(Template, WebTemplate)]
#[template(path = "revisions/remove_trainer.html")]
struct TrainerRemoval {
    page: Page,
    form: Form,
    removal: Removal,
}

/// The page that asks before something is removed, with whatever is wrong in it.
pub async fn removal_page(who: &mut SignedIn, removal: Removal, form: Form) -> Result<Response, WebError> {
    let status = form.status();
    if who.member.role == Role::Owner {
        let page = own_dog::page(who, removal.heading, "today").await?.with_errors(&form);
        return Ok((status, OwnerRemoval { page, form, removal }).into_response());
    }
    let page = Page::of(who, removal.heading, "caseload").with_errors(&form);
    Ok((status, TrainerRemoval { page, form, removal }).into_response())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_differs_is_what_it_said_before() {
        let before = vec![("Count", "7 of 10".to_owned()), ("Note", "Windy.".to_owned())];
        let after = vec![
            ("Count", "8 of 10".to_owned()),
            ("Note", "Windy.".to_owned()),
            ("Took", "5 min".to_owned()),
        ];
        let said = [("Count", "7 of 10".to_owned()), ("Took", "Not said".to_owned())];
        assert_eq!(differing(&before, &after), said);
    }
}
