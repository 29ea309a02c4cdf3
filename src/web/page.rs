//! What every page carries: its title, who is reading, where they are, and what just happened.

use crate::domain::vocabulary::Role;
use crate::ids::MembershipId;
use crate::store::sign_in::SignedIn;
use crate::web::assets;

/// The frame of a page; every template's struct has one as `page`.
#[derive(Debug, Clone, Default)]
pub struct Page {
    /// The title, without the product's name.
    pub title: String,
    /// Whether the page shows errors; the title then starts with "Error: ".
    pub error: bool,
    /// What just happened, in one sentence.
    pub notice: Option<String>,
    /// Who is reading.
    pub me: Option<Me>,
    /// The part of the navigation that the page belongs to.
    pub here: &'static str,
    /// Messages that an owner has not read yet.
    pub unread: i64,
    /// The practice's name.
    pub practice: String,
}

/// Who is reading.
#[derive(Debug, Clone)]
pub struct Me {
    /// Their name.
    pub name: String,
    /// Their role's label.
    pub role: &'static str,
    /// Whether they are a trainer or a lead trainer.
    pub is_trainer: bool,
    /// Whether they run the practice.
    pub is_lead: bool,
    /// Whose pages and logs a phone keeps, where it keeps any: an owner's.
    pub account: Option<MembershipId>,
}

impl Page {
    /// A page for somebody who is not signed in.
    pub fn plain(title: impl Into<String>) -> Self {
        Self { title: title.into(), ..Self::default() }
    }

    /// A page for somebody signed in; `here` is the part of the navigation.
    pub fn of(who: &SignedIn, title: impl Into<String>, here: &'static str) -> Self {
        let role = who.member.role;
        let me = Me {
            name: who.member.name.clone(),
            role: crate::domain::vocabulary::Word::label(role),
            is_trainer: role != Role::Owner,
            is_lead: role == Role::Lead,
            account: (role == Role::Owner).then_some(who.member.id),
        };
        Self {
            title: title.into(),
            me: Some(me),
            here,
            practice: who.practice.name.clone(),
            ..Self::default()
        }
    }

    /// Whether a trainer is reading; an owner's page has another shell.
    pub fn for_trainer(&self) -> bool {
        self.me.as_ref().is_some_and(|me| me.is_trainer)
    }

    /// Whose pages and logs a phone keeps; empty where it keeps none.
    pub fn account(&self) -> String {
        self.me.as_ref().and_then(|me| me.account).map(|id| id.to_string()).unwrap_or_default()
    }

    /// The same page, saying what just happened.
    #[must_use]
    pub fn with_notice(mut self, notice: Option<String>) -> Self {
        self.notice = notice;
        self
    }

    /// The same page, marked as showing errors when there are any.
    #[must_use]
    pub fn with_errors(mut self, form: &crate::web::Form) -> Self {
        self.error = !form.errors().is_empty();
        self
    }

    /// The address of a static file.
    pub fn asset(&self, name: &str) -> String {
        assets::address(name)
    }
}
