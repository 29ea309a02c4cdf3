//! Adding to the library, and changing what is in it.

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::{IntoResponse, Response};

use crate::actions::add_exercise::add_exercise;
use crate::actions::edit_exercise::{Ladder, edit_exercise, mark};
use crate::app::App;
use crate::domain::scales;
use crate::domain::vocabulary::{Clip, Energy, ItemKind, Line, Outcome, SkillClass};
use crate::ids::ExerciseId;
use crate::store::sign_in::SignedIn;
use crate::store::{exercise, step};
use crate::web::choices::{self, Choices};
use crate::web::form_page::{FormPage, form_pages};
use crate::web::library::copy_name::copy_name;
use crate::web::library::step_rows::{self, RowNames};
use crate::web::library::{entry_form, ladder_csv};
use crate::web::{Answer, At, Form, Page, TrainerOnly, WebError};

/// The most characters of a table of steps.
const MOST_OF_A_TABLE: usize = 20_000;

#[derive(Template, WebTemplate)]
#[template(path = "library/edit.html")]
struct EditPage {
    page: Page,
    form: Form,
    id: Option<ExerciseId>,
    rows: Vec<RowNames>,
    has_room: bool,
    kinds: Choices,
    lines: Choices,
    clips: Choices,
    energies: Choices,
    classes: Choices,
    outcomes: Choices,
    levels: Choices,
    /// What is wrong with a table that was to be read into the steps.
    csv_problems: Vec<String>,
}
form_pages!(EditPage);

fn page(who: &SignedIn, id: Option<ExerciseId>, form: Form) -> EditPage {
    let title = if id.is_some() { "Change the entry" } else { "Add to the library" };
    let rows = step_rows::names(&form);
    EditPage {
        page: Page::of(who, title, "library"),
        form,
        id,
        has_room: rows.len() < step_rows::MOST,
        rows,
        kinds: choices::words::<ItemKind>(),
        lines: choices::words::<Line>(),
        clips: choices::words::<Clip>(),
        energies: choices::words::<Energy>(),
        classes: choices::words::<SkillClass>(),
        outcomes: choices::words::<Outcome>(),
        levels: choices::scale(&scales::DISTRACTION),
        csv_problems: Vec::new(),
    }
}

/// The page with a row added or moved, or with the steps of a table, if that is what was asked for; the form otherwise.
fn rearranged(who: &SignedIn, id: Option<ExerciseId>, mut form: Form) -> Result<Response, Form> {
    let asked = form.value("do").to_owned();
    let form = match asked.split_once('-') {
        Some(("add", "step")) => step_rows::with_one_more(form),
        Some(("up", number)) => step_rows::moved_up(form, number.parse().unwrap_or(0)),
        Some(("read", "csv")) => {
            let text = form.text("csv", MOST_OF_A_TABLE);
            let read = ladder_csv::read(&text).and_then(|rows| step_rows::with_table(&mut form, &rows));
            let Err(problems) = read else { return Ok(page(who, id, form).into_response()) };
            form.refuse("csv", "The table cannot be read as it is. The steps are as they were.");
            let mut page = page(who, id, form);
            page.csv_problems = problems;
            return Ok(page.again());
        }
        _ => {
            if !form.text("csv", MOST_OF_A_TABLE).is_empty() {
                let message =
                    "The table is not in the steps yet: put them in and look at them, or empty this field.";
                form.refuse("csv", message);
            }
            return Err(form);
        }
    };
    Ok(page(who, id, form).into_response())
}

/// The page for a new entry.
pub async fn new(TrainerOnly(who): TrainerOnly) -> Answer {
    let form = (0..step_rows::AT_FIRST).fold(entry_form::fresh(), |form, _| step_rows::with_one_more(form));
    Ok(page(&who, None, form).into_response())
}

/// Adds an entry.
pub async fn add(State(app): State<App>, TrainerOnly(who): TrainerOnly, form: Form) -> Answer {
    let mut form = match rearranged(&who, None, form) {
        Ok(page) => return Ok(page),
        Err(form) => form,
    };
    let moment = app.moment();
    let entry = entry_form::read(&mut form, moment.id());
    let steps = step_rows::read(&mut form, entry.id, &[], &moment);
    let page = page(&who, None, form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = add_exercise(who.tx, &who.actor, &entry, &steps, &moment).await;
    page.settle(done, &format!("/library/{}?notice=exercise-added", entry.id))
}

/// The page for a new entry that begins as a copy of another.
pub async fn copy(At(id): At<ExerciseId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let mut entry = exercise::find(&mut who.tx, id).await?.ok_or(WebError::NotFound)?;
    let steps = step::of_exercise(id).read(&mut who.tx).await?;
    entry.name = copy_name(&entry.name, &exercise::names(&mut who.tx).await?);
    let form = step_rows::copied(entry_form::filled(&entry), &steps);
    Ok(page(&who, None, form).into_response())
}

/// The page of an entry.
pub async fn show(At(id): At<ExerciseId>, TrainerOnly(mut who): TrainerOnly) -> Answer {
    let entry = exercise::find(&mut who.tx, id).await?.ok_or(WebError::NotFound)?;
    let steps = step::of_exercise(id).read(&mut who.tx).await?;
    let form = step_rows::filled(entry_form::filled(&entry), &steps).with("ladder", mark(&steps));
    Ok(page(&who, Some(id), form).into_response())
}

/// Changes an entry.
pub async fn edit(
    State(app): State<App>,
    At(id): At<ExerciseId>,
    TrainerOnly(mut who): TrainerOnly,
    form: Form,
) -> Answer {
    exercise::find(&mut who.tx, id).await?.ok_or(WebError::NotFound)?;
    let mut form = match rearranged(&who, Some(id), form) {
        Ok(page) => return Ok(page),
        Err(form) => form,
    };
    let moment = app.moment();
    let known = step::of_exercise(id).read(&mut who.tx).await?;
    let entry = entry_form::read(&mut form, id);
    let ladder = Ladder {
        seen: form.value("ladder").to_owned(),
        steps: step_rows::read(&mut form, id, &known, &moment),
        removed: step_rows::removed(&mut form),
    };
    let page = page(&who, Some(id), form);
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = edit_exercise(who.tx, &who.actor, &entry, &ladder, &moment).await;
    page.settle(done, &format!("/library/{id}?notice=saved"))
}
