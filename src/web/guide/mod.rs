//! "What we watch for, and why": every rule of the catalogue, for trainers and for owners, each in their words.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::Query;
use axum::response::{IntoResponse, Response};

use crate::domain::vocabulary::Role;
use crate::domain::welfare::{CATALOGUE, Group, HouseNumbers, Parameter, Rule, rule};
use crate::store::house;
use crate::web::{Answer, AnyMember, Page, own_dog};

#[derive(Template, WebTemplate)]
#[template(path = "guide/trainer.html")]
struct TrainerGuide {
    page: Page,
    is_lead: bool,
    groups: Vec<(Group, Vec<Entry>)>,
}

#[derive(Template, WebTemplate)]
#[template(path = "guide/owner.html")]
struct OwnerGuide {
    page: Page,
    groups: Vec<(Group, Vec<Entry>)>,
    /// The group of the entry that a card led to; it stands open.
    led_to: Option<Group>,
}

/// One rule with the numbers as this practice has them.
struct Entry {
    rule: &'static Rule,
    numbers: Vec<Number>,
}

struct Number {
    name: &'static str,
    value: String,
    is_set: bool,
}

/// A number of a rule as it is read: with its unit, as this practice has it.
pub fn in_words(parameter: &Parameter, numbers: &HouseNumbers) -> String {
    format!("{} {}", numbers.of(parameter), parameter.unit).trim_end().to_owned()
}

fn entry(rule: &'static Rule, numbers: &HouseNumbers) -> Entry {
    let of = |parameter: &Parameter| Number {
        name: parameter.name,
        value: in_words(parameter, numbers),
        is_set: numbers.is_set(parameter),
    };
    Entry { rule, numbers: rule.parameters.iter().map(of).collect() }
}

fn groups(numbers: &HouseNumbers) -> Vec<(Group, Vec<Entry>)> {
    let of = |group: Group| {
        let rules = CATALOGUE.iter().copied().filter(|rule| rule.group == group);
        (group, rules.map(|rule| entry(rule, numbers)).collect::<Vec<_>>())
    };
    Group::ALL.into_iter().map(of).filter(|(_, entries)| !entries.is_empty()).collect()
}

/// The guide.
pub async fn show(Query(query): Query<HashMap<String, String>>, AnyMember(mut who): AnyMember) -> Answer {
    let led_to = query.get("rule").and_then(|id| rule(id)).map(|rule| rule.group);
    let numbers = house::find().read(&mut who.tx).await?.numbers;
    let groups = groups(&numbers);
    let title = "What we watch for, and why";
    let here = if who.member.role == Role::Owner { "plan" } else { "practice" };
    let page = own_dog::page(&mut who, title, here).await?;
    Ok(shown(page, groups, led_to))
}

fn shown(page: Page, groups: Vec<(Group, Vec<Entry>)>, led_to: Option<Group>) -> Response {
    if page.for_trainer() {
        let is_lead = page.me.as_ref().is_some_and(|me| me.is_lead);
        TrainerGuide { page, is_lead, groups }.into_response()
    } else {
        OwnerGuide { page, groups, led_to }.into_response()
    }
}
