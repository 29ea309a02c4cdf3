//! The numbers of the welfare rules as this practice has them, for the lead trainer to set within their safe bounds.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};

use crate::actions::Refusal;
use crate::actions::set_house_numbers::{set_house_numbers, shown};
use crate::app::App;
use crate::domain::lists::in_a_sentence;
use crate::domain::vocabulary::{Clip, Word};
use crate::domain::welfare::{CATALOGUE, Group, HouseNumbers, Parameter, Rule, parameters};
use crate::store::house::{self, House};
use crate::web::choices::{self, Choices};
use crate::web::{Answer, Form, LeadOnly, Page, WebError, notice};

#[derive(Template, WebTemplate)]
#[template(path = "practice/numbers.html")]
struct NumbersPage {
    page: Page,
    form: Form,
    groups: Vec<(Group, Vec<Asked>)>,
    clips: Choices,
}

/// A number that is asked for.
struct Asked {
    parameter: &'static Parameter,
    /// Its unit, where that fits beside what is typed; a longer one stands in the hint.
    unit: &'static str,
    hint: String,
}

/// The longest unit that stands in a field, in characters.
const UNIT_IN_FIELD: usize = 9;

fn rules_with(parameter: &Parameter) -> impl Iterator<Item = &'static Rule> {
    let key = parameter.key;
    CATALOGUE.iter().copied().filter(move |rule| rule.parameters.iter().any(|other| other.key == key))
}

fn asked(parameter: &'static Parameter) -> Asked {
    let rules: Vec<&str> = rules_with(parameter).map(|rule| rule.title).collect();
    let Parameter { low, high, value, unit, .. } = *parameter;
    let (unit, long) =
        if unit.chars().count() > UNIT_IN_FIELD { ("", format!(" {unit}")) } else { (unit, String::new()) };
    let hint = format!(
        "From {low} to {high}{long}; {value} where you leave it open. Used by: {}.",
        in_a_sentence(&rules)
    );
    Asked { parameter, unit, hint }
}

/// Every number once, under the group of the first rule that uses it.
fn groups() -> Vec<(Group, Vec<Asked>)> {
    let of = |group: Group| {
        let here =
            |parameter: &&Parameter| rules_with(parameter).next().is_some_and(|rule| rule.group == group);
        (group, parameters().into_iter().filter(here).map(asked).collect::<Vec<_>>())
    };
    Group::ALL.into_iter().map(of).filter(|(_, asked)| !asked.is_empty()).collect()
}

fn page(page: Page, form: Form) -> NumbersPage {
    NumbersPage { page: page.with_errors(&form), form, groups: groups(), clips: choices::words::<Clip>() }
}

fn filled(house: &House) -> Form {
    let set = parameters().into_iter().filter(|parameter| house.numbers.is_set(parameter));
    let form = set.fold(Form::blank(), |form, parameter| {
        form.with(parameter.key, house.numbers.of(parameter).to_string())
    });
    let form = house.not_used.iter().fold(form, |form, clip| form.with("clips_not_used", clip.stored()));
    form.with("seen", shown(house))
}

/// What is wanted; a number that is left open, or as the catalogue says, is not set.
fn read(form: &mut Form) -> House {
    let mut set = Vec::new();
    for parameter in parameters() {
        let value = form.decimal(parameter.key, parameter.name, parameter.low, parameter.high);
        set.extend(value.filter(|value| *value != parameter.value).map(|value| (parameter.key, value)));
    }
    let ticked: Vec<Clip> = form.ticked("clips_not_used");
    let not_used = Clip::ALL.iter().copied().filter(|clip| ticked.contains(clip)).collect();
    House { numbers: HouseNumbers::with(set), not_used }
}

/// The numbers.
pub async fn show(LeadOnly(mut who): LeadOnly, Query(query): Query<HashMap<String, String>>) -> Answer {
    let house = house::find().read(&mut who.tx).await?;
    let frame = Page::of(&who, "The numbers of the rules", "practice").with_notice(notice::of(&query));
    Ok(page(frame, filled(&house)).into_response())
}

/// Sets them.
pub async fn submit(State(app): State<App>, LeadOnly(who): LeadOnly, mut form: Form) -> Answer {
    let wanted = read(&mut form);
    let frame = Page::of(&who, "The numbers of the rules", "practice");
    if !form.is_fine() {
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page(frame, form)).into_response());
    }
    let seen = form.value("seen").to_owned();
    match set_house_numbers(who.tx, &who.actor, &wanted, &seen, &app.moment()).await {
        Ok(()) => Ok(Redirect::to("/practice/numbers?notice=saved").into_response()),
        Err(Refusal::Field { field, message }) => {
            form.refuse(field, message);
            Ok((StatusCode::UNPROCESSABLE_ENTITY, page(frame, form)).into_response())
        }
        Err(other) => Err(WebError::from(other)),
    }
}
