//! Reading a library file in: paste, check, look at what it would do, and only then add.

use std::collections::HashSet;

use askama::Template;
use askama_web::WebTemplate;
use axum::extract::State;
use axum::response::IntoResponse;

use crate::actions::import_exercises::import_exercises;
use crate::app::App;
use crate::domain::dates::counted;
use crate::domain::library_file::{self, Entry, MOST_CHARACTERS};
use crate::domain::vocabulary::ItemKind;
use crate::store::exercise;
use crate::store::sign_in::SignedIn;
use crate::web::choices::Choices;
use crate::web::form_page::{FormPage, form_pages};
use crate::web::library::copy_name::copy_name;
use crate::web::{Answer, Form, Page, TrainerOnly};

/// The most problems that are shown at once.
const SHOWN: usize = 100;

/// An exercise of the file, and what would become of it.
struct Row {
    name: String,
    kind: ItemKind,
    steps: String,
    /// The field in which to choose.
    field: String,
    /// What to choose from where the name is taken; empty where it is new.
    choices: Choices,
}

#[derive(Template, WebTemplate)]
#[template(path = "library/import.html")]
struct ImportPage {
    page: Page,
    form: Form,
    problems: Vec<String>,
    more: usize,
    rows: Vec<Row>,
    new: usize,
}
form_pages!(ImportPage);

fn page(who: &SignedIn, form: Form) -> ImportPage {
    let page = Page::of(who, "Read a library file", "library");
    ImportPage { page, form, problems: Vec::new(), more: 0, rows: Vec::new(), new: 0 }
}

/// The page to paste into.
pub async fn show(TrainerOnly(who): TrainerOnly) -> Answer {
    Ok(page(&who, Form::blank()).into_response())
}

/// Checks what was pasted; adds it where that was asked for.
pub async fn submit(State(app): State<App>, TrainerOnly(mut who): TrainerOnly, mut form: Form) -> Answer {
    let text = form.required("text", MOST_CHARACTERS, "Paste a library file, or choose one.");
    if !form.is_fine() {
        return Ok(page(&who, form).again());
    }
    let entries = match library_file::read(&text) {
        Ok(entries) => entries,
        Err(problems) => {
            let count = counted(i64::try_from(problems.len()).unwrap_or(i64::MAX), "thing", "things");
            form.refuse("text", format!("The file has {count} to put right. Nothing was added."));
            let mut page = page(&who, form);
            page.more = problems.len().saturating_sub(SHOWN);
            page.problems = problems.iter().take(SHOWN).map(ToString::to_string).collect();
            return Ok(page.again());
        }
    };
    let taken = exercise::names(&mut who.tx).await?;
    let rows = rows(&entries, &taken);
    let wanted = if form.value("do") == "add" { Some(chosen(&mut form, entries, &rows)) } else { None };
    let mut page = page(&who, form);
    page.new = rows.iter().filter(|row| row.choices.is_empty()).count();
    page.rows = rows;
    let Some(wanted) = wanted else { return Ok(page.into_response()) };
    if !page.form.is_fine() {
        return Ok(page.again());
    }
    let done = import_exercises(who.tx, &who.actor, wanted, &app.moment()).await;
    page.settle(done, "/library?notice=exercises-imported")
}

/// What would become of each exercise. Copies get names that neither the library nor the file has.
fn rows(entries: &[Entry], taken: &HashSet<String>) -> Vec<Row> {
    let mut names: HashSet<String> = entries.iter().map(|entry| entry.name.clone()).collect();
    names.extend(taken.iter().cloned());
    let row = |(number, entry): (usize, &Entry)| {
        let mut choices = Choices::new();
        if taken.contains(&entry.name) {
            let copy = copy_name(&entry.name, &names);
            names.insert(copy.clone());
            choices.push((String::new(), "Leave it out: the library keeps its own".to_owned()));
            choices.push((copy.clone(), format!("Add it as “{copy}”")));
        }
        Row {
            name: entry.name.clone(),
            kind: entry.kind,
            steps: match entry.steps.len() {
                0 => String::new(),
                n => counted(i64::try_from(n).unwrap_or(i64::MAX), "step", "steps"),
            },
            field: format!("entry-{number}"),
            choices,
        }
    };
    (1..).zip(entries).map(row).collect()
}

/// The exercises to add, under their new names where they are copies. A choice that is none of those on the page was
/// made of another library than this one is by now: it is refused.
fn chosen(form: &mut Form, entries: Vec<Entry>, rows: &[Row]) -> Vec<Entry> {
    let mut wanted = Vec::new();
    for (mut entry, row) in entries.into_iter().zip(rows) {
        let said = form.text(&row.field, 200);
        if row.choices.is_empty() && said.is_empty() {
            wanted.push(entry);
        } else if row.choices.iter().all(|(value, _)| *value != said) {
            let message =
                "The library changed after you checked the file. Nothing was added: look at the list again.";
            form.forget(&row.field);
            form.refuse("text", message);
        } else if !said.is_empty() {
            entry.name = said;
            wanted.push(entry);
        }
    }
    if wanted.is_empty() {
        form.refuse(
            "text",
            "There is nothing to add: the library has every name already. Choose copies, or leave it.",
        );
    }
    wanted
}
