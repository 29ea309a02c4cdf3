//! What a dog works for: a page to add, change or remove each.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use crate::actions::keep_reinforcer::{add_reinforcer, keep_reinforcer};
use crate::actions::remove_reinforcer::remove_reinforcer;
use crate::app::App;
use crate::domain::scales;
use crate::ids::{DogId, ReinforcerId};
use crate::store::dog::Dog;
use crate::store::reinforcer::{self, Reinforcer};
use crate::store::sign_in::SignedIn;
use crate::web::choices::{self, Choices, YES_NO, number, yes_no};
use crate::web::dogs::load;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError};

#[derive(Template, WebTemplate)]
#[template(path = "dogs/reinforcer.html")]
struct ReinforcerPage {
    page: Page,
    form: Form,
    dog: Dog,
    id: Option<ReinforcerId>,
    ranks: Choices,
    yes_no: [(&'static str, &'static str); 2],
}
form_pages!(ReinforcerPage);

fn page(who: &SignedIn, dog: Dog, id: Option<ReinforcerId>, form: Form) -> ReinforcerPage {
    let title = if id.is_some() { "Change a reinforcer" } else { "Add a reinforcer" };
    ReinforcerPage {
        page: Page::of(who, title, "caseload"),
        form,
        dog,
        id,
        ranks: choices::scale(&scales::REINFORCER),
        yes_no: YES_NO,
    }
}

fn read(form: &mut Form, dog: DogId, id: ReinforcerId) -> Reinforcer {
    let what = form.required("what", 200, "Enter what the dog works for.");
    let rank = form.whole("rank", "How much it is wanted", 1, 5);
    if rank.is_none() {
        form.refuse("rank", "Choose how much the dog wants it.");
    }
    let is_toy = form.tick("is_toy");
    let kcal_per_g = form.decimal("kcal_per_g", "Energy", 0.1, 9.9).filter(|_| !is_toy);
    let grams_per_piece = form.decimal("grams_per_piece", "One piece", 0.05, 99.0).filter(|_| !is_toy);
    let from_meals = form.yes_no("from_meals").filter(|_| !is_toy);
    Reinforcer { id, dog, what, rank: rank.unwrap_or(1), is_toy, kcal_per_g, grams_per_piece, from_meals }
}

fn filled(reinforcer: &Reinforcer) -> Form {
    Form::blank()
        .with("what", &reinforcer.what)
        .with("rank", reinforcer.rank.to_string())
        .with("is_toy", if reinforcer.is_toy { "yes" } else { "" })
        .with("kcal_per_g", number(reinforcer.kcal_per_g))
        .with("grams_per_piece", number(reinforcer.grams_per_piece))
        .with("from_meals", yes_no(reinforcer.from_meals))
}

async fn find(who: &mut SignedIn, dog: DogId, id: ReinforcerId) -> Result<Reinforcer, WebError> {
    reinforcer::find(dog, id).read(&mut who.tx).await?.ok_or(WebError::NotFound)
}

/// The page for a new one.
pub async fn new(State(app): State<App>, At(dog): At<DogId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = load(&mut who, dog).await?;
    let id: ReinforcerId = app.moment().id();
    Ok(page(&who, dog, None, Form::blank().with("id", id.to_string())).into_response())
}

/// Adds one.
pub async fn add(
    State(app): State<App>,
    At(dog): At<DogId>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let moment = app.moment();
    let new = form.id("id").unwrap_or_else(|| moment.id());
    let (id, new) = (dog.id, read(&mut form, dog.id, new));
    let page = page(&who, dog, None, form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = add_reinforcer(who.tx, &who.actor, &new, &moment).await;
    page.settle(done, &format!("/dogs/{id}/profile?notice=saved"))
}

/// The page of one.
pub async fn show(At((dog, id)): At<(DogId, ReinforcerId)>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let dog = load(&mut who, dog).await?;
    let reinforcer = find(&mut who, dog.id, id).await?;
    Ok(page(&who, dog, Some(id), filled(&reinforcer)).into_response())
}

/// Changes one.
pub async fn edit(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReinforcerId)>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    find(&mut who, dog.id, id).await?;
    let changed = read(&mut form, dog.id, id);
    let page = page(&who, dog, Some(id), form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = keep_reinforcer(who.tx, &who.actor, &changed, &app.moment()).await;
    page.settle(done, &format!("/dogs/{}/profile?notice=saved", changed.dog))
}

/// Removes one, as long as no record names it.
pub async fn remove(
    State(app): State<App>,
    At((dog, id)): At<(DogId, ReinforcerId)>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = load(&mut who, dog).await?;
    let reinforcer = find(&mut who, dog.id, id).await?;
    let page = page(&who, dog, Some(id), filled(&reinforcer));
    let done = remove_reinforcer(who.tx, &who.actor, reinforcer.dog, id, &app.moment()).await;
    page.settle(done, &format!("/dogs/{}/profile?notice=removed", reinforcer.dog))
}
