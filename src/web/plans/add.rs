//! Choosing from the library what to add to the draft.

use std::collections::HashMap;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::{Query, State};
use axum::http::StatusCode;
use axum::response::{IntoResponse, Redirect};
use sha2::{Digest, Sha256};
use uuid::Uuid;

use crate::actions::Refusal;
use crate::actions::add_draft_item::add_draft_item;
use crate::app::App;
use crate::clock::Moment;
use crate::domain::vocabulary::ItemKind;
use crate::ids::{DogId, ExerciseId, LineId};
use crate::store::dog::Dog;
use crate::store::exercise::{self, Exercise, Wanted};
use crate::store::plan_draft;
use crate::store::sign_in::SignedIn;
use crate::web::plans::dog_of;
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError};

/// The most characters of a search.
pub const LONGEST_SEARCH: usize = 100;

/// One offer.
struct Offer {
    exercise: Exercise,
    /// The draft has it already.
    held: bool,
}

/// A kind with its offers.
struct Group {
    heading: &'static str,
    offers: Vec<Offer>,
}

#[derive(Template, WebTemplate)]
#[template(path = "plans/add.html")]
struct AddPage {
    page: Page,
    dog: Dog,
    form: Form,
    search: String,
    groups: Vec<Group>,
    id: String,
}

async fn page(
    who: &mut SignedIn,
    dog: Dog,
    search: String,
    form: Form,
    id: Uuid,
) -> Result<AddPage, WebError> {
    let wanted = Wanted { search: search.clone(), ..Wanted::default() };
    let found = exercise::list(&mut who.tx, &wanted).await?;
    let held: Vec<String> =
        plan_draft::items(&mut who.tx, dog.id).await?.into_iter().map(|item| item.name).collect();
    let kinds = [ItemKind::StandingArrangement, ItemKind::Exercise, ItemKind::OwnerSkill];
    let groups = kinds.into_iter().map(|kind| Group {
        heading: match kind {
            ItemKind::StandingArrangement => "Standing arrangements",
            ItemKind::Exercise => "Exercises",
            ItemKind::OwnerSkill => "Owner’s skills without the dog",
        },
        offers: found
            .iter()
            .filter(|exercise| exercise.kind == kind)
            .map(|exercise| Offer { exercise: exercise.clone(), held: held.contains(&exercise.name) })
            .collect(),
    });
    Ok(AddPage {
        page: Page::of(who, format!("{}: add to the draft", dog.name), "caseload").with_errors(&form),
        dog,
        form,
        search,
        groups: groups.filter(|group| !group.offers.is_empty()).collect(),
        id: id.to_string(),
    })
}

/// The library, by kind.
pub async fn add_page(
    State(app): State<App>,
    At(dog): At<String>,
    Query(query): Query<HashMap<String, String>>,
    TrainerOnly(mut who): TrainerOnly,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let search =
        query.get("q").map(|text| text.trim().chars().take(LONGEST_SEARCH).collect()).unwrap_or_default();
    Ok(page(&mut who, dog, search, Form::blank(), app.moment().id()).await?.into_response())
}

/// An id for one showing of a page that adds.
pub fn page_id(moment: &Moment) -> String {
    let id: Uuid = moment.id();
    id.to_string()
}

/// The line that an exercise gets from one showing of the page: one page offers many, and each at most once.
pub fn line_of(page: Uuid, dog: DogId, exercise: ExerciseId) -> LineId {
    let hash = Sha256::digest(format!("draft item 1|{page}|{dog}|{exercise}").as_bytes());
    let mut bytes = [0; 16];
    bytes.copy_from_slice(&hash[..16]);
    LineId(uuid::Builder::from_custom_bytes(bytes).into_uuid())
}

/// Adds what was chosen, and goes on to its details.
pub async fn add(
    State(app): State<App>,
    At(dog): At<String>,
    TrainerOnly(mut who): TrainerOnly,
    mut form: Form,
) -> Answer {
    let dog = dog_of(&mut who, &dog).await?;
    let (page_id, exercise) = (form.id::<Uuid>("id"), form.id::<ExerciseId>("exercise"));
    let (Some(exercise), true) = (exercise, form.is_fine()) else {
        if exercise.is_none() {
            form.refuse("exercise", "Choose something from your library.");
        }
        let page_id = page_id.unwrap_or_else(|| app.moment().id());
        let page = page(&mut who, dog, String::new(), form, page_id).await?;
        return Ok((StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    };
    let dog_id: DogId = dog.id;
    let moment = app.moment();
    let page = page_id.unwrap_or_else(|| moment.id());
    let line = line_of(page, dog_id, exercise);
    match add_draft_item(who.tx, &who.actor, dog_id, exercise, line, &moment).await {
        Ok(line) => {
            Ok(Redirect::to(&format!("/dogs/{dog_id}/plan/items/{line}?notice=plan-added")).into_response())
        }
        Err(Refusal::Field { .. }) => {
            Ok(Redirect::to(&format!("/dogs/{dog_id}/plan/edit?notice=plan-full")).into_response())
        }
        Err(other) => Err(other.into()),
    }
}
