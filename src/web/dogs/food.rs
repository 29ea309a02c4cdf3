//! A dog's food: what it needs in a day, what it earned in training, what fits, and the energy of foods.

mod view;

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, RawQuery, State};
use axum::response::IntoResponse;

use crate::app::App;
use crate::domain::food::label::{Estimate, Kind, Label, estimate};
use crate::domain::food::listed::{self, Listed};
use crate::ids::DogId;
use crate::store::dog::Dog;
use crate::web::dogs::load;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, search, zones};

pub use view::FoodView;

/// The fields of the label, with what they are called.
const SHARES: [(&str, &str); 5] =
    [("protein", "Protein"), ("fat", "Fat"), ("moisture", "Moisture"), ("fibre", "Fibre"), ("ash", "Ash")];

/// The kinds of food that a label is worked out for.
const KINDS: [(&str, &str); 2] =
    [("processed", "Dog food or treat"), ("natural", "Natural food, such as meat or cheese")];

#[derive(Template, WebTemplate)]
#[template(path = "dogs/food.html")]
struct FoodPage {
    page: Page,
    form: Form,
    dog: Dog,
    food: FoodView,
    search: String,
    listed: Vec<&'static Listed>,
    estimate: Option<Estimate>,
    kinds: [(&'static str, &'static str); 2],
}
form_pages!(FoodPage);

/// What a label in a form comes to; nothing where none was typed, and what is wrong with it is in the form.
fn read(form: &mut Form) -> Option<Estimate> {
    let shares = SHARES.map(|(name, label)| form.decimal(name, label, 0.0, 100.0));
    if SHARES.iter().all(|(name, _)| form.value(name).trim().is_empty()) {
        return None;
    }
    for ((name, label), share) in SHARES.iter().zip(shares).take(3) {
        if share.is_none() {
            form.refuse(name, format!("{label}: enter the per cent from the label."));
        }
    }
    let [protein, fat, moisture, fibre, ash] = shares;
    let label = Label { protein: protein?, fat: fat?, moisture: moisture?, fibre, ash };
    let kind = if form.is("kind", "natural") { Kind::Natural } else { Kind::Processed };
    let found = estimate(&label, kind);
    if let Err(wrong) = found {
        form.refuse("protein", wrong.says());
    }
    found.ok().filter(|_| form.is_fine())
}

/// The whole of it. A label and a search come in the address, since nothing is kept.
pub async fn show(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    Query(query): Query<HashMap<String, String>>,
    RawQuery(typed): RawQuery,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let today = zones::local_date(app.moment().at, &dog.zone);
    let mut form = Form::parse(typed.unwrap_or_default().as_bytes());
    let estimate = read(&mut form);
    let search = search::text(&query);
    let page = FoodPage {
        page: Page::of(&who, format!("{}: food", dog.name), "caseload"),
        food: FoodView::of(dog.id, today).read(&mut who.tx).await?,
        listed: listed::search(&search),
        search,
        estimate,
        kinds: KINDS,
        form,
        dog,
    };
    Ok(if page.form.is_fine() { page.into_response() } else { page.again() })
}
